// The page of plans: choose, read, change, look through, keep, begin a job.

import { Refused, asking } from "./ask.js";
import { PlanEditor } from "./plan-editor.js";
import { TEXTS } from "./plan-texts.js";
import { Words } from "./plan-words.js";

const $ = (id) => document.getElementById(id);
const LOOK_AFTER_MS = 500;
const EMPTY = "empty";

let open = null; // {id, kind, name, file}, id null for one that was never kept
let hash = "";
let keptText = "";
let looked = null; // what the last look found
let lookNumber = 0;
let lookTimer = 0;
let job = null;
let phones = false;

// ---- asking the server

const server = asking(TEXTS.away);
const ask = (path, method = "GET", body = undefined) =>
  server(path, body === undefined ? { method } : { method, body, headers: { "Content-Type": "text/plain; charset=utf-8" } });

const query = (values) => new URLSearchParams(values).toString();

/** Whatever goes wrong is shown, and what was typed stays where it is. */
async function trying(work) {
  note("trouble", "");
  try {
    return await work();
  } catch (e) {
    if (!(e instanceof Refused)) {
      throw e;
    }
    note("trouble", e.message);
    return null;
  }
}

function note(id, text) {
  $(id).hidden = !text;
  $(id).textContent = text || "";
}

function element(name, text, attributes = {}) {
  const made = document.createElement(name);
  made.textContent = text;
  Object.entries(attributes).forEach(([key, value]) => made.setAttribute(key, value));
  return made;
}

// ---- what was not saved outlasts the page

const draftKey = () => `tallyback-plan-${open.id || EMPTY}`;

function keepDraft() {
  try {
    if (isChanged()) {
      localStorage.setItem(draftKey(), JSON.stringify({ hash, name: open.name, text: editor.text, at: new Date().toTimeString().slice(0, 5) }));
    } else {
      localStorage.removeItem(draftKey());
    }
  } catch (e) {
    // This browser keeps nothing.
  }
}

function draft() {
  try {
    return JSON.parse(localStorage.getItem(draftKey()));
  } catch (e) {
    return null;
  }
}

// ---- the shelf

async function list() {
  const shelf = await trying(() => ask("/plans/list"));
  if (!shelf) {
    return [];
  }
  job = shelf.job;
  phones = shelf.phones;
  const groups = ["given", "own", "starter"].map((kind) => group(TEXTS.kinds[kind], shelf.plans.filter((plan) => plan.kind === kind)));
  groups[2].append(cardButton({ id: null, name: TEXTS.empty, toEnter: 0 }));
  const jobs = document.createElement("section");
  if (shelf.jobs.length > 0) {
    jobs.append(element("h2", TEXTS.openJobs));
    shelf.jobs.forEach((each) => jobs.append(jobButton(each)));
  }
  $("cards").replaceChildren(...groups.filter((each) => each.children.length > 1), jobs);
  $("folder").textContent = TEXTS.folder(shelf.folder);
  mark();
  return shelf.plans;
}

function group(title, plans) {
  const section = document.createElement("section");
  section.append(element("h2", title), ...plans.map(cardButton));
  return section;
}

function cardButton(plan) {
  const button = element("button", plan.name, { type: "button", class: "card", "data-plan": plan.id || EMPTY });
  if (plan.toEnter > 0) {
    button.append(element("span", TEXTS.toEnter(plan.toEnter), { class: "small" }));
  }
  button.addEventListener("click", () => choose(plan.id));
  return button;
}

function jobButton(each) {
  const now = each.id === job;
  const button = element("button", TEXTS.openJob(each), { type: "button", class: "card" });
  button.append(element("span", now ? TEXTS.thisJob : TEXTS.entries(each.entries), { class: "small" }));
  button.disabled = now;
  button.addEventListener("click", () => trying(async () => {
    await ask(`/plans/go-on?${query({ job: each.id })}`, "POST", "");
    begun();
  }));
  return button;
}

function mark() {
  const id = open ? open.id || EMPTY : "";
  document.querySelectorAll("[data-plan]").forEach((card) => {
    card.toggleAttribute("aria-current", card.dataset.plan === id);
  });
}

// ---- one plan

