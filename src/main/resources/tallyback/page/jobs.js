// The page of all jobs: search as you type, filter, go on to older ones, choose two to compare.

import { Refused, asking } from "./ask.js";
import { TEXTS } from "./jobs-texts.js";
import { visible } from "./visible.js";

const $ = (id) => document.getElementById(id);
const LOOK_AFTER_MS = 150;
const FIELDS = ["words", "machine", "plan", "since", "until"];
const FILTERS = ["machine", "plan", "since", "until", "open"];

let asked = 0; // number of the last question; an answer to an earlier one is dropped
let timer = 0;
let shown = 0;
let last = null; // the job after which it goes on
let chosen = [];

const ask = asking(TEXTS.away);

function element(name, text, attributes = {}) {
  const made = document.createElement(name);
  made.textContent = visible(text);
  Object.entries(attributes).forEach(([key, value]) => made.setAttribute(key, value));
  return made;
}

function note(text) {
  $("trouble").hidden = !text;
  $("trouble").textContent = visible(text || "");
}

// ---- the question

function question() {
  const values = new URLSearchParams();
  FIELDS.forEach((id) => {
    if ($(id).value.trim()) {
      values.set(id, $(id).value.trim());
    }
  });
  if ($("open").checked) {
    values.set("open", "yes");
  }
  return values;
}

function tellFilters(values) {
  const set = FILTERS.filter((id) => values.has(id)).length;
  $("filters-title").textContent = set ? TEXTS.filtersOn(set) : TEXTS.filters;
}

function soon() {
  clearTimeout(timer);
  timer = setTimeout(look, LOOK_AFTER_MS);
}

/** The address says what is looked for, so that it is there again when somebody comes back. */
async function look() {
  const values = question();
  const address = values.toString();
  history.replaceState(null, "", address ? `/jobs?${address}` : "/jobs");
  tellFilters(values);
  await show(values, false);
}

async function older() {
  const values = question();
  values.set("before", last);
  await show(values, true);
}

async function show(values, goingOn) {
  asked++;
  const mine = asked;
  let found;
  try {
    found = await ask(`/jobs/list?${values}`);
  } catch (e) {
    if (!(e instanceof Refused)) {
      throw e;
    }
    if (mine === asked) {
      note(e.message);
    }
    return;
  }
  if (mine !== asked) {
    return;
  }
  note("");
  const filtered = [...values.keys()].some((key) => key !== "before");
  const cards = found.jobs.map((job) => card(job, found.now, values.get("words") || ""));
  if (goingOn) {
    $("list").append(...cards);
    shown += cards.length;
    cards[0]?.querySelector("a")?.focus();
  } else {
    $("list").replaceChildren(...cards);
    shown = cards.length;
  }
  last = found.jobs.length ? found.jobs[found.jobs.length - 1].job : null;
  $("count").textContent = found.all ? TEXTS.count(shown, found.all, filtered) : filtered ? TEXTS.none : TEXTS.noneYet;
  $("older").hidden = !found.more;
  $("to-plans").hidden = !found.plans;
  await figures(found.jobs.filter((job) => !job.unread).map((job) => job.job), mine);
  document.body.dataset.ready = "yes";
}

/** What takes longer comes when the list is there already. */
async function figures(jobs, mine) {
  if (jobs.length === 0) {
    return;
  }
  try {
    const known = await ask(`/jobs/figures?${new URLSearchParams(jobs.map((job) => ["job", job]))}`);
    if (mine !== asked) {
      return;
    }
    document.querySelectorAll(".one").forEach((one) => {
      const its = Object.hasOwn(known, one.dataset.job) ? known[one.dataset.job] : null;
      if (its && its.worked) {
        one.querySelector(".worked").textContent = its.worked;
        const found = one.querySelector(".found");
        found.textContent = its.findings;
        found.classList.toggle("stops", its.stops > 0);
      }
    });
  } catch (e) {
    if (!(e instanceof Refused)) {
      throw e;
    }
  }
}

// ---- one job

const DAY = new Intl.DateTimeFormat("en-GB", { weekday: "short", day: "numeric", month: "short", year: "numeric", hour: "2-digit", minute: "2-digit" });
const day = (text, zone) => {
  try {
    return new Intl.DateTimeFormat("en-GB", { ...DAY.resolvedOptions(), locale: undefined, timeZone: zone }).format(new Date(text));
  } catch (e) {
    return DAY.format(new Date(text)); // a zone that this browser doesn't know
  }
};

