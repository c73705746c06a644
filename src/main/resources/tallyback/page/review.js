// The page of a review: what is doubtful first, and what to do about it. Whatever is noted shows first what it would change.

import { Refused, asking } from "./ask.js";
import { TEXTS } from "./review-texts.js";
import { visible } from "./visible.js";

const $ = (id) => document.getElementById(id);
const HERE = location.pathname.replace(/\/review$/, "");
const AT_ONCE = 200;
const NAME_KEY = "tallyback-reviewer";

let job = null;
let shown = AT_ONCE;

// ---- asking the server

const server = asking(TEXTS.away);
const ask = (path, body = undefined) =>
  server(HERE + path, body === undefined ? {} : { method: "POST", body: JSON.stringify(body), headers: { "Content-Type": "application/json; charset=utf-8" } });

/** Whatever goes wrong is shown where it was asked for, and what was typed stays. */
async function trying(says, work) {
  says.textContent = "";
  says.hidden = says.id === "trouble";
  try {
    return await work();
  } catch (e) {
    if (!(e instanceof Refused)) {
      throw e;
    }
    says.textContent = visible(e.message);
    says.hidden = false;
    return null;
  }
}

// ---- building blocks: text is only ever set as text, and no text turns what is beside it

function make(name, text = "", attributes = {}, ...children) {
  const made = document.createElement(name);
  made.textContent = visible(text);
  Object.entries(attributes).forEach(([key, value]) => made.setAttribute(key, value));
  made.append(...children);
  return made;
}

function button(text, press, attributes = {}) {
  const made = make("button", text, { type: "button", ...attributes });
  made.addEventListener("click", press);
  return made;
}

/** A name for a thing in the page, new each time. */
let named = 0;
const fresh = () => `f-${++named}`;

function changeTable(lines) {
  if (lines.length === 0) {
    return make("p", TEXTS.nothingChanges);
  }
  const head = make("thead", "", {}, make("tr", "", {}, make("td"), make("th", TEXTS.before, { scope: "col" }), make("th", TEXTS.after, { scope: "col" })));
  const body = make("tbody");
  for (const line of lines) {
    body.append(
      make("tr", "", {}, make("th", line.what, { scope: "row" }), make("td", line.before || TEXTS.nothing, { class: "before" }), make("td", line.after || TEXTS.nothing, { class: "after" })),
    );
  }
  return make("div", "", { class: "wide", tabindex: "0", role: "group", "aria-label": TEXTS.changes }, make("table", "", { class: "change" }, head, body));
}

// ---- the form of an act

/**
 * @param act what is done
 * @param about what it is done to: {entry} or {finding} or nothing
 */