async function choose(id) {
  if (open) {
    keepDraft();
  }
  const opened = id
    ? await trying(() => ask(`/plans/text?${query({ plan: id })}`))
    : { plan: { id: null, kind: "own", name: TEXTS.empty, file: "plan.yaml", toEnter: 0 }, text: TEXTS.newPlan("My job"), hash: "" };
  if (!opened) {
    return;
  }
  ["naming", "beginning", "coded"].forEach((each) => ($(each).hidden = true));
  take(opened);
  const before = draft();
  editor.open(before ? before.text : opened.text);
  $("restored").hidden = !before;
  if (before) {
    $("restored").firstElementChild.textContent = TEXTS.restored(before.at);
    hash = before.hash;
  }
  $("desk").hidden = false;
  if (!matchMedia("(min-width: 60rem)").matches) {
    $("shelf-fold").open = false;
  }
  history.replaceState(null, "", id ? `/plans?${query({ plan: id })}` : "/plans");
  changed(0);
  await list();
}

function take(opened) {
  open = opened.plan;
  hash = opened.hash;
  keptText = opened.text;
  $("plan-name").textContent = open.name;
  $("plan-file").textContent = open.id ? open.file : "";
  document.title = `Plans: ${open.name}`;
  $("sheet").href = open.id ? `/plans/sheet?${query({ plan: open.id })}` : "";
  $("sheet").hidden = !open.id;
  $("to-phone").hidden = !open.id;
}

const isChanged = () => editor.text !== keptText;
const isStarter = () => open.kind === "starter";

function changed(after = LOOK_AFTER_MS) {
  if (!open) {
    return;
  }
  showKept();
  clearTimeout(lookTimer);
  lookTimer = setTimeout(look, after);
}

function showKept() {
  const changedNow = isChanged() || !open.id;
  $("kept").hidden = false;
  $("kept").dataset.state = changedNow ? "open" : "here";
  $("kept").textContent = changedNow ? (isStarter() ? TEXTS.starter : TEXTS.unsaved) : TEXTS.saved;
  $("save").disabled = !changedNow || isStarter() || !open.id;
  const stops = looked ? looked.faults.filter((fault) => fault.weight === "stop").length : 0;
  $("begin").disabled = !looked || !looked.usable;
  $("begin-why").textContent = looked && !looked.usable ? TEXTS.beginWhyStops(Math.max(1, stops)) : "";
}

async function look() {
  keepDraft();
  const number = ++lookNumber;
  const text = editor.text;
  $("found-says").textContent = looked ? $("found-says").textContent : TEXTS.looking;
  const found = await trying(() => ask(`/plans/lint?${query({ file: open.file })}`, "POST", text));
  if (!found || number !== lookNumber || text !== editor.text) {
    return;
  }
  looked = found;
  words.ids = found.ids || {};
  editor.show(found.faults);
  showFaults(found.faults);
  showGaps(found.gaps);
  showView(found.view);
  showKept();
}

function showFaults(faults) {
  const count = (weight) => faults.filter((fault) => fault.weight === weight).length;
  $("found-says").textContent = faults.length === 0 ? TEXTS.right : TEXTS.counts(count("stop"), count("check"), count("note"));
  $("faults").replaceChildren(
    ...faults.map((fault) => {
      const item = element("li", "", { "data-weight": fault.weight });
      const button = element("button", fault.text, { type: "button", class: "plain" });
      button.addEventListener("click", () => editor.goTo(fault.line, fault.column));
      item.append(element("strong", TEXTS.weights[fault.weight]), " ", button);
      return item;
    }),
  );
}

// ---- what belongs to the manual

function showGaps(gaps) {
  $("manual").hidden = gaps.length === 0;
  $("manual-title").textContent = TEXTS.manual(gaps.length);
  const focused = document.activeElement && document.activeElement.closest("[data-gap]");
  const again = (gap, i) => i > 0 && gaps[i - 1].of === gap.of;
  const typed = new Map([...$("gaps").children].map((form) => [form.dataset.gap, new FormData(form)]));
  if (focused && gaps.some((gap) => gapKey(gap) === focused.dataset.gap)) {
    // Somebody is writing in one of them: the others are brought up to date around it.
    [...$("gaps").children].forEach((form) => form !== focused && form.remove());
    let behind = false;
    for (const [i, gap] of gaps.entries()) {
      if (gapKey(gap) === focused.dataset.gap) {
        focused.dataset.line = gap.line;
        focused.dataset.column = gap.column;
        focused.classList.toggle("again", again(gap, i));
        behind = true;
      } else if (behind) {
        $("gaps").append(gapForm(gap, typed.get(gapKey(gap)), again(gap, i)));
      } else {
        focused.before(gapForm(gap, typed.get(gapKey(gap)), again(gap, i)));
      }
    }
    return;
  }
  $("gaps").replaceChildren(...gaps.map((gap, i) => gapForm(gap, typed.get(gapKey(gap)), again(gap, i))));
}

const gapKey = (gap) => `${gap.of}/${gap.field}`;

