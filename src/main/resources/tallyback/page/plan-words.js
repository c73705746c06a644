// What fits where the cursor stands, out of the plan's published schema and the names already in the plan.

import { snippetCompletion } from "@codemirror/autocomplete";

/** Fields that name something else of the plan, and of which list. */
const NAMES = {
  of: ["items", "places"], off: ["items"], on: ["items"], plug: ["items"], needs: ["steps"], fluid: ["fluids"],
  subject: ["items", "systems", "places"],
};

/**
 * Where in a plan a text ends: {path, key, word, inList}. path: the fields around it, from the outermost; key: the field
 * whose value is being written, or null where a field's name is; word: what is written of it so far.
 */
export function placeIn(text) {
  let block = []; // {indent, key}
  let flow = []; // {key, brace}
  let pending = null; // the field whose value comes next
  let word = "";
  let column = 0;
  let lineStart = true;
  let quote = "";
  for (let i = 0; i < text.length; i++) {
    const c = text[i];
    if (c === "\n") {
      column = 0;
      quote = flow.length > 0 ? quote : "";
      if (flow.length === 0) {
        lineStart = true;
        word = "";
      }
      continue;
    }
    column++;
    if (quote) {
      word += c;
      if (c === quote) {
        quote = "";
      }
      continue;
    }
    if (c === "#" && (i === 0 || /\s/.test(text[i - 1]))) {
      const end = text.indexOf("\n", i);
      if (end < 0) {
        return null; // in a remark
      }
      i = end - 1;
      continue;
    }
    if (flow.length === 0 && lineStart) {
      if (c === " " || (c === "-" && /\s|$/.test(text[i + 1] ?? ""))) {
        continue;
      }
      lineStart = false;
      word = "";
      // A new line of the block: what was further in, or as far, has ended.
      block = block.filter((each) => each.indent < column - 1);
      pending = null;
    }
    if (c === "'" || c === '"') {
      quote = c;
      word += c;
    } else if (c === "{" || c === "[") {
      flow.push({ key: pending, brace: c === "{" });
      pending = null;
      word = "";
    } else if (c === "}" || c === "]") {
      const closed = flow.pop();
      pending = closed ? closed.key : null;
      word = "";
    } else if (c === "," && flow.length > 0) {
      pending = null;
      word = "";
    } else if (c === ":" && /\s|$/.test(text[i + 1] ?? "")) {
      pending = word.trim();
      if (flow.length === 0) {
        block.push({ indent: column - 1 - word.trim().length, key: pending });
      }
      word = "";
    } else if (!(word === "" && /\s/.test(c))) {
      word += c;
    }
  }
  if (quote) {
    return null;
  }
  const inner = flow[flow.length - 1];
  let around = block.map((each) => each.key);
  let key = null;
  if (flow.length === 0) {
    const value = pending !== null && !lineStart;
    if (value) {
      key = around.pop();
    } else if (lineStart) {
      // Only what stands further out than the cursor goes on.
      around = block.filter((each) => each.indent < column).map((each) => each.key);
    }
  } else {
    if (flow[0].key !== null && around[around.length - 1] === flow[0].key) {
      around.pop();
    }
    around = around.concat(flow.map((each) => each.key).filter((each) => each !== null));
    if (inner.brace) {
      key = pending;
    } else if (pending === null) {
      key = around.pop() ?? null; // a list of words
    }
  }
  return { path: around, key, word, inList: Boolean(inner && !inner.brace) };
}

export class Words {
  constructor(schema) {
    this.schema = schema;
    this.ids = {};
  }

  /** All that a node may be: what it refers to, and each of its alternatives. */
  variants(node) {
    if (!node) {
      return [];
    }
    if (node.$ref) {
      const target = this.schema.$defs[node.$ref.replace("#/$defs/", "")];
      return this.variants(target).map((each) => ({ ...each, description: node.description || each.description }));
    }
    const others = [...(node.oneOf || []), ...(node.anyOf || [])].flatMap((each) => this.variants(each));
    return others.length > 0 && !node.properties
      ? others.map((each) => ({ ...each, description: node.description || each.description }))
      : [node, ...others];
  }

  /** What a field holds, each element where it holds a list. */
  inside(nodes, key) {
    return nodes
      .flatMap((node) => this.variants(node.properties && node.properties[key]))
      .flatMap((node) => (node.items ? this.variants(node.items) : [node]));
  }

  /** For the editor: what fits at the cursor. */
  offer(context) {
    const before = context.state.sliceDoc(0, context.pos);
    const place = placeIn(before);
    const word = context.matchBefore(/[\p{L}\p{N}-]*/u);
    if (!place || (word.from === word.to && !context.explicit)) {
      return null;
    }
    let nodes = [this.schema];
    for (const key of place.path) {
      nodes = this.inside(nodes, key);
    }
    const options = place.key === null ? this.fields(nodes) : this.values(nodes, place.key);
    return options.length === 0 ? null : { from: word.from, options, validFor: /^[\p{L}\p{N}-]*$/u };
  }

  fields(nodes) {
    return nodes
      .filter((node) => node.properties)
      .flatMap((node) =>
        Object.entries(node.properties).map(([name, property]) => {
          const [what] = this.variants(property);
          const list = this.variants(property).find((each) => each.type === "array");
          const ofWords = list && !this.variants(list.items).some((each) => each.properties);
          const must = (node.required || []).includes(name);
          const about = { label: name, type: "property", detail: must ? "needed" : "", info: property.description || what.description };
          return ofWords ? snippetCompletion(`${name}: [\${}]`, about) : { ...about, apply: `${name}: ` };
        }),
      );
  }

  values(nodes, key) {
    const found = this.inside(nodes, key);
    const words = found.flatMap((node) => [
      ...(node.enum || []).map(String),
      ...(node.type === "boolean" ? ["true", "false"] : []),
    ]);
    const names = (NAMES[key] || []).flatMap((list) => this.ids[list] || []);
    return [
      ...new Set(words),
    ].map((label) => ({ label, type: "enum" })).concat(names.map((label) => ({ label, type: "variable" })));
  }
}