function actForm(act, about, opener) {
  const form = make("form", "", { class: "act", novalidate: "" });
  const values = {};
  const field = (name, label, attributes = {}) => {
    const id = fresh();
    const input = make("input", "", { id, ...attributes });
    values[name] = input;
    form.append(make("div", "", {}, make("label", label, { for: id }), input));
    input.addEventListener("input", unseen);
    return input;
  };
  const says = make("p", "", { class: "says", role: "alert" });
  const preview = make("div");
  const look = make("button", TEXTS.look, { type: "submit" });
  const note = button(TEXTS.note, () => send(false), { class: "primary", hidden: "" });
  let seen = "";
  let doubted = false;
  const id = crypto.randomUUID ? crypto.randomUUID() : Array.from(crypto.getRandomValues(new Uint8Array(16)), (b) => b.toString(16).padStart(2, "0")).join("");

  form.append(make("h3", TEXTS.acts[act]));
  if (["change", "settle", "add", "now"].includes(act)) {
    field("words", TEXTS.labels.words, { type: "text", maxlength: "400", autocomplete: "off" }).value = act === "change" ? about.entry.words : "";
    form.append(...otherReadings(act, about), make("p", TEXTS.hintWords, { class: "small" }));
  }
  if (["retime", "add"].includes(act)) {
    const local = about.entry ? about.entry.local : job.entries[job.entries.length - 1].local;
    field("at", TEXTS.labels.at, { type: "datetime-local", step: "1" }).value = local;
  }
  if (["fixed", "accepted", "look-again"].includes(act)) {
    field("by", act === "accepted" ? TEXTS.labels.byAccepted : act === "fixed" ? TEXTS.labels.by : TEXTS.labels.byAgain, { type: "text", maxlength: "100" }).value =
      act === "accepted" ? "" : $("name").value;
    if (act !== "fixed") {
      field("again", act === "look-again" ? TEXTS.labels.again : TEXTS.labels.againIf, { type: "date" });
    }
  }
  field("why", act === "fixed" ? TEXTS.labels.whyFixed : act === "now" ? TEXTS.labels.whyNow : TEXTS.labels.why, { type: "text", maxlength: "400" });
  if (act === "fixed") {
    form.append(make("p", TEXTS.hintFixed, { class: "small" }));
  }
  form.append(says, preview, make("div", "", { class: "row" }, look, note, button(TEXTS.cancel, () => shut())));

  /** Each reading that was not noted, to be taken over by one press. */
  function otherReadings(what, { entry }) {
    const others = ["change", "settle"].includes(what) ? entry.heard.filter((each) => !each.taken) : [];
    const take = (words) => () => {
      values.words.value = words;
      values.words.focus();
      unseen();
    };
    return others.length === 0
      ? []
      : [make("div", "", { class: "row" }, make("span", TEXTS.alsoHeard, { class: "small" }), ...others.map((each) => button(each.words, take(each.words), { "data-reading": "" })))];
  }

  function asked() {
    return {
      id,
      act,
      name: $("name").value.trim(),
      seq: about.entry ? about.entry.seq : 0,
      finding: about.finding ? about.finding.id : "",
      read: about.finding ? about.finding.says : "",
      ...Object.fromEntries(Object.entries(values).map(([name, input]) => [name, input.value.trim()])),
    };
  }

  /** What is noted is what was looked at, letter by letter. */
  function unseen() {
    note.hidden = true;
    doubted = false;
    preview.replaceChildren();
  }

  async function send(only) {
    const what = asked();
    if (!what.name) {
      says.textContent = TEXTS.noName;
      $("name").focus();
      return;
    }
    if (!only && JSON.stringify(what) !== seen) {
      unseen();
      return;
    }
    look.disabled = true;
    note.disabled = true;
    const done = await trying(says, () => ask(only ? "/review/try" : "/review/note", only ? what : { ...what, allTheSame: doubted }));
    look.disabled = false;
    note.disabled = false;
    if (!done) {
      return;
    }
    if (only) {
      seen = JSON.stringify(what);
      doubted = Boolean(done.doubt);
      preview.replaceChildren(...(done.doubt ? [make("p", TEXTS.doubt(done.doubt), { class: "why" })] : []), changeTable(done.lines || []));
      note.textContent = doubted ? TEXTS.noteAllTheSame : TEXTS.note;
      note.hidden = false;
      note.focus();
      return;
    }
    try {
      localStorage.setItem(NAME_KEY, what.name);
    } catch (e) {
      // This browser keeps nothing.
    }
    form.remove();
    opener.setAttribute("aria-expanded", "false");
    await load();
    $("done-title").textContent = TEXTS.notedAs(done.noted);
    $("done-lines").replaceChildren(changeTable(done.lines || []));
    $("done").hidden = false;
    $("done-title").focus();
  }

  function shut() {
    form.remove();
    opener.setAttribute("aria-expanded", "false");
    opener.focus();
  }

  form.addEventListener("submit", (event) => {
    event.preventDefault();
    send(true);
  });
  return form;
}

/** A button that opens the form of an act beneath, one at a time. */
function actButton(act, about, below, attributes = {}) {
  const made = button(
    TEXTS.acts[act],
    () => {
      document.querySelectorAll("form.act").forEach((each) => each.remove());
      const wasOpen = made.getAttribute("aria-expanded") === "true";
      document.querySelectorAll('[aria-expanded="true"]').forEach((each) => each.setAttribute("aria-expanded", "false"));
      if (wasOpen) {
        return;
      }
      made.setAttribute("aria-expanded", "true");
      const form = actForm(act, about, made);
      below().append(form);
      const first = form.querySelector("input");
      first.focus();
      first.select?.();
    },
    { "aria-expanded": "false", "data-act": act, ...attributes },
  );
  return made;
}

// ---- an entry

function entryItem(entry, at) {
  const item = make("li", "", { class: "it" });
  if (at) {
    item.id = `${at}-${entry.seq}`;
  }
  if (entry.struck) {
    item.classList.add("struck");
  }
  if (entry.doubt) {
    item.dataset.doubt = "";
  }
  const late = entry.noted !== entry.time && (entry.edits || !allLate()) ? [make("span", TEXTS.late(entry.noted), { class: "small" })] : [];
  item.append(
    make("p", "", { class: "line" }, make("span", TEXTS.number(entry.seq)), make("span", entry.time, { class: "time" }), make("span", entry.who, { class: "small" }), ...late),
    make("p", entry.means, { class: "means" }),
  );
  if (entry.words) {
    item.append(make("p", TEXTS.words(entry.words), { class: "words" }));
  }
  item.append(...heardAs(entry));
  if (entry.doubt) {
    item.append(make("p", entry.doubt, { class: "why" }));
  }
  entry.marks.forEach((mark) => item.append(make("p", mark, { class: "small" })));
  if (entry.picture) {
    item.append(make("img", "", { src: `${HERE}/picture?entry=${encodeURIComponent(entry.picture)}`, alt: entry.means, class: "picture", loading: "lazy" }));
  }
  const row = make("div", "", { class: "row" });
  if (entry.sound) {
    row.append(listenButton(entry));
  }
  const below = () => item;
  if (!entry.fixed) {
    if (entry.missed) {
      row.append(actButton("settle", { entry }, below), actButton("not-wanted", { entry }, below));
    } else if (!entry.edits && !entry.struck) {
      row.append(...(entry.doubt && !entry.confirmed ? [actButton("confirm", { entry }, below)] : []), actButton("change", { entry }, below), actButton("retime", { entry }, below));
    }
    if (!entry.missed && !entry.marks.some((mark) => mark.startsWith("withdrawn"))) {
      row.append(actButton("withdraw", { entry }, below));
    }
  }
  if (entry.edits) {
    row.append(changedButton(entry, item));
  }
  if (row.childNodes.length > 0) {
    item.append(row);
  }
  return item;
}