function gapForm(gap, typed, again) {
  const form = element("form", "", { class: again ? "gap again" : "gap", "data-gap": gapKey(gap), "data-line": gap.line, "data-column": gap.column });
  const field = TEXTS.fields[gap.field] || gap.field;
  const id = `gap-${gapKey(gap).replace(/[^a-z0-9]/gi, "-")}`;
  const head = element("button", gap.of, { type: "button", class: "plain" });
  head.addEventListener("click", () => editor.goTo(Number(form.dataset.line), Number(form.dataset.column)));
  const title = element("p", "", { class: "of" });
  title.append(head);
  form.append(title);
  const row = element("div", "", { class: "fields" });
  for (const answer of gap.answers) {
    const label = element("label", TEXTS.answers[answer] || TEXTS.answer(field), { for: `${id}-${answer}` });
    const input = element("input", "", { id: `${id}-${answer}`, name: answer, type: "text", maxlength: "80", autocomplete: "off", autocapitalize: "off", spellcheck: "false", "aria-describedby": `${id}-says` });
    input.value = typed ? typed.get(answer) || "" : "";
    const cell = element("div", "");
    cell.append(label, input);
    row.append(cell);
  }
  const button = element("button", TEXTS.putIn, { type: "submit", "aria-label": `${TEXTS.putIn}: ${gap.of}, ${field}` });
  row.append(button);
  form.append(row, element("p", "", { id: `${id}-says`, class: "says", role: "alert" }));
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    trying(() => fill(form, gap.of, field));
  });
  return form;
}

async function fill(form, of, field) {
  const written = Object.fromEntries(new FormData(form));
  const says = form.querySelector(".says");
  const answer = await ask(
    `/plans/fill?${query({ file: open.file, line: form.dataset.line, column: form.dataset.column, ...written })}`,
    "POST",
    editor.text,
  );
  if (answer.wrong.length > 0) {
    says.textContent = answer.wrong.map((fault) => fault.text.replace(/^[^ ]+ [a-z]+: /, "")).join("\n");
    form.querySelector("input").focus();
    return;
  }
  const next = form.nextElementSibling;
  form.remove();
  editor.replace(answer.text);
  $("found-says").textContent = TEXTS.putInDone(field, of);
  if (next) {
    next.querySelector("input").focus();
  }
}

// ---- the plan to read

function showView(view) {
  $("machine").textContent = view ? view.machine : TEXTS.notReadable;
  if (!view) {
    return; // what could be read last stays
  }
  if (view.name && open.id) {
    $("plan-name").textContent = view.name;
  }
  $("tables").replaceChildren(...view.tables.map(table));
}

function table(shown) {
  const wide = element("div", "", { class: "wide", tabindex: "0", role: "region", "aria-label": shown.title });
  const made = document.createElement("table");
  const head = document.createElement("tr");
  shown.columns.forEach((column) => head.append(element("th", column, { scope: "col" })));
  const top = document.createElement("thead");
  top.append(head);
  const body = document.createElement("tbody");
  for (const row of shown.rows) {
    const line = document.createElement("tr");
    const name = shown.columns[0] === "no." ? 1 : 0;
    row.cells.forEach((cell, index) => {
      const made = element("td", index === name && row.line > 0 ? "" : cell, { "data-column": shown.columns[index] });
      if (index === name && row.line > 0) {
        const go = element("button", cell, { type: "button", class: "plain", title: TEXTS.line(row.line) });
        go.addEventListener("click", () => editor.goTo(row.line));
        made.append(go);
      }
      line.append(made);
    });
    body.append(line);
    row.below.forEach((caution) => {
      const mind = document.createElement("tr");
      mind.append(element("td", caution, { colspan: String(shown.columns.length), class: "mind" }));
      body.append(mind);
    });
  }
  made.append(element("caption", shown.title), top, body);
  wide.append(made);
  return wide;
}

// ---- keeping it

async function save() {
  if (!open || (open.id && !isChanged())) {
    return true;
  }
  if (isStarter() || !open.id) {
    naming();
    return false;
  }
  const text = editor.text;
  const kept = await trying(() => ask(`/plans/text?${query({ plan: open.id, hash })}`, "PUT", text));
  if (kept) {
    keptNow(kept);
  }
  return kept !== null;
}

function keptNow(kept) {
  const key = draftKey();
  take(kept);
  try {
    localStorage.removeItem(key);
  } catch (e) {
    // Nothing was kept there either.
  }
  $("restored").hidden = true;
  showKept();
  if (kept.copy) {
    note("trouble", TEXTS.savedWithCopy(kept.copy));
  }
  history.replaceState(null, "", `/plans?${query({ plan: open.id })}`);
  list();
}

