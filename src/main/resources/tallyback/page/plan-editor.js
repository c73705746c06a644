// The text of a plan, with line numbers, what is wrong underlined, and what fits offered.

import { autocompletion, closeBrackets, closeBracketsKeymap, completionKeymap } from "@codemirror/autocomplete";
import { defaultKeymap, history, historyKeymap } from "@codemirror/commands";
import { HighlightStyle, StreamLanguage, bracketMatching, indentService, indentUnit, syntaxHighlighting } from "@codemirror/language";
import { yaml } from "@codemirror/legacy-modes/mode/yaml";
import { lintGutter, setDiagnostics } from "@codemirror/lint";
import { highlightSelectionMatches, searchKeymap } from "@codemirror/search";
import { EditorState } from "@codemirror/state";
import { EditorView, drawSelection, highlightActiveLine, highlightActiveLineGutter, keymap, lineNumbers } from "@codemirror/view";
import { tags } from "@lezer/highlight";

const INK = HighlightStyle.define([
  { tag: tags.comment, color: "var(--faint)", fontStyle: "italic" },
  { tag: tags.atom, fontWeight: "700" },
  { tag: tags.string, color: "var(--noted)" },
  { tag: tags.number, color: "var(--noted)" },
  { tag: tags.meta, color: "var(--faint)" },
]);

const LOOK = EditorView.theme({
  "&": { color: "var(--ink)", backgroundColor: "var(--paper)", fontSize: "1rem" },
  "&.cm-focused": { outline: "none" },
  ".cm-scroller": { fontFamily: 'ui-monospace, "DejaVu Sans Mono", "Liberation Mono", monospace', lineHeight: "1.5" },
  ".cm-content": { caretColor: "var(--ink)", padding: ".4rem 0" },
  ".cm-cursor": { borderLeftColor: "var(--ink)", borderLeftWidth: "2px" },
  ".cm-gutters": { backgroundColor: "var(--sheet)", color: "var(--faint)", borderRight: "1px solid var(--line)" },
  ".cm-activeLine": { backgroundColor: "color-mix(in srgb, var(--sheet) 60%, transparent)" },
  ".cm-activeLineGutter": { backgroundColor: "var(--ink)", color: "var(--paper)" },
  "&.cm-focused .cm-selectionBackground, .cm-selectionBackground, &.cm-focused > .cm-scroller > .cm-selectionLayer .cm-selectionBackground": {
    backgroundColor: "color-mix(in srgb, var(--check) 35%, transparent)",
  },
  ".cm-matchingBracket, &.cm-focused .cm-matchingBracket": { backgroundColor: "transparent", outline: "1px solid var(--line)" },
  ".cm-lintRange": { backgroundImage: "none", paddingBottom: "0", textDecoration: "underline 2px var(--faint)" },
  ".cm-lintRange-error": { backgroundImage: "none", textDecoration: "underline wavy 2px var(--stop)" },
  ".cm-lintRange-warning": { backgroundImage: "none", textDecoration: "underline dashed 2px var(--check)" },
  ".cm-lintRange-info": { backgroundImage: "none", textDecoration: "underline dotted 2px var(--faint)" },
  ".cm-lint-marker": { content: "none", width: "1em", height: "1em", fontWeight: "700", lineHeight: "1.5", textAlign: "center" },
  ".cm-lint-marker-error": { content: "normal", color: "var(--stop)" },
  ".cm-lint-marker-warning": { content: "normal", color: "var(--check)" },
  ".cm-lint-marker-info": { content: "normal", color: "var(--faint)" },
  ".cm-lint-marker-error::before": { content: '"■"' },
  ".cm-lint-marker-warning::before": { content: '"▲"' },
  ".cm-lint-marker-info::before": { content: '"●"' },
  ".cm-tooltip": { backgroundColor: "var(--paper)", color: "var(--ink)", border: "2px solid var(--ink)", maxWidth: "34rem" },
  ".cm-tooltip.cm-tooltip-autocomplete > ul > li[aria-selected]": { backgroundColor: "var(--ink)", color: "var(--paper)" },
  ".cm-tooltip.cm-tooltip-autocomplete > ul": { fontFamily: "inherit", maxHeight: "16em" },
  ".cm-tooltip.cm-tooltip-autocomplete > ul > li": { padding: ".25rem .6rem" },
  ".cm-completionDetail": { fontStyle: "normal", opacity: ".8" },
  ".cm-tooltip.cm-completionInfo": { padding: ".4rem .7rem" },
  ".cm-diagnostic": { padding: ".35rem .7rem", borderLeft: "5px solid var(--faint)" },
  ".cm-diagnostic-error": { borderLeftColor: "var(--stop)" },
  ".cm-diagnostic-warning": { borderLeftColor: "var(--check)" },
  ".cm-panels": { backgroundColor: "var(--sheet)", color: "var(--ink)" },
  ".cm-panel.cm-search": { fontSize: "1rem", padding: ".4rem" },
  ".cm-textfield": { backgroundColor: "var(--paper)", border: "2px solid var(--ink)", fontSize: "1rem" },
  ".cm-button": { backgroundImage: "none", backgroundColor: "var(--paper)", border: "2px solid var(--ink)", fontSize: "1rem" },
});