/** What else its sound was taken for, and what was asked of it; open where it is doubtful. */
function heardAs(entry) {
  if (entry.heard.length === 0 && entry.asked.length === 0) {
    return [];
  }
  const how = make("details", "", { class: "heard" }, make("summary", TEXTS.howHeard(entry.heard.length, entry.asked.length)));
  how.open = Boolean(entry.doubt);
  if (entry.heard.length > 0) {
    const readings = make("ol");
    entry.heard.forEach((each) => readings.append(make("li", TEXTS.reading(each.words, each.taken))));
    how.append(readings);
  }
  entry.asked.forEach((each) => how.append(make("p", TEXTS.asked(each.question, each.answer))));
  return [how];
}

/** Where all was written down afterwards, it need not be said of each. */
const allLate = () => job.entries.every((entry) => entry.noted !== entry.time);

function listenButton(entry) {
  const made = button(TEXTS.listen, () => {
    const sound = make("audio", "", { controls: "", src: `${HERE}/sound/${entry.sound}` });
    sound.addEventListener("error", () => sound.replaceWith(make("span", TEXTS.silent, { class: "why", role: "alert" })));
    made.replaceWith(sound);
    sound.play().catch(() => {});
  });
  return made;
}

/** Before and after, for what was noted at a review. */
function changedButton(entry, item) {
  const made = button(TEXTS.whatChanged, async () => {
    const open = item.querySelector(":scope > .wide, :scope > .unchanged");
    if (open) {
      open.remove();
      made.setAttribute("aria-expanded", "false");
      return;
    }
    const change = await trying($("trouble"), () => ask(`/review/change?seq=${entry.seq}`));
    if (change) {
      const table = changeTable(change.lines);
      table.classList.add(change.lines.length === 0 ? "unchanged" : "wide");
      item.append(table);
      made.setAttribute("aria-expanded", "true");
    }
  }, { "aria-expanded": "false", "data-act": "changed" });
  return made;
}

// ---- a finding

function findingItem(finding, number) {
  const item = make("div", "", { class: "one" });
  const whole = make("li", "", { class: "it", "data-weight": finding.weight, id: `finding-${number}` }, item);
  item.append(
    make("p", "", { class: "line" }, make("span", `${TEXTS.weights[finding.weight]} ${number}`, { class: "weight" }), make("span", finding.subject, { class: "means" })),
    make("p", finding.difference ? `${finding.found}, ${finding.difference}` : finding.found),
    make("p", TEXTS.expected(finding.expected), { class: "small" }),
  );
  item.append(make("p", finding.remedy));
  if (finding.answer) {
    item.append(make("p", finding.answer, { class: "why" }));
  }
  if (finding.evidence.length > 0) {
    const told = make("p", `${TEXTS.evidence} `, { class: "small" });
    finding.evidence.forEach((seq) => told.append(make("a", TEXTS.number(seq), { href: `#entry-${seq}` }), " "));
    item.append(told);
  }
  const below = () => item;
  item.append(
    make(
      "div",
      "",
      { class: "row" },
      actButton("fixed", { finding }, below),
      ...(finding.weight === "stop" ? [] : [actButton("accepted", { finding }, below)]),
      actButton("look-again", { finding }, below),
    ),
  );
  if (finding.followers.length > 0) {
    whole.append(make("p", TEXTS.follows, { class: "small" }), make("ol", "", {}, ...finding.followers.map((each, index) => findingItem(each, `${number}.${index + 1}`))));
  }
  return whole;
}

// ---- the page