function naming() {
  $("naming").hidden = false;
  $("new-name").value = open.id ? open.name : "";
  $("new-name").focus();
  $("new-name").select();
}

/** The plan is called in its text as well as by its file. */
function named(text, name) {
  const quoted = /^[\p{L}\p{N}][\p{L}\p{N} ,.()'\u00b7/-]*$/u.test(name) ? name : JSON.stringify(name);
  return text.replace(/^name:[^\n]*/m, () => `name: ${quoted}`);
}

async function saveNew() {
  const name = $("new-name").value.trim();
  if (!name) {
    return;
  }
  const before = draftKey();
  const text = named(editor.text, name);
  const kept = await trying(() => ask(`/plans/new?${query({ name })}`, "POST", text));
  if (kept) {
    $("naming").hidden = true;
    editor.replace(kept.text);
    try {
      localStorage.removeItem(before);
    } catch (e) {
      // Nothing was kept there either.
    }
    keptNow(kept);
    changed(0);
    $("plan-name").focus();
  }
}

// ---- a job of it

async function askToBegin() {
  if (isStarter() ? isChanged() : !(await save())) {
    if (isStarter()) {
      naming();
    }
    return;
  }
  await list();
  $("beginning-title").textContent = TEXTS.beginTitle(open.name);
  $("beginning-says").textContent = TEXTS.beginSays(job, looked ? looked.gaps.length : 0);
  $("beginning").hidden = false;
  $("beginning-title").focus();
}

async function begin() {
  const answer = await trying(() => ask(`/plans/begin?${query({ plan: open.id })}`, "POST", ""));
  if (answer) {
    begun();
  }
}

/** The page of the job says what it listens to once it is there. */
function begun() {
  $("beginning").hidden = true;
  location.assign("/");
}

// ---- a code for the phone

async function showCode() {
  if (!phones) {
    note("trouble", TEXTS.noPhones);
    return;
  }
  const address = `/plans/code.svg?${query({ plan: open.id })}`;
  await trying(async () => {
    const answer = await fetch(address);
    if (!answer.ok) {
      throw new Refused((await answer.json()).says.join("\n"));
    }
    $("code-picture").src = address;
    $("code-picture").alt = answer.headers.get("X-Address");
    $("code-address").textContent = answer.headers.get("X-Address");
    $("coded-title").textContent = TEXTS.codeTitle(open.name);
    $("coded").hidden = false;
    $("coded-title").focus();
  });
}

// ---- putting it together

const words = new Words(await ask("/plans/plan.schema.json").catch(() => ({ $defs: {} })));
const editor = new PlanEditor($("editor"), TEXTS.writing, words, { changed, save });

for (const [id, text] of Object.entries({
  save: TEXTS.save, "save-new": TEXTS.saveNew, begin: TEXTS.begin, sheet: TEXTS.sheet, "to-phone": TEXTS.code,
  "writing-title": TEXTS.writing, "writing-help": TEXTS.writingHelp, "found-title": TEXTS.found, "manual-says": TEXTS.manualSays,
  "reading-title": TEXTS.reading, "naming-label": TEXTS.nameIt, "naming-yes": TEXTS.nameYes, "naming-no": TEXTS.no,
  "begin-yes": TEXTS.beginYes, "begin-no": TEXTS.no, "code-print": TEXTS.print, "code-away": TEXTS.close, "code-says": TEXTS.codeSays,
})) {
  $(id).textContent = text;
}
$("restored").lastElementChild.textContent = TEXTS.throwAway;

$("save").addEventListener("click", save);
$("save-new").addEventListener("click", naming);
$("naming").addEventListener("submit", (event) => {
  event.preventDefault();
  saveNew();
});
$("naming-no").addEventListener("click", () => ($("naming").hidden = true));
$("begin").addEventListener("click", askToBegin);
$("begin-yes").addEventListener("click", begin);
$("begin-no").addEventListener("click", () => ($("beginning").hidden = true));
$("to-phone").addEventListener("click", showCode);
$("code-print").addEventListener("click", () => print());
$("code-away").addEventListener("click", () => ($("coded").hidden = true));
$("restored").lastElementChild.addEventListener("click", () => {
  editor.open(keptText);
  keepDraft();
  choose(open.id);
});
addEventListener("pagehide", () => open && keepDraft());

const plans = await list();
const wanted = new URLSearchParams(location.search).get("plan");
const first = plans.find((plan) => plan.id === wanted) || plans.find((plan) => plan.kind === "given");
if (first) {
  await choose(first.id);
}
document.body.dataset.ready = "yes";