/** A new line stands where the one before does: under its words behind a dash, further in after a colon. */
const INDENT = indentService.of((context, pos) => {
  const before = context.state.doc.lineAt(pos);
  const line = before.from === pos && before.number > 1 ? context.state.doc.line(before.number - 1).text : context.lineAt(pos, -1).text;
  const [, spaces, dash] = /^( *)(- )?/.exec(line);
  return spaces.length + (dash ? 2 : 0) + (/:\s*(#.*)?$/.test(line) ? 2 : 0);
});

const SEVERITY = { stop: "error", check: "warning", note: "info" };

/**
 * Puts an editor into an element.
 *
 * words: knows what fits. on: {changed(), save()}.
 */
export class PlanEditor {
  constructor(parent, label, words, on) {
    this.label = label;
    this.words = words;
    this.on = on;
    this.view = new EditorView({ parent, state: this.state("") });
  }

  state(text) {
    return EditorState.create({
      doc: text,
      extensions: [
        lineNumbers(),
        highlightActiveLine(),
        highlightActiveLineGutter(),
        history(),
        drawSelection(),
        bracketMatching(),
        closeBrackets(),
        highlightSelectionMatches(),
        lintGutter(),
        indentUnit.of("  "),
        INDENT,
        StreamLanguage.define(yaml),
        syntaxHighlighting(INK),
        autocompletion({ override: [(context) => this.words.offer(context)] }),
        keymap.of([
          { key: "Mod-s", preventDefault: true, run: () => (this.on.save(), true) },
          ...closeBracketsKeymap,
          ...defaultKeymap,
          ...searchKeymap,
          ...historyKeymap,
          ...completionKeymap,
        ]),
        EditorView.lineWrapping,
        EditorView.contentAttributes.of({ "aria-label": this.label, tabindex: "0", spellcheck: "false", autocapitalize: "off", autocorrect: "off" }),
        EditorView.updateListener.of((update) => {
          if (update.docChanged) {
            this.on.changed();
          }
        }),
        EditorView.cspNonce.of(document.querySelector("meta[name=style-nonce]").content),
        LOOK,
      ],
    });
  }

  get text() {
    return this.view.state.doc.toString();
  }

  /** Another plan: nothing of the one before can be brought back into it. */
  open(text) {
    this.view.setState(this.state(text));
  }

  /** The same plan with a few letters changed, which can be undone. */
  replace(text) {
    const before = this.text;
    let from = 0;
    while (from < before.length && from < text.length && before[from] === text[from]) {
      from++;
    }
    let back = 0;
    while (back < before.length - from && back < text.length - from && before[before.length - 1 - back] === text[text.length - 1 - back]) {
      back++;
    }
    this.view.dispatch({ changes: { from, to: before.length - back, insert: text.slice(from, text.length - back) } });
  }

  show(faults) {
    const doc = this.view.state.doc;
    const diagnostics = faults.map((fault) => {
      const line = doc.line(Math.min(Math.max(1, fault.line), doc.lines));
      const from = Math.min(line.from + Math.max(0, fault.column - 1), line.to);
      const word = /^[^\s,\]}]+/.exec(doc.sliceString(from, line.to));
      return { from, to: from + (word ? word[0].length : 0), severity: SEVERITY[fault.weight], message: fault.text };
    });
    this.view.dispatch(setDiagnostics(this.view.state, diagnostics));
  }

  goTo(line, column = 1) {
    const at = this.view.state.doc.line(Math.min(Math.max(1, line), this.view.state.doc.lines));
    const pos = Math.min(at.from + column - 1, at.to);
    this.view.dispatch({ selection: { anchor: pos }, effects: EditorView.scrollIntoView(pos, { y: "center" }) });
    this.view.focus();
  }
}