function card(job, now, words) {
  const one = element("li", "", { class: "one" });
  one.dataset.job = job.job;
  const top = element("div", "", { class: "top" });
  top.append(
    element("h2", job.job),
    element("p", job.plan || TEXTS.unknownPlan, { class: "plan" }),
    element("p", job.job === now ? TEXTS.now : job.stateSays, { class: "state", "data-state": job.state }));
  const facts = element("p", "", { class: "facts" });
  facts.append(
    element("time", day(job.openedAt, job.zone), { datetime: job.openedAt }),
    element("span", "", { class: "worked" }),
    element("span", TEXTS.entries(job.entries)),
    element("span", "", { class: "found" }));
  one.append(top, facts, element("p", job.machineSays, { class: "small" }));
  if (job.unread) {
    one.append(element("p", TEXTS.unread(job.unread), { class: "unread" }));
  }
  if (words && job.first.length) {
    one.append(hits(job, words));
  }
  const row = element("div", "", { class: "row" });
  if (!job.unread) {
    job.links.forEach((link) => row.append(element("a", link.says, { href: link.path, "aria-label": `${link.says}: ${job.job}` })));
    row.append(box(job.job));
  }
  one.append(row);
  return one;
}

function hits(job, words) {
  const list = element("ul", "", { class: "hits" });
  job.first.forEach((hit) => {
    const line = element("li", "");
    line.append(element("time", day(hit.at, job.zone), { datetime: hit.at }));
    const said = element("span", "", hit.withdrawn ? { class: "gone" } : {});
    said.append(...marked(hit.words, words));
    line.append(said);
    if (hit.withdrawn) {
      line.append(element("span", ` (${TEXTS.gone})`, { class: "small" }));
    }
    list.append(line);
  });
  if (job.hits > job.first.length) {
    list.append(element("li", TEXTS.more(job.hits - job.first.length), { class: "small" }));
  }
  return list;
}

const plain = (text) => text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();

/** Words that begin with what is looked for stand out. */
function marked(text, words) {
  const wanted = plain(words).match(/[\p{L}\p{N}]+/gu) || [];
  return text.split(/([\p{L}\p{N}\p{M}]+)/u).filter(Boolean).map((piece) =>
    wanted.some((word) => plain(piece).startsWith(word)) ? element("mark", piece) : document.createTextNode(piece));
}

// ---- two to compare

function box(job) {
  const label = element("label", "");
  const input = element("input", "", { type: "checkbox", "aria-label": TEXTS.besideLabel(job) });
  input.checked = chosen.includes(job);
  input.addEventListener("change", () => choose(job, input.checked));
  label.append(input, element("span", TEXTS.beside));
  return label;
}

/** The third takes the place of the first. */
function choose(job, wanted) {
  chosen = chosen.filter((each) => each !== job);
  if (wanted) {
    chosen = [...chosen, job].slice(-2);
  }
  tellChosen();
}

function tellChosen() {
  document.querySelectorAll(".one").forEach((one) => {
    const input = one.querySelector("input");
    if (input) {
      input.checked = chosen.includes(one.dataset.job);
    }
  });
  $("beside").hidden = chosen.length === 0;
  $("compare").hidden = chosen.length < 2;
  if (chosen.length === 2) {
    $("beside-says").textContent = visible(TEXTS.besideTwo(...chosen));
    $("compare").href = `/jobs/compare?${new URLSearchParams({ one: chosen[0], other: chosen[1] })}`;
  } else if (chosen.length === 1) {
    $("beside-says").textContent = visible(TEXTS.besideOne(chosen[0]));
  }
}

// ---- beginning

function begin() {
  for (const [id, text] of Object.entries({
    "words-label": TEXTS.words, "words-help": TEXTS.wordsHelp, "machine-label": TEXTS.machine, "plan-label": TEXTS.plan,
    "since-label": TEXTS.since, "until-label": TEXTS.until, "open-label": TEXTS.open, clear: TEXTS.clear,
    older: TEXTS.older, compare: TEXTS.compare, "beside-none": TEXTS.besideNone,
  })) {
    $(id).textContent = text;
  }
  const values = new URLSearchParams(location.search);
  FIELDS.forEach((id) => { $(id).value = values.get(id) || ""; });
  $("open").checked = values.has("open");
  $("filters").open = FILTERS.some((id) => values.has(id));
  $("search").addEventListener("input", soon);
  $("search").addEventListener("submit", (event) => {
    event.preventDefault();
    clearTimeout(timer);
    look();
  });
  $("clear").addEventListener("click", () => {
    $("search").reset();
    look();
    $("words").focus();
  });
  $("older").addEventListener("click", older);
  $("beside-none").addEventListener("click", () => {
    chosen = [];
    tellChosen();
  });
  look();
}

begin();