function draw() {
  document.title = TEXTS.title(job.job);
  $("plan").textContent = visible(TEXTS.title(job.job));
  $("machine").textContent = visible(`${job.plan} · ${job.machine}`);
  $("verdict").replaceChildren(
    ...job.verdict.flatMap((stage) => [
      make("dt", "", {}, make("span", stage.answer, { class: "says", "data-answer": stage.answer })),
      make("dd", stage.question, {}, make("span", stage.reason, { class: "small" })),
    ]),
  );
  $("open-says").textContent = job.closed ? TEXTS.closed : job.visit ? TEXTS.visit : TEXTS.open;
  $("close").hidden = !job.visit;
  const bySeq = new Map(job.entries.map((entry) => [entry.seq, entry]));
  $("doubtful-title").textContent = TEXTS.doubtful(job.doubts.length);
  $("doubts").replaceChildren(...job.doubts.map((seq) => entryItem(bySeq.get(seq), "doubt")));
  $("found-title").textContent = TEXTS.found(job.findings.length);
  $("findings").replaceChildren(...job.findings.map((finding, index) => findingItem(finding, index + 1)));
  $("answered").hidden = job.answered.length === 0;
  $("answers").replaceChildren(
    ...job.answered.map((each) => make("li", `${each.subject}: ${each.says} `, {}, make("a", TEXTS.number(each.seq), { href: `#entry-${each.seq}` }))),
  );
  drawEntries();
}

function drawEntries() {
  const wanted = $("search").value.trim().toLowerCase().split(/\s+/).filter(Boolean);
  const onlyChanged = $("only-changed").checked;
  const fitting = job.entries.filter((entry) => {
    const text = `${entry.means} ${entry.words} ${entry.who} ${TEXTS.number(entry.seq)} ${entry.marks.join(" ")}`.toLowerCase();
    return wanted.every((word) => text.includes(word)) && (!onlyChanged || entry.edits || entry.marks.length > 0);
  });
  $("all-title").textContent = TEXTS.all(job.entries.length);
  $("counted").textContent = TEXTS.counted(fitting.length, job.entries.length);
  const list = fitting.slice(0, shown).map((entry) => entryItem(entry, "entry"));
  $("entries").replaceChildren(...list);
  if (fitting.length > shown) {
    $("entries").append(make("li", "", {}, button(TEXTS.more(Math.min(AT_ONCE, fitting.length - shown)), () => {
      shown += AT_ONCE;
      drawEntries();
    })));
  }
}

/** An entry that a link names is shown, however far down the list it stands. */
function goToNamed() {
  const named = /^#(entry|finding)-([0-9.]+)$/.exec(location.hash);
  if (!named || !job) {
    return;
  }
  if (named[1] === "entry" && !$(`entry-${named[2]}`)) {
    $("search").value = "";
    $("only-changed").checked = false;
    shown = job.entries.length;
    drawEntries();
  }
  const there = $(`${named[1]}-${named[2]}`);
  if (there) {
    there.tabIndex = -1;
    there.scrollIntoView({ block: "center" });
    there.focus({ preventScroll: true });
  }
}

async function load() {
  const loaded = await trying($("trouble"), () => ask("/review.json"));
  if (loaded) {
    job = loaded;
    draw();
  }
}

function begin() {
  $("to-timeline").href = `${HERE}/timeline`;
  $("to-timeline").textContent = TEXTS.timeline;
  $("to-job").textContent = TEXTS.toJob;
  $("state-title").textContent = TEXTS.state;
  $("close").textContent = TEXTS.close;
  $("who-title").textContent = TEXTS.who;
  $("name-label").textContent = TEXTS.name;
  $("answered-title").textContent = TEXTS.answered;
  $("search-label").textContent = TEXTS.search;
  $("only-changed-label").textContent = TEXTS.onlyChanged;
  try {
    $("name").value = localStorage.getItem(NAME_KEY) || "";
  } catch (e) {
    // This browser keeps nothing.
  }
  const below = () => $("new-form");
  for (const act of ["add", "now"]) {
    const made = actButton(act, {}, below);
    made.textContent = TEXTS[act];
    made.id = act;
    $(act).replaceWith(made);
  }
  $("search").addEventListener("input", () => {
    shown = AT_ONCE;
    drawEntries();
  });
  $("only-changed").addEventListener("change", drawEntries);
  $("close").addEventListener("click", async () => {
    const name = $("name").value.trim();
    if (!name) {
      $("trouble").textContent = TEXTS.noName;
      $("trouble").hidden = false;
      $("name").focus();
      return;
    }
    const closed = await trying($("trouble"), () => ask("/review/close", { name }));
    if (closed) {
      await load();
      $("done-title").textContent = TEXTS.closedNow(closed.seal);
      $("done-lines").replaceChildren();
      $("done").hidden = false;
      $("done-title").focus();
    }
  });
  addEventListener("hashchange", goToNamed);
  load().then(goToNamed);
}

begin();
