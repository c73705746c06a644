// The timeline of a job. Everything was reckoned before; this draws it, finds one's way in it and plays its sounds. It runs
// from a server, which it asks for data and sounds, and from a file, which holds both.

const TEXTS = {
  title: "Timeline",
  toJob: "The job",
  closer: "Closer",
  wider: "Wider",
  whole: "Whole job",
  nextDoubt: "Next doubtful",
  nextFinding: "Next finding",
  nights: "Nights as long as they were",
  view: "The job over time",
  help: "Signs and keys",
  keys: "Drag, or ← →: along the time. Wheel: along; with Ctrl, two fingers or + −: closer, wider. Home, End: first, last. 0: whole job. "
    + "↑ ↓: entry before, next. D: next doubtful. F: next finding. With Shift back. Enter or space: play. Escape: nothing chosen.",
  findings: "Findings",
  oneFinding: "Finding",
  noFindings: "No finding stands.",
  doubtfulOnes: "Doubtful entries",
  noDoubtful: "No entry is doubtful.",
  entries: "Entries",
  search: "Search words, what was noted, things and places",
  doubtful: "Doubtful only",
  filters: "Filter",
  kinds: "What",
  step: "Step",
  place: "Thing or place",
  finding: "Evidence for",
  any: "any",
  clear: "Show all again",
  nothing: "Nothing fits what you ask for.",
  some: (n, all, doubtful) => `${n} of ${all} entries, ${doubtful} doubtful`,
  plain: "said, and certain",
  evidence: "evidence for a finding",
  curve: "stepped line: how much is in the tray, or out of the system",
  back: "All findings",
  words: "Words",
  happened: "When",
  noted: "Noted",
  who: "Who",
  sure: "How certain",
  stepRow: "Step",
  names: "Names",
  proves: "Evidence for",
  heard: "As heard",
  heardAs: "Heard as, the likeliest first",
  reading: (words, taken) => `“${words}”${taken ? ", taken" : ""}`,
  question: "Asked",
  answer: (words) => (words ? `answered: “${words}”` : "nobody answered"),
  correct: "Put it right",
  play: "Play",
  pause: "Pause",
  slower: "Slower",
  neverSound: "No sound was kept with this entry.",
  leftOut: "Its sound is not in this file. It is in the data file: 'serve' plays it.",
  loading: "Fetching the sound …",
  away: "Tallyback is not running any more, so that nothing can be fetched. Start 'serve' again and load this page anew.",
  unplayable: "This browser can't play the sound: it is no sound file any more, or of a kind it does not know.",
  foundRow: "Found",
  expected: "Expected",
  differs: "Differs",
  allowed: "Allowed",
  todo: "What to do",
  also: "So also",
  told: "Told by",
  nobody: "Nothing that was said tells of it.",
  findingsLane: "Findings",
  number: (seq) => `no. ${seq}`,
  wave: "Sound over time; a click goes there",
  noData: "The data of this page can't be read. Load it anew.",
};

/** Where an entry is put right. */
const reviewOf = (job, seq) => `/jobs/${encodeURIComponent(job)}/review#entry-${seq}`;

const $ = (id) => document.getElementById(id);
const inFile = $("data") !== null;
const MINUTE = 60_000;
const CLOSEST_MS = 20_000;
const AXIS = 24;
const PIN = 22;
const PIN_ROWS = 3;
const LABEL = 16;
const GUTTER = 148;
const LEAST_LANE = 34;
/** How much more is drawn on either side than is seen, in widths: so far the paper is only pushed along. */
const MORE = 0.5;
const SETTLED_MS = 160;
/** What fits on A4 and on Letter, in pixels of 1/96 inch, and how fine it is drawn there. */
const SHEET = 690;
const PRINTED_RATIO = 3;
const GUTTER_FROM = 640;
const TICK = 18;
const BAR = 20;
const CURVE = 40;
const STEPS_MS = [10_000, 30_000, MINUTE, 2 * MINUTE, 5 * MINUTE, 10 * MINUTE, 15 * MINUTE, 30 * MINUTE, 60 * MINUTE, 120 * MINUTE, 180 * MINUTE, 360 * MINUTE, 720 * MINUTE, 1440 * MINUTE];

function element(name, text, attributes = {}) {
  const made = document.createElement(name);
  if (text) {
    made.textContent = text;
  }
  for (const [key, value] of Object.entries(attributes)) {
    made.setAttribute(key, value);
  }
  return made;
}

function trouble(text) {
  $("trouble").textContent = text;
  $("trouble").hidden = !text;
}

// ---- data

async function read() {
  if (inFile) {
    return JSON.parse($("data").textContent);
  }
  let answer;
  try {
    answer = await fetch(location.pathname + ".json");
  } catch (e) {
    throw new Error(TEXTS.away);
  }
  const said = await answer.json().catch(() => ({ says: [TEXTS.noData] }));
  if (!answer.ok) {
    throw new Error((said.says || [TEXTS.noData]).join("\n"));
  }
  return said;
}

/** Where the picture of an entry is; null when there is none. */
function pictureOf(entry) {
  if (!entry.picture) {
    return null;
  }
  if (!inFile) {
    return location.pathname.replace(/timeline$/, "picture?entry=") + encodeURIComponent(entry.picture);
  }
  const kept = $("picture-" + entry.seq);
  return kept ? "data:image/jpeg;base64," + kept.textContent : null;
}

/** A sound as bytes, or why there is none, in words. */
async function soundOf(entry) {
  if (!entry.sound) {
    return { says: entry.picture ? "" : TEXTS.neverSound, never: true };
  }
  if (inFile) {
    const kept = $("sound-" + entry.sound);
    if (!kept) {
      const silent = $("silent-" + entry.sound);
      return { says: silent ? silent.textContent : TEXTS.leftOut };
    }
    const text = atob(kept.textContent);
    const bytes = new Uint8Array(text.length);
    for (let i = 0; i < text.length; i++) {
      bytes[i] = text.charCodeAt(i);
    }
    return { bytes: bytes.buffer };
  }
  let answer;
  try {
    answer = await fetch(location.pathname.replace(/timeline$/, "sound/") + entry.sound);
  } catch (e) {
    return { says: TEXTS.away };
  }
  if (!answer.ok) {
    const said = await answer.json().catch(() => ({}));
    return { says: (said.says || [answer.statusText]).join("\n"), wrong: true };
  }
  return { bytes: await answer.arrayBuffer() };
}

// ---- time along the paper: u is time with the nights folded, in milliseconds

class Along {
  constructor(stretches, folded) {
    const whole = [{ fromMs: stretches[0].fromMs, toMs: stretches[stretches.length - 1].toMs }];
    const parts = folded ? stretches : whole;
    const worked = parts.reduce((sum, each) => sum + each.toMs - each.fromMs, 0);
    this.fold = Math.max(MINUTE, worked * 0.03);
    this.parts = [];
    let u = 0;
    for (const each of parts) {
      this.parts.push({ fromMs: each.fromMs, toMs: each.toMs, u });
      u += each.toMs - each.fromMs + this.fold;
    }
    this.end = u - this.fold;
  }

  u(ms) {
    let u = 0;
    for (const part of this.parts) {
      if (ms < part.fromMs) {
        return part.u - (u === 0 ? Math.min(part.fromMs - ms, this.fold) : this.fold / 2);
      }
      if (ms <= part.toMs) {
        return part.u + ms - part.fromMs;
      }
      u = part.u + part.toMs - part.fromMs;
    }
    return u;
  }

  ms(u) {
    for (const part of this.parts) {
      const length = part.toMs - part.fromMs;
      if (u <= part.u + length) {
        return part.fromMs + Math.max(0, u - part.u);
      }
    }
    return this.parts[this.parts.length - 1].toMs;
  }
}

// ---- the page

class Timeline {
  constructor(data) {
    this.data = data;
    this.bySeq = new Map(data.entries.map((entry) => [entry.seq, entry]));
    this.byNumber = new Map(data.findings.map((found) => [found.number, found]));
    this.signs = new Map(data.doubts.map((doubt) => [doubt.id, doubt]));
    this.stepNames = new Map(data.steps.map((step) => [step.id, step.name]));
    this.placeNames = new Map(data.places.map((place) => [place.id, place.name]));
    this.inTime = [...data.entries].sort((a, b) => a.ms - b.ms || a.seq - b.seq);
    for (const entry of data.entries) {
      entry.text = [entry.words, ...entry.heard.map((each) => each.words), entry.meaning, entry.who, ...entry.places.map((id) => this.placeNames.get(id) || id), `no. ${entry.seq}`]
        .join("\n").toLowerCase();
      entry.fits = true;
      entry.doubtful = entry.doubts.some((id) => !this.signs.get(id).settled);
    }
    this.folded = true;
    this.chosen = null; // the entry
    this.found = null; // the finding
    this.asked = { words: "", doubtful: false, lanes: new Set(data.lanes.map((lane) => lane.id)), step: "", place: "", finding: "" };
    this.along = new Along(data.stretches, true);
    this.player = new Player(this);
    this.texts();
    this.gutter = 0;
    this.lay();
    this.rows();
    this.ink();
    this.scale();
    this.wire();
    this.fromAddress();
    this.fit();
    this.size();
    this.show();
  }

  // -- fixed texts and lanes

  texts() {
    document.title = `${TEXTS.title}: ${this.data.title}`;
    $("title").textContent = this.data.title;
    $("job-line").textContent = this.data.jobLine;
    $("to-job").textContent = TEXTS.toJob;
    $("to-job").hidden = inFile;
    $("closer").setAttribute("aria-label", TEXTS.closer);
    $("wider").setAttribute("aria-label", TEXTS.wider);
    $("whole").textContent = TEXTS.whole;
    $("next-doubt").textContent = TEXTS.nextDoubt;
    $("next-finding").textContent = TEXTS.nextFinding;
    $("nights").textContent = TEXTS.nights;
    $("nights").hidden = this.data.stretches.length < 2;
    $("view").setAttribute("aria-label", TEXTS.view);
    $("help").firstElementChild.textContent = TEXTS.help;
    $("keys").textContent = TEXTS.keys;
    $("all-title").textContent = TEXTS.entries;
    $("words-label").textContent = TEXTS.search;
    $("doubtful").textContent = TEXTS.doubtful;
    $("filters").firstElementChild.textContent = TEXTS.filters;
    $("lanes").firstElementChild.textContent = TEXTS.kinds;
    $("clear").textContent = TEXTS.clear;
    $("list").setAttribute("aria-label", TEXTS.entries);
    for (const lane of this.data.lanes) {
      const count = this.data.entries.filter((entry) => entry.lane === lane.id).length;
      if (!count) {
        continue;
      }
      const label = element("label");
      const box = element("input", "", { type: "checkbox", value: lane.id });
      box.checked = true;
      label.append(box, `${lane.name} (${count})`);
      $("lanes").append(label);
    }
    this.choice("step", TEXTS.step, this.data.steps, (id) => this.data.entries.filter((entry) => entry.step === id).length);
    this.choice("place", TEXTS.place, [...this.data.places].sort((a, b) => a.name.localeCompare(b.name, "en")),
      (id) => this.data.entries.filter((entry) => entry.places.includes(id)).length);
    this.choice("finding", TEXTS.finding, this.data.findings.map((found) => ({ id: found.number, name: `${found.number}  ${found.subject}` })),
      (id) => this.byNumber.get(id).entries.length);
  }

  choice(id, name, options, count) {
    const label = element("label", name);
    const select = element("select", "", { id });
    select.append(new Option(TEXTS.any, ""));
    for (const option of options) {
      select.append(new Option(`${option.name} (${count(option.id)})`, option.id));
    }
    label.append(select);
    label.hidden = options.length === 0;
    $("choices").append(label);
  }

  /** The lanes' places from top to bottom; how many rows the bars need. Names stand beside the paper where there is room. */
  lay() {
    this.lanes = new Map();
    const beside = this.gutter > 0;
    this.label = beside ? 2 : LABEL;
    let y = AXIS + this.label + (this.data.findings.length ? PIN_ROWS * PIN : 4);
    const names = $("lane-names");
    names.replaceChildren();
    names.dataset.beside = beside ? "yes" : "no";
    const label = (text, top, more = "") => {
      const span = element("span", text);
      span.style.top = top + "px";
      if (more) {
        span.append(beside ? element("i", more) : ` · ${more}`);
      }
      names.append(span);
    };
    if (this.data.findings.length) {
      label(TEXTS.findingsLane, AXIS + (beside ? 4 : 0));
    }
    for (const lane of this.data.lanes) {
      const bars = this.data.bars.filter((bar) => bar.lane === lane.id).sort((a, b) => a.fromMs - b.fromMs);
      const curves = this.data.curves.filter((curve) => curve.lane === lane.id);
      const marks = this.inTime.filter((entry) => entry.lane === lane.id);
      if (!bars.length && !curves.length && !marks.length) {
        continue;
      }
      const ends = [];
      for (const bar of bars) {
        let row = ends.findIndex((end) => end <= bar.fromMs);
        row = row < 0 ? ends.length : row;
        ends[row] = bar.toMs;
        bar.row = row;
      }
      label(lane.name, y + (beside ? 3 : 1), curves.map((curve) => curve.name).join(", "));
      const ticks = y + this.label + 3;
      const below = ticks + TICK + 4;
      const bottom = Math.max(y + (beside ? LEAST_LANE : 0), below + ends.length * BAR + (curves.length ? CURVE + 6 : 0) + 3);
      this.lanes.set(lane.id, { top: y, ticks, bars, barsTop: below, curves, curveTop: below + ends.length * BAR, bottom, marks });
      for (const curve of curves) {
        curve.most = Math.max(1e-9, ...curve.points.map((point) => Math.abs(point.value)));
      }
      y = bottom;
    }
    this.height = y;
    this.pinsEnd = AXIS + this.label + PIN_ROWS * PIN;
    this.pins = [];
    for (const found of this.data.findings) {
      for (const seq of found.entries) {
        this.pins.push({ found, entry: this.bySeq.get(seq) });
      }
    }
    this.pins.sort((a, b) => a.entry.ms - b.entry.ms || Number(a.found.number) - Number(b.found.number));
  }

  /** Places along that don't change while one looks about. */
  scale() {
    this.along = new Along(this.data.stretches, this.folded);
    for (const entry of this.data.entries) {
      entry.u = this.along.u(entry.ms);
    }
    for (const bar of this.data.bars) {
      bar.u = this.along.u(bar.fromMs);
      bar.v = this.along.u(bar.toMs);
    }
    for (const curve of this.data.curves) {
      for (const point of curve.points) {
        point.u = this.along.u(point.ms);
      }
    }
  }

  ink() {
    const style = getComputedStyle(document.documentElement);
    this.colour = {};
    for (const name of ["paper", "sheet", "ink", "faint", "line", "rule", "stop", "on-stop", "check", "note", "bar", "curve"]) {
      this.colour[name] = style.getPropertyValue("--" + name).trim();
    }
    this.stamps = new Map();
    this.legend();
  }

  /** The little picture of a mark, drawn once and then only stamped. */
  stamp(kind, sign) {
    const key = kind + sign;
    let made = this.stamps.get(key);
    if (!made) {
      const ratio = window.devicePixelRatio || 1;
      made = document.createElement("canvas");
      made.width = Math.ceil(20 * ratio);
      made.height = Math.ceil(TICK * ratio);
      const pen = made.getContext("2d");
      pen.scale(ratio, ratio);
      this.mark(pen, kind, sign);
      this.stamps.set(key, made);
    }
    return made;
  }

  mark(pen, kind, sign) {
    const c = this.colour;
    if (kind === "doubt" || kind === "settled") {
      const ink = kind === "doubt" ? c.check : c.bar;
      pen.fillStyle = c.paper;
      pen.strokeStyle = ink;
      pen.lineWidth = 2;
      pen.fillRect(3, 1, 14, 16);
      pen.strokeRect(3, 1, 14, 16);
      pen.fillStyle = ink;
      pen.font = "800 13px system-ui, sans-serif";
      pen.textAlign = "center";
      pen.fillText(sign, 10, 13.5);
    } else if (kind === "proof") {
      pen.fillStyle = c.ink;
      pen.fillRect(7, 5, 6, 13);
      pen.beginPath();
      pen.arc(10, 4, 4, 0, 7);
      pen.fill();
    } else {
      pen.fillStyle = c.bar;
      pen.fillRect(8, 2, 4, 16);
    }
  }

  legend() {
    const list = $("legend");
    list.replaceChildren();
    const item = (kind, sign, text) => {
      const line = element("li");
      const picture = element("canvas", "", { width: 44, height: 40, "aria-hidden": "true" });
      const pen = picture.getContext("2d");
      pen.scale(2, 2);
      this.mark(pen, kind, sign);
      line.append(picture, text);
      list.append(line);
    };
    item("plain", "", TEXTS.plain);
    item("proof", "", TEXTS.evidence);
    this.data.doubts.forEach((doubt) => item(doubt.settled ? "settled" : "doubt", doubt.sign, doubt.name));
    list.append(element("li", TEXTS.curve));
  }

  // -- the list

  rows() {
    const far = this.data.entries.some((entry) => entry.time.length > 6);
    const list = document.createDocumentFragment();
    for (const entry of this.inTime) {
      const row = element("li", "", { role: "option", id: `entry-${entry.seq}`, "aria-selected": "false" });
      if (far) {
        row.dataset.far = "";
      }
      row.dataset.seq = entry.seq;
      row.append(element("span", entry.time, { class: "when" }));
      const what = element("span", "", { dir: "auto" });
      entry.doubts.filter((id) => !this.signs.get(id).settled).forEach((id) => what.append(this.chip(id, true)));
      what.append(element("span", entry.meaning, entry.struck ? { class: "struck" } : {}));
      const picture = pictureOf(entry);
      if (picture) {
        what.append(element("img", "", { src: picture, alt: "", class: "thumb", loading: "lazy" }));
      }
      row.append(what);
      const tail = [TEXTS.number(entry.seq), ...entry.doubts.map((id) => this.signs.get(id)).filter((doubt) => doubt.settled).map((doubt) => doubt.name.toLowerCase())];
      if (entry.findings.length) {
        tail.push(`▲ ${entry.findings.join(", ")}`);
      }
      row.append(element("span", tail.join(" · "), { class: "tail" }));
      entry.row = row;
      list.append(row);
    }
    $("list").append(list);
  }

  fits(entry) {
    const asked = this.asked;
    return asked.lanes.has(entry.lane)
      && (!asked.doubtful || entry.doubtful)
      && (!asked.step || entry.step === asked.step)
      && (!asked.place || entry.places.includes(asked.place))
      && (!asked.finding || this.byNumber.get(asked.finding).entries.includes(entry.seq))
      && asked.wanted.every((word) => entry.text.includes(word));
  }

  /** Holds every entry against what is asked for. */
  fit() {
    this.asked.wanted = this.asked.words.toLowerCase().split(/\s+/).filter(Boolean);
    let shown = 0;
    let doubtful = 0;
    for (const entry of this.data.entries) {
      entry.fits = this.fits(entry);
      shown += entry.fits;
      doubtful += entry.fits && entry.doubtful;
      if (entry.row.hidden === entry.fits) {
        entry.row.hidden = !entry.fits;
      }
    }
    const all = shown === this.data.entries.length;
    $("counts").textContent = shown ? TEXTS.some(shown, this.data.entries.length, doubtful) : TEXTS.nothing;
    $("clear").hidden = all;
    $("list").hidden = shown === 0;
    this.drawStrip();
    this.draw();
    this.keep();
  }

  ask(change) {
    Object.assign(this.asked, change);
    this.fit();
  }

  clear() {
    this.asked = { words: "", doubtful: false, lanes: new Set(this.data.lanes.map((lane) => lane.id)), step: "", place: "", finding: "" };
    this.showAsked();
    this.fit();
    $("words").focus();
  }

  showAsked() {
    $("words").value = this.asked.words;
    $("doubtful").setAttribute("aria-pressed", String(this.asked.doubtful));
    $("lanes").querySelectorAll("input").forEach((box) => { box.checked = this.asked.lanes.has(box.value); });
    ["step", "place", "finding"].forEach((id) => { $(id).value = this.asked[id]; });
  }

  // -- looking about

  get least() {
    return -this.along.end * 0.015 - 30_000;
  }

  get most() {
    return this.along.end * 1.015 + 30_000;
  }

  look(from, to) {
    const whole = this.most - this.least;
    let width = Math.min(whole, Math.max(Math.min(CLOSEST_MS, whole), to - from));
    let left = from + (to - from - width) / 2;
    left = Math.min(Math.max(left, this.least), this.most - width);
    if (this.from === left && this.width === width) {
      return;
    }
    this.from = left;
    this.width = width;
    this.frame();
    this.keep();
  }

  lookAtAll() {
    this.look(this.least, this.most);
  }

  pan(share) {
    this.look(this.from + share * this.width, this.from + (1 + share) * this.width);
  }

  zoom(factor, at = 0.5) {
    const still = this.from + at * this.width;
    const whole = this.most - this.least;
    const width = Math.min(whole, Math.max(CLOSEST_MS, this.width * factor));
    this.look(still - at * width, still + (1 - at) * width);
  }

  x(u) {
    return (u - this.from) / this.width * this.wide;
  }

  bring(entry) {
    const x = this.x(entry.u);
    if (x < 24 || x > this.wide - 24) {
      this.look(entry.u - this.width / 2, entry.u + this.width / 2);
    }
  }

  print(printing) {
    this.printing = printing;
    document.documentElement.toggleAttribute("data-printing", printing);
    $("view").style.width = printing ? `${SHEET}px` : "";
    this.ink();
    this.size();
    // No frame comes before the sheet is taken.
    this.see();
  }

  size() {
    const view = $("view");
    this.outer = view.clientWidth;
    this.gutter = this.outer >= GUTTER_FROM ? GUTTER : 0;
    this.wide = Math.max(100, this.outer - this.gutter);
    this.lay();
    view.style.height = this.height + 4 + "px";
    const ratio = this.printing ? PRINTED_RATIO : window.devicePixelRatio || 1;
    this.ratio = ratio;
    this.stamps.clear();
    const paper = $("paper");
    paper.width = Math.round(this.wide * (1 + 2 * MORE) * ratio);
    paper.height = Math.round(this.height * ratio);
    paper.style.height = this.height + "px";
    paper.style.width = this.wide * (1 + 2 * MORE) + "px";
    paper.style.left = this.gutter + "px";
    this.pen = paper.getContext("2d", { alpha: false });
    if (this.width === undefined) {
      this.from = this.least;
      this.width = this.most - this.least;
    }
    this.drawStrip();
    this.draw();
  }

  /** What is seen is another now, not only from elsewhere. */
  draw() {
    this.stale = true;
    this.frame();
  }

  frame() {
    if (!this.due) {
      this.due = requestAnimationFrame(() => {
        this.due = 0;
        this.see();
      });
    }
  }

  /** Pushes the paper along as far as it reaches, and draws it anew where it doesn't. */
  see() {
    if (!this.pen) {
      return;
    }
    // What is only dragged is as wide as before but for the last digits, which sums leave behind.
    if (Math.abs(this.drawnWidth - this.width) < 1e-6 * this.width) {
      this.width = this.drawnWidth;
    }
    const reaches = this.drawnWidth === this.width && Math.abs(this.from - this.drawnFrom) <= MORE * this.width;
    clearTimeout(this.settling);
    if (this.stale || !reaches) {
      this.paint();
    } else if (this.from !== this.drawnFrom) {
      // Names stand at the edge again once it rests.
      this.settling = setTimeout(() => this.draw(), SETTLED_MS);
    }
    const pushed = (this.drawnFrom - this.from) / this.width * this.wide - MORE * this.wide;
    $("paper").style.transform = `translateX(${pushed}px)`;
    const perU = this.stripWide / (this.most - this.least);
    const frame = Math.max(10, this.width * perU);
    if (frame !== this.frameWide) {
      this.frameWide = frame;
      $("window").style.width = frame + "px";
    }
    $("window").style.transform = `translateX(${Math.min((this.from - this.least) * perU, this.stripWide - frame)}px)`;
  }

  // -- drawing: what is in sight and some more on either side

  paint() {
    this.stale = false;
    this.drawnFrom = this.from;
    this.drawnWidth = this.width;
    const seen = { from: this.from, width: this.width, wide: this.wide };
    this.from -= MORE * seen.width;
    this.width *= 1 + 2 * MORE;
    this.wide *= 1 + 2 * MORE;
    this.edge = MORE * seen.wide;
    this.paintAll(this.pen);
    Object.assign(this, seen);
  }

  paintAll(pen) {
    const c = this.colour;
    pen.setTransform(this.ratio, 0, 0, this.ratio, 0, 0);
    pen.fillStyle = c.paper;
    pen.fillRect(0, 0, this.wide, this.height);
    this.drawAxis(pen);
    for (const lane of this.lanes.values()) {
      pen.fillStyle = c.rule;
      pen.fillRect(0, lane.top, this.wide, 1);
      this.drawBars(pen, lane);
      this.drawCurves(pen, lane);
      this.drawMarks(pen, lane);
    }
    this.drawPins(pen);
    this.drawChosen(pen);
  }

  offset(ms) {
    let minutes = this.data.offsets[0].minutes;
    for (const each of this.data.offsets) {
      if (each.fromMs <= ms) {
        minutes = each.minutes;
      }
    }
    return minutes * MINUTE;
  }

  drawAxis(pen) {
    const c = this.colour;
    pen.font = "12px system-ui, sans-serif";
    pen.textBaseline = "alphabetic";
    pen.fillStyle = c.sheet;
    pen.fillRect(0, 0, this.wide, AXIS);
    const perMs = this.wide / this.width;
    const apart = STEPS_MS.find((step) => step * perMs >= 74) || STEPS_MS[STEPS_MS.length - 1];
    let lastEnd = -1e9;
    let lastDay = null;
    let atEdge = true;
    this.along.parts.forEach((part, index) => {
      const from = this.x(part.u);
      const to = this.x(part.u + part.toMs - part.fromMs);
      if (index > 0) {
        this.drawFold(pen, this.x(part.u - this.along.fold), from);
      }
      if (to < -200 || from > this.wide) {
        return;
      }
      const seenFrom = Math.max(part.fromMs, this.along.ms(Math.max(part.u, this.from)) - apart);
      const seenTo = Math.min(part.toMs, part.fromMs + (this.from + this.width - part.u));
      let local = Math.floor((seenFrom + this.offset(seenFrom)) / apart) * apart;
      for (let guard = 0; guard < 400; guard++, local += apart) {
        // The clock's offset at that time, also when it was put forward or back just then.
        let ms = local - this.offset(local - this.offset(local));
        ms = local - this.offset(ms);
        if (ms > seenTo) {
          break;
        }
        if (ms < part.fromMs || ms < seenFrom) {
          continue;
        }
        const x = this.x(part.u + ms - part.fromMs);
        const at = new Date(local);
        const day = at.getUTCDate();
        if (atEdge && x >= this.edge) {
          // The first one that is seen says its day.
          atEdge = false;
          lastDay = null;
        }
        let text = `${String(at.getUTCHours()).padStart(2, "0")}:${String(at.getUTCMinutes()).padStart(2, "0")}`;
        if (apart < MINUTE) {
          text += `:${String(at.getUTCSeconds()).padStart(2, "0")}`;
        }
        if (day !== lastDay && this.data.entries[0].time.length > 6) {
          text = `${day} ${at.toLocaleDateString("en-GB", { month: "short", timeZone: "UTC" })} ${text}`;
        }
        pen.fillStyle = c.rule;
        pen.fillRect(Math.round(x), AXIS, 1, this.height - AXIS);
        if (x - 16 > lastEnd && x < this.wide - 20) {
          pen.fillStyle = c.ink;
          const left = Math.max(2, x - 15);
          pen.fillText(text, left, 16);
          lastEnd = left + text.length * 7;
          lastDay = day;
        }
      }
    });
  }

  drawFold(pen, from, to) {
    if (to < 0 || from > this.wide) {
      return;
    }
    pen.save();
    pen.beginPath();
    pen.rect(from, 0, to - from, this.height);
    pen.clip();
    pen.fillStyle = this.colour.sheet;
    pen.fillRect(from, 0, to - from, this.height);
    pen.strokeStyle = this.colour.line;
    pen.lineWidth = 1;
    pen.beginPath();
    const first = Math.max(from, -this.height);
    for (let x = first - ((first - from) % 14) - this.height; x < Math.min(to, this.wide); x += 14) {
      pen.moveTo(x, this.height);
      pen.lineTo(x + this.height, 0);
    }
    pen.stroke();
    pen.restore();
  }

  drawBars(pen, lane) {
    const c = this.colour;
    for (const bar of lane.bars) {
      const from = this.x(bar.u);
      const to = Math.max(from + 3, this.x(bar.v));
      if (to < 0 || from > this.wide) {
        continue;
      }
      const y = lane.barsTop + bar.row * BAR;
      const left = Math.max(-4, from);
      const right = Math.min(this.wide + 4, to);
      pen.fillStyle = c.sheet;
      pen.fillRect(left, y, right - left, BAR - 4);
      pen.strokeStyle = bar.open ? c.check : c.line;
      pen.lineWidth = bar.open ? 2 : 1;
      pen.setLineDash(bar.open ? [5, 4] : []);
      pen.strokeRect(left + 0.5, y + 0.5, Math.max(2, right - left - 1), BAR - 5);
      const start = left < this.edge && right > this.edge + 40 ? this.edge : Math.max(0, left);
      const letters = Math.floor((right - start - 8) / 6.6);
      if (letters >= 3) {
        pen.fillStyle = c.ink;
        pen.font = "12px system-ui, sans-serif";
        pen.fillText(bar.name.length > letters ? bar.name.slice(0, letters - 1) + "…" : bar.name, start + 5, y + 12);
      }
    }
    pen.setLineDash([]);
  }

  drawCurves(pen, lane) {
    const c = this.colour;
    lane.curves.forEach((curve, index) => {
      const bottom = lane.curveTop + CURVE;
      const y = (value) => bottom - Math.abs(value) / curve.most * (CURVE - 14);
      pen.strokeStyle = index ? c.note : c.curve;
      pen.fillStyle = pen.strokeStyle;
      pen.lineWidth = 2;
      pen.setLineDash(index ? [6, 3] : []);
      pen.beginPath();
      const points = curve.points;
      let first = 0;
      while (first + 1 < points.length && points[first + 1].u < this.from) {
        first++;
      }
      let x = Math.max(-4, this.x(points[first].u));
      pen.moveTo(x, y(points[first].value));
      let lastText = -1e9;
      const texts = [];
      for (let i = first; i < points.length; i++) {
        const to = i + 1 < points.length ? this.x(points[i + 1].u) : this.x(this.along.end);
        x = Math.max(-4, this.x(points[i].u));
        pen.lineTo(x, y(points[i].value));
        pen.lineTo(to, y(points[i].value));
        const start = x < this.edge && to > this.edge + 90 ? this.edge : Math.max(0, x);
        if (to - start > 90 && start > lastText) {
          texts.push([points[i].says, start + 3, y(points[i].value) - 3]);
          lastText = start + points[i].says.length * 6.4;
        }
        if (to > this.wide) {
          break;
        }
      }
      pen.stroke();
      pen.setLineDash([]);
      pen.font = "11px system-ui, sans-serif";
      texts.forEach(([text, left, top]) => pen.fillText(text, left, top));
    });
  }

  drawMarks(pen, lane) {
    const c = this.colour;
    const y = lane.ticks;
    const doubtful = [];
    const margin = 12 / this.wide * this.width;
    const marks = lane.marks;
    const first = this.firstFrom(marks, this.from - margin);
    const end = this.from + this.width + margin;
    pen.fillStyle = c.rule;
    for (let i = first; i < marks.length && marks[i].u <= end; i++) {
      if (!marks[i].fits) {
        pen.fillRect(Math.round(this.x(marks[i].u)) - 1, y + 5, 2, TICK - 5);
      }
    }
    pen.fillStyle = c.bar;
    for (let i = first; i < marks.length && marks[i].u <= end; i++) {
      const entry = marks[i];
      if (!entry.fits) {
        continue;
      }
      if (entry.doubtful) {
        doubtful.push(entry);
      } else if (entry.findings.length) {
        pen.drawImage(this.stamp("proof", ""), this.x(entry.u) - 10, y, 20, TICK);
      } else if (entry.doubts.length) {
        pen.drawImage(this.stamp("settled", this.signs.get(entry.doubts[0]).sign), this.x(entry.u) - 10, y, 20, TICK);
      } else {
        pen.fillRect(Math.round(this.x(entry.u)) - 2, y + 2, 4, TICK - 2);
      }
    }
    for (const entry of doubtful) {
      pen.drawImage(this.stamp("doubt", this.signs.get(entry.doubts[0]).sign), this.x(entry.u) - 10, y, 20, TICK);
    }
  }

  firstFrom(marks, u) {
    let low = 0;
    let high = marks.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (marks[middle].u < u) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }

  /** Pins stand in rows; what finds no room is told by its number's neighbour. */
  drawPins(pen) {
    const c = this.colour;
    const ends = new Array(PIN_ROWS).fill(-1e9);
    const top = AXIS + this.label;
    pen.font = "700 12px system-ui, sans-serif";
    for (const pin of this.pins) {
      const x = this.x(pin.entry.u);
      pin.x = null;
      if (x < -20 || x > this.wide + 20) {
        continue;
      }
      const width = 10 + pin.found.number.length * 8;
      let row = ends.findIndex((end) => end + 2 < x - width / 2);
      if (row < 0) {
        if (pin.found !== this.found) {
          // No room: a stroke says that there is more to see from closer.
          pen.fillStyle = c[pin.found.weight] || c.ink;
          pen.fillRect(x - 1, this.pinsEnd - 5, 2, 5);
          continue;
        }
        row = PIN_ROWS - 1;
      }
      ends[row] = x + width / 2;
      pin.x = x;
      pin.y = top + row * PIN;
      const chosen = pin.found === this.found;
      const weight = pin.found.weight;
      const colour = c[weight] || c.ink;
      if (chosen) {
        pen.fillStyle = colour;
        pen.fillRect(x - 0.5, pin.y + PIN - 4, 1, this.lanes.get(pin.entry.lane).ticks - pin.y - PIN + 4);
      }
      pen.fillStyle = weight === "stop" ? colour : c.paper;
      pen.fillRect(x - width / 2, pin.y + 1, width, PIN - 4);
      pen.strokeStyle = chosen ? c.ink : colour;
      pen.lineWidth = chosen ? 3 : 2;
      pen.setLineDash(weight === "note" ? [3, 2] : []);
      pen.strokeRect(x - width / 2, pin.y + 1, width, PIN - 4);
      pen.setLineDash([]);
      pen.fillStyle = weight === "stop" ? c["on-stop"] : colour;
      pen.fillText(pin.found.number, x - pin.found.number.length * 3.5, pin.y + 14);
    }
  }

  drawChosen(pen) {
    if (!this.chosen) {
      return;
    }
    const x = this.x(this.chosen.u);
    if (x < -20 || x > this.wide + 20) {
      return;
    }
    const c = this.colour;
    const y = this.lanes.get(this.chosen.lane).ticks;
    pen.fillStyle = c.ink;
    pen.fillRect(x - 0.5, AXIS, 1, this.height - AXIS);
    pen.strokeStyle = c.paper;
    pen.lineWidth = 6;
    pen.strokeRect(x - 12, y - 2, 24, TICK + 4);
    pen.strokeStyle = c.ink;
    pen.lineWidth = 3;
    pen.strokeRect(x - 12, y - 2, 24, TICK + 4);
  }

  drawStrip() {
    const strip = $("strip");
    const wide = strip.clientWidth;
    if (!wide || !this.ratio) {
      return;
    }
    this.stripWide = wide;
    const high = strip.clientHeight;
    const paper = $("strip-paper");
    paper.width = Math.round(wide * this.ratio);
    paper.height = Math.round(high * this.ratio);
    const pen = paper.getContext("2d");
    pen.scale(this.ratio, this.ratio);
    const k = wide / (this.most - this.least);
    const lanes = [...this.lanes.keys()];
    const row = high / lanes.length;
    for (const entry of this.data.entries) {
      pen.fillStyle = !entry.fits ? this.colour.rule : entry.doubtful ? this.colour.check : this.colour.bar;
      const big = entry.fits && entry.doubtful;
      pen.fillRect((entry.u - this.least) * k - (big ? 1.5 : 0.5), lanes.indexOf(entry.lane) * row, big ? 3 : 1, row - 1);
    }
    for (const pin of this.pins) {
      pen.fillStyle = this.colour[pin.found.weight] || this.colour.ink;
      pen.fillRect((pin.entry.u - this.least) * k - 1, 0, 2, 4);
    }
  }

  // -- what is under the pointer

  under(x, y, reach) {
    if (y < this.pinsEnd && this.pins.length) {
      return this.pins
        .filter((pin) => pin.x !== null && Math.abs(this.x(pin.entry.u) - x) <= reach && y >= pin.y - 2 && y <= pin.y + PIN)
        .map((pin) => ({ pin }));
    }
    for (const lane of this.lanes.values()) {
      if (y >= lane.top && y < lane.bottom) {
        const near = lane.marks
          .filter((entry) => entry.fits && Math.abs(this.x(entry.u) - x) <= reach)
          .sort((a, b) => Math.abs(this.x(a.u) - x) - Math.abs(this.x(b.u) - x));
        if (y < lane.ticks + TICK + 3 && near.length) {
          return near.map((entry) => ({ entry }));
        }
        const bar = lane.bars.find((each) => {
          const top = lane.barsTop + each.row * BAR;
          return y >= top && y < top + BAR && x >= this.x(each.u) - 3 && x <= Math.max(this.x(each.v), this.x(each.u) + 3) + 3;
        });
        if (bar) {
          return [{ bar }];
        }
        return near.map((entry) => ({ entry }));
      }
    }
    return [];
  }

  press(x, y, reach) {
    const things = this.under(x, y, reach);
    if (!things.length) {
      return;
    }
    if (things[0].pin) {
      const at = things.findIndex((each) => each.pin.found === this.found);
      const pin = things[(at + 1) % things.length].pin;
      this.chooseFinding(pin.found, pin.entry);
    } else if (things[0].entry) {
      const at = things.findIndex((each) => each.entry === this.chosen);
      this.choose(things[(at + 1) % things.length].entry, true);
    } else {
      const bar = things[0].bar;
      const room = Math.max(30_000, (bar.v - bar.u) * 0.08);
      this.look(bar.u - room, bar.v + room);
    }
  }

  tell(x, y) {
    const thing = this.under(x, y, 10)[0];
    let text = "";
    if (thing && thing.pin) {
      text = `${thing.pin.found.weightWord} ${thing.pin.found.number}: ${thing.pin.found.subject}`;
    } else if (thing && thing.entry) {
      text = `${TEXTS.number(thing.entry.seq)}, ${thing.entry.time}: ${thing.entry.meaning}`;
    } else if (thing && thing.bar) {
      text = `${thing.bar.name}: ${thing.bar.says}`;
    }
    if (text !== this.underText) {
      this.underText = text;
      $("under").textContent = text;
    }
  }

  // -- choosing

  choose(entry, play = false, scroll = true) {
    if (this.chosen) {
      this.chosen.row.setAttribute("aria-selected", "false");
    }
    this.chosen = entry;
    if (this.found && !this.found.entries.includes(entry.seq)) {
      this.found = null;
    }
    entry.row.setAttribute("aria-selected", "true");
    $("list").setAttribute("aria-activedescendant", entry.row.id);
    if (scroll && !entry.row.hidden) {
      this.scrollTo(entry.row);
    }
    this.bring(entry);
    this.player.take(entry, play);
    this.show();
    this.draw();
    this.keep();
    $("said").textContent = [
      `${TEXTS.number(entry.seq)}, ${entry.time}`,
      ...entry.doubts.map((id) => this.signs.get(id).name),
      entry.meaning,
    ].join(". ");
  }

  /** Within the list only: the page stays where it is. */
  scrollTo(row) {
    const list = $("list");
    const box = row.getBoundingClientRect();
    const frame = list.getBoundingClientRect();
    if (box.top < frame.top || box.bottom > frame.bottom) {
      list.scrollTop += box.top - frame.top - frame.height / 3;
    }
  }

  chooseFinding(found, entry = null) {
    this.found = found;
    this.player.stop();
    if (this.chosen && !found.entries.includes(this.chosen.seq)) {
      this.chosen.row.setAttribute("aria-selected", "false");
      this.chosen = null;
    }
    const us = found.entries.map((seq) => this.bySeq.get(seq).u);
    if (entry) {
      this.bring(entry);
    } else if (us.length) {
      const from = Math.min(...us);
      const to = Math.max(...us);
      if (from < this.from || to > this.from + this.width) {
        const room = Math.max(MINUTE, (to - from) * 0.1);
        this.look(Math.min(from - room, this.width < to - from ? from - room : from - (this.width - to + from) / 2),
          Math.max(to + room, this.width < to - from ? to + room : to + (this.width - to + from) / 2));
      }
    }
    this.chosen = null;
    document.querySelectorAll('#list [aria-selected="true"]').forEach((row) => row.setAttribute("aria-selected", "false"));
    this.show();
    this.draw();
    this.keep();
    $("said").textContent = `${found.weightWord} ${found.number}: ${found.subject}. ${found.found}`;
  }

  nothing() {
    if (this.chosen) {
      this.chosen.row.setAttribute("aria-selected", "false");
    }
    this.chosen = null;
    this.found = null;
    this.player.stop();
    this.show();
    this.draw();
    this.keep();
  }

  next(by, wanted = () => true) {
    const fitting = this.inTime.filter((entry) => entry.fits && wanted(entry));
    if (!fitting.length) {
      return;
    }
    const at = this.chosen ? this.inTime.indexOf(this.chosen) : by > 0 ? -1 : this.inTime.length;
    const ordered = by > 0 ? fitting : [...fitting].reverse();
    const next = ordered.find((entry) => (this.inTime.indexOf(entry) - at) * by > 0) || (wanted.length ? ordered[0] : null);
    if (next) {
      this.choose(next);
    }
  }

  nextDoubt(by) {
    this.next(by, (entry) => entry.doubtful);
  }

  nextFinding(by) {
    const all = this.data.findings;
    if (all.length) {
      const at = this.found ? all.indexOf(this.found) : by > 0 ? -1 : 0;
      this.chooseFinding(all[(at + by + all.length) % all.length]);
    }
  }

  // -- beside it

  show() {
    const detail = $("detail");
    const box = document.createDocumentFragment();
    detail.className = "";
    if (this.chosen) {
      $("found-title").textContent = `${TEXTS.number(this.chosen.seq)} · ${this.chosen.time}`;
      detail.className = "entry";
      this.showEntry(box, this.chosen);
    } else if (this.found) {
      $("found-title").textContent = TEXTS.oneFinding;
      this.showFinding(box, this.found);
    } else {
      $("found-title").textContent = TEXTS.findings;
      this.showSurvey(box);
    }
    detail.replaceChildren(box);
    if (this.chosen) {
      this.player.show();
    }
  }

  showSurvey(box) {
    if (!this.data.findings.length) {
      box.append(element("p", TEXTS.noFindings));
    }
    const list = element("div");
    this.data.findings.forEach((found) => list.append(this.findingButton(found)));
    box.append(list);
    const doubtful = this.inTime.filter((entry) => entry.doubtful);
    box.append(element("h2", doubtful.length ? `${TEXTS.doubtfulOnes}: ${doubtful.length}` : TEXTS.noDoubtful));
    const entries = element("div");
    doubtful.slice(0, 12).forEach((entry) => entries.append(this.entryButton(entry.seq)));
    box.append(entries);
  }

  findingButton(found) {
    const button = element("button", "", { type: "button", class: "jump", "data-finding": found.number, dir: "auto" });
    button.append(element("b", found.number), element("span", found.weightWord, { class: "weight", "data-weight": found.weight }),
      ` ${found.subject}: ${found.found}${found.difference ? ", " + found.difference : ""}`);
    button.addEventListener("click", () => {
      this.chooseFinding(found);
      $("found").querySelector("h3")?.focus();
    });
    return button;
  }

  chip(id, withSign = false) {
    const { sign, name, settled } = this.signs.get(id);
    return element("span", withSign ? `${sign} ${name}` : name, { class: settled ? "sign settled" : "sign" });
  }

  entryButton(seq, says = "") {
    const entry = this.bySeq.get(seq);
    const button = element("button", says, { type: "button", class: "jump", "data-entry": seq, dir: "auto" });
    button.append(element("b", (says ? " " : "") + TEXTS.number(seq)), `${entry.time} · `);
    entry.doubts.forEach((id) => button.append(this.chip(id)));
    button.append(element("span", entry.meaning, entry.struck ? { class: "struck" } : {}));
    button.addEventListener("click", () => {
      const found = this.found;
      this.choose(entry, true);
      this.found = found;
      this.draw();
      $("play")?.focus();
    });
    return button;
  }

  showFinding(box, found) {
    const head = element("h3", "", { tabindex: "-1", dir: "auto" });
    head.append(element("span", `${found.weightWord} ${found.number}`, { class: "weight", "data-weight": found.weight }), ` ${found.subject}`);
    box.append(head);
    const facts = element("dl");
    const fact = (name, text) => text && facts.append(element("dt", name), element("dd", text, { dir: "auto" }));
    fact(TEXTS.foundRow, found.found);
    fact(TEXTS.expected, found.expected);
    fact(TEXTS.differs, found.difference);
    fact(TEXTS.allowed, found.tolerance);
    fact(TEXTS.also, found.also.join("; "));
    fact(TEXTS.todo, found.remedy);
    box.append(facts);
    box.append(element("h2", found.entries.length ? TEXTS.told : TEXTS.nobody));
    const told = element("div");
    found.entries.forEach((seq) => told.append(this.entryButton(seq)));
    box.append(told, this.backButton());
  }

  backButton() {
    const back = element("button", TEXTS.back, { type: "button", id: "back" });
    back.addEventListener("click", () => {
      this.nothing();
      $("view").focus({ preventScroll: true });
    });
    const row = element("div", "", { class: "row wide" });
    row.append(back);
    return row;
  }

  showEntry(box, entry) {
    const what = element("div", "", { class: "readings" });
    const head = element("div");
    entry.doubts.forEach((id) => head.append(this.chip(id, true)));
    head.append(element("p", entry.meaning, { class: entry.struck ? "meaning struck" : "meaning now", dir: "auto" }));
    if (entry.words) {
      head.append(element("p", `“${entry.words}”`, { dir: "auto", title: TEXTS.heard }));
    }
    what.append(head);
    if (entry.heard.length) {
      const heard = element("div");
      const readings = element("ol", "", { class: "heard" });
      entry.heard.forEach((each) => readings.append(element("li", TEXTS.reading(each.words, each.taken), { dir: "auto" })));
      heard.append(element("p", TEXTS.heardAs, { class: "small" }), readings);
      what.append(heard);
    }
    for (const each of entry.asked) {
      const asked = element("div");
      asked.append(element("p", TEXTS.question, { class: "small" }), element("p", `“${each.question}”`, { dir: "auto" }), element("p", TEXTS.answer(each.answer), { dir: "auto" }));
      what.append(asked);
    }
    for (const reading of entry.readings) {
      const other = element("div", "", { class: "now" });
      other.append(element("p", reading.what, { class: "small" }), element("p", reading.meaning, { class: "meaning", dir: "auto" }),
        element("p", `“${reading.words}”`, { dir: "auto" }));
      what.append(other);
    }
    const facts = element("dl");
    const fact = (name, text) => text && facts.append(element("dt", name), element("dd", text, { dir: "auto" }));
    fact(TEXTS.happened, entry.whole);
    fact(TEXTS.noted, entry.noted);
    fact(TEXTS.who, `${entry.who}, ${entry.source}`);
    fact(TEXTS.sure, entry.sure);
    fact(TEXTS.stepRow, entry.step ? this.stepNames.get(entry.step) : "");
    fact(TEXTS.names, entry.places.map((id) => this.placeNames.get(id) || id).join(", "));
    const sound = element("div", "", { id: "sound" });
    const picture = pictureOf(entry);
    if (picture) {
      what.append(element("img", "", { src: picture, alt: entry.meaning, class: "picture" }));
    }
    const left = element("div", "", { class: "readings" });
    left.append(...what.childNodes);
    const more = element("div");
    entry.links.forEach((link) => more.append(this.entryButton(link.seq, link.says)));
    if (entry.findings.length) {
      more.append(element("h2", TEXTS.proves));
      entry.findings.forEach((number) => more.append(this.findingButton(this.byNumber.get(number))));
    }
    const row = this.backButton();
    if (!inFile) {
      row.prepend(element("a", TEXTS.correct, { class: "button", id: "correct", href: reviewOf(this.data.job, entry.seq) }));
    }
    box.append(left, sound, facts, more, row);
  }

  // -- the address holds what is seen, so that it can be sent

  keep() {
    clearTimeout(this.keeping);
    this.keeping = setTimeout(() => {
      const state = new URLSearchParams();
      const asked = this.asked;
      if (this.chosen) {
        state.set("entry", this.chosen.seq);
      }
      if (this.found) {
        state.set("for", this.found.number);
      }
      if (this.width < (this.most - this.least) * 0.999) {
        state.set("from", Math.round(this.along.ms(this.from)));
        state.set("wide", Math.round(this.width));
      }
      if (!this.folded) {
        state.set("nights", "whole");
      }
      if (asked.words) {
        state.set("words", asked.words);
      }
      if (asked.doubtful) {
        state.set("doubtful", "yes");
      }
      if (asked.lanes.size < this.data.lanes.length) {
        state.set("what", [...asked.lanes].join(","));
      }
      ["step", "place", "finding"].forEach((id) => asked[id] && state.set(id, asked[id]));
      const text = state.toString();
      this.written = text;
      try {
        history.replaceState(null, "", text ? "#" + text : location.pathname + location.search);
      } catch (e) {
        // A browser that keeps no address for files: nothing is lost but the link.
      }
    }, 250);
  }

  fromAddress() {
    const state = new URLSearchParams(location.hash.slice(1));
    const asked = this.asked;
    asked.words = (state.get("words") || "").slice(0, 200);
    asked.doubtful = state.get("doubtful") === "yes";
    if (state.has("what")) {
      asked.lanes = new Set(state.get("what").split(",").filter((id) => this.data.lanes.some((lane) => lane.id === id)));
    }
    ["step", "place", "finding"].forEach((id) => {
      const value = state.get(id) || "";
      asked[id] = [...$(id).options].some((option) => option.value === value) ? value : "";
    });
    this.folded = state.get("nights") !== "whole";
    $("nights").setAttribute("aria-pressed", String(!this.folded));
    this.scale();
    this.showAsked();
    const wide = Number(state.get("wide"));
    const from = Number(state.get("from"));
    if (wide > 0 && from > 0) {
      const u = this.along.u(from);
      this.wide = 1;
      this.look(u, u + wide);
    } else {
      this.from = this.least;
      this.width = this.most - this.least;
    }
    this.found = this.byNumber.get(state.get("for")) || null;
    const entry = this.bySeq.get(Number(state.get("entry")));
    if (entry) {
      this.chosen = entry;
      entry.row.setAttribute("aria-selected", "true");
      $("list").setAttribute("aria-activedescendant", entry.row.id);
      this.player.take(entry, false);
      requestAnimationFrame(() => this.scrollTo(entry.row));
    }
  }

  // -- hands

  wire() {
    const view = $("view");
    $("closer").addEventListener("click", () => this.zoom(0.5));
    $("wider").addEventListener("click", () => this.zoom(2));
    $("whole").addEventListener("click", () => this.lookAtAll());
    $("next-doubt").addEventListener("click", () => this.nextDoubt(1));
    $("next-doubt").disabled = !this.data.entries.some((entry) => entry.doubtful);
    $("next-finding").addEventListener("click", () => this.nextFinding(1));
    $("next-finding").disabled = !this.data.findings.length;
    $("nights").addEventListener("click", () => {
      const middle = this.along.ms(this.from + this.width / 2);
      const share = this.width / (this.most - this.least);
      this.folded = !this.folded;
      $("nights").setAttribute("aria-pressed", String(!this.folded));
      this.scale();
      this.drawStrip();
      const width = share * (this.most - this.least);
      const u = this.along.u(middle);
      this.width = undefined;
      this.look(u - width / 2, u + width / 2);
    });
    $("words").addEventListener("input", () => this.ask({ words: $("words").value }));
    $("doubtful").addEventListener("click", () => {
      this.ask({ doubtful: !this.asked.doubtful });
      this.showAsked();
    });
    $("clear").addEventListener("click", () => this.clear());
    $("lanes").addEventListener("change", () => {
      this.ask({ lanes: new Set([...$("lanes").querySelectorAll("input:checked")].map((box) => box.value)) });
    });
    ["step", "place", "finding"].forEach((id) => $(id).addEventListener("change", () => this.ask({ [id]: $(id).value })));
    $("list").addEventListener("click", (event) => {
      const row = event.target.closest("li");
      if (row) {
        this.choose(this.bySeq.get(Number(row.dataset.seq)), true, false);
      }
    });
    $("list").addEventListener("keydown", (event) => this.key(event, true));
    view.addEventListener("keydown", (event) => this.key(event, false));
    this.wirePointers(view);
    this.wireStrip($("strip"));
    // A sheet is narrower than the window, and finer than it.
    window.addEventListener("beforeprint", () => this.print(true));
    window.addEventListener("afterprint", () => this.print(false));
    new ResizeObserver(() => {
      if (!this.printing && view.clientWidth !== this.outer) {
        this.size();
      }
    }).observe(view);
    matchMedia("(prefers-color-scheme: dark)").addEventListener("change", () => {
      this.ink();
      this.drawStrip();
      this.draw();
      this.player.drawWave();
    });
    window.addEventListener("hashchange", () => {
      if (location.hash.slice(1) !== this.written) {
        location.reload();
      }
    });
  }

  key(event, inList) {
    if (event.ctrlKey || event.altKey || event.metaKey) {
      return;
    }
    const by = event.shiftKey ? -1 : 1;
    const keys = {
      ArrowUp: () => this.next(-1),
      ArrowDown: () => this.next(1),
      ArrowLeft: () => this.pan(event.shiftKey ? -0.9 : -0.15),
      ArrowRight: () => this.pan(event.shiftKey ? 0.9 : 0.15),
      Home: () => (inList ? this.end(1) : this.look(this.least, this.least + this.width)),
      End: () => (inList ? this.end(-1) : this.look(this.most - this.width, this.most)),
      "+": () => this.zoom(0.5),
      "=": () => this.zoom(0.5),
      "-": () => this.zoom(2),
      0: () => this.lookAtAll(),
      d: () => this.nextDoubt(by),
      f: () => this.nextFinding(by),
      Enter: () => this.player.toggle(),
      " ": () => this.player.toggle(),
      Escape: () => this.nothing(),
    };
    const act = keys[event.key.length === 1 ? event.key.toLowerCase() : event.key];
    if (act) {
      event.preventDefault();
      act();
    }
  }

  end(by) {
    const fitting = this.inTime.filter((entry) => entry.fits);
    if (fitting.length) {
      this.choose(fitting[by > 0 ? 0 : fitting.length - 1]);
    }
  }

  wirePointers(view) {
    const down = new Map();
    let moved = false;
    let pinch = null;
    const place = (event) => {
      const box = view.getBoundingClientRect();
      return { x: event.clientX - box.left - view.clientLeft - this.gutter, y: event.clientY - box.top - view.clientTop };
    };
    const apart = () => {
      const [a, b] = [...down.values()];
      return { distance: Math.max(10, Math.abs(a.x - b.x)), middle: (a.x + b.x) / 2 };
    };
    view.addEventListener("pointerdown", (event) => {
      if (event.pointerType === "mouse" && event.button !== 0) {
        return;
      }
      view.setPointerCapture(event.pointerId);
      down.set(event.pointerId, place(event));
      moved = down.size > 1 ? true : false;
      pinch = down.size === 2 ? { ...apart(), from: this.from, width: this.width } : null;
    });
    view.addEventListener("pointermove", (event) => {
      const at = place(event);
      const before = down.get(event.pointerId);
      if (!before) {
        if (event.pointerType === "mouse") {
          this.tell(at.x, at.y);
        }
        return;
      }
      if (pinch && down.size === 2) {
        down.set(event.pointerId, at);
        const now = apart();
        const width = Math.min(this.most - this.least, Math.max(CLOSEST_MS, pinch.width * pinch.distance / now.distance));
        const still = pinch.from + pinch.middle / this.wide * pinch.width;
        const left = still - now.middle / this.wide * width;
        this.look(left, left + width);
        return;
      }
      if (!moved && Math.abs(at.x - before.x) < 5 && Math.abs(at.y - before.y) < 8) {
        return;
      }
      moved = true;
      view.dataset.held = "";
      this.pan((before.x - at.x) / this.wide);
      down.set(event.pointerId, at);
    });
    const up = (event) => {
      const was = down.delete(event.pointerId);
      pinch = null;
      delete view.dataset.held;
      if (was && !moved && event.type === "pointerup") {
        const at = place(event);
        this.press(at.x, at.y, event.pointerType === "mouse" ? 10 : 22);
        this.tell(at.x, at.y);
        if (this.outer < GUTTER_FROM && (this.chosen || this.found)) {
          $("found").scrollIntoView({ block: "nearest" });
        }
      }
    };
    view.addEventListener("pointerup", up);
    view.addEventListener("pointercancel", up);
    view.addEventListener("dblclick", (event) => {
      const at = place(event);
      if (!this.under(at.x, at.y, 10).length) {
        this.zoom(event.shiftKey ? 2 : 0.5, at.x / this.wide);
      }
    });
    view.addEventListener("wheel", (event) => {
      const unit = event.deltaMode === 1 ? 30 : event.deltaMode === 2 ? 400 : 1;
      if (event.ctrlKey || event.metaKey) {
        event.preventDefault();
        this.zoom(Math.exp(Math.max(-1, Math.min(1, event.deltaY * unit * 0.004))), place(event).x / this.wide);
        return;
      }
      // At the edge the wheel moves the page, as anywhere else.
      const by = (Math.abs(event.deltaX) > Math.abs(event.deltaY) ? event.deltaX : event.deltaY) * unit / this.wide;
      const before = this.from;
      this.pan(by);
      if (this.from !== before) {
        event.preventDefault();
      }
    }, { passive: false });
  }

  wireStrip(strip) {
    let grip = null;
    const at = (event) => {
      const box = strip.getBoundingClientRect();
      return this.least + (event.clientX - box.left) / box.width * (this.most - this.least);
    };
    strip.addEventListener("pointerdown", (event) => {
      strip.setPointerCapture(event.pointerId);
      const u = at(event);
      grip = u >= this.from && u <= this.from + this.width ? u - this.from : this.width / 2;
      this.look(u - grip, u - grip + this.width);
    });
    strip.addEventListener("pointermove", (event) => {
      if (grip !== null) {
        const u = at(event);
        this.look(u - grip, u - grip + this.width);
      }
    });
    ["pointerup", "pointercancel"].forEach((name) => strip.addEventListener(name, () => { grip = null; }));
  }
}

// ---- one sound at a time

class Player {
  constructor(timeline) {
    this.timeline = timeline;
    this.audio = new Audio();
    this.audio.preservesPitch = true;
    this.entry = null;
    this.sound = null;
    this.peaks = null;
    this.address = null;
    for (const name of ["play", "pause", "ended", "seeked", "loadedmetadata"]) {
      this.audio.addEventListener(name, () => this.follow());
    }
  }

  stop() {
    this.audio.pause();
    this.entry = null;
  }

  /** Fetches the sound of an entry, and plays it if wanted. */
  async take(entry, play) {
    if (this.entry === entry) {
      if (play) {
        this.play(1);
      }
      return;
    }
    this.audio.pause();
    this.audio.removeAttribute("src");
    if (this.address) {
      URL.revokeObjectURL(this.address);
      this.address = null;
    }
    this.entry = entry;
    this.sound = null;
    this.peaks = null;
    const sound = await soundOf(entry);
    if (this.entry !== entry) {
      return;
    }
    this.sound = sound;
    if (sound.bytes) {
      try {
        const heard = await new OfflineAudioContext(1, 1, 16_000).decodeAudioData(sound.bytes.slice(0));
        if (this.entry !== entry) {
          return;
        }
        this.peaks = heard.getChannelData(0);
        this.seconds = heard.duration;
        this.address = URL.createObjectURL(new Blob([sound.bytes], { type: "audio/wav" }));
        this.audio.src = this.address;
      } catch (e) {
        this.sound = { says: TEXTS.unplayable, wrong: true };
      }
    }
    if (this.sound.wrong && !entry.silent) {
      entry.silent = true;
      entry.row.querySelector(".tail").append(element("span", ` · ${this.sound.says}`));
    }
    this.show();
    if (play && this.peaks) {
      this.play(1);
    }
  }

  play(rate) {
    if (!this.peaks) {
      return;
    }
    this.audio.playbackRate = rate;
    if (rate !== 1 || this.audio.ended) {
      this.audio.currentTime = 0;
    }
    this.audio.play().catch(() => this.follow());
  }

  toggle() {
    if (!this.timeline.chosen) {
      return;
    }
    if (this.audio.paused) {
      this.play(1);
    } else {
      this.audio.pause();
    }
  }

  show() {
    const box = $("sound");
    if (!box || this.entry !== this.timeline.chosen) {
      return;
    }
    box.replaceChildren();
    if (!this.sound) {
      box.append(element("p", TEXTS.loading, { class: "small" }));
      return;
    }
    if (!this.peaks) {
      box.append(element("p", this.sound.says, { class: this.sound.never ? "small" : "silent" }));
      return;
    }
    const wave = element("div", "", { id: "wave", title: TEXTS.wave });
    wave.append(element("canvas", "", { "aria-hidden": "true" }), element("div", "", { id: "head-line" }));
    wave.addEventListener("pointerdown", (event) => {
      const frame = wave.getBoundingClientRect();
      this.audio.currentTime = Math.max(0, Math.min(0.999, (event.clientX - frame.left) / frame.width)) * this.seconds;
    });
    const row = element("div", "", { class: "row" });
    const play = element("button", "", { type: "button", id: "play" });
    play.addEventListener("click", () => this.toggle());
    const slower = element("button", TEXTS.slower, { type: "button", id: "slower" });
    slower.addEventListener("click", () => this.play(0.75));
    row.append(play, slower, element("span", "", { id: "clock" }));
    box.append(wave, row);
    this.drawWave();
    this.follow();
  }

  drawWave() {
    const paper = document.querySelector("#wave canvas");
    if (!paper || !this.peaks) {
      return;
    }
    const ratio = window.devicePixelRatio || 1;
    const wide = Math.max(1, Math.round(paper.clientWidth * ratio));
    const high = Math.max(1, Math.round(paper.clientHeight * ratio));
    paper.width = wide;
    paper.height = high;
    const pen = paper.getContext("2d");
    pen.fillStyle = this.timeline.colour.ink;
    let loudest = 0.02;
    for (let i = 0; i < this.peaks.length; i++) {
      loudest = Math.max(loudest, Math.abs(this.peaks[i]));
    }
    for (let x = 0; x < wide; x++) {
      const from = Math.floor(x / wide * this.peaks.length);
      const to = Math.max(from + 1, Math.floor((x + 1) / wide * this.peaks.length));
      let low = 0;
      let top = 0;
      for (let i = from; i < to; i++) {
        low = Math.min(low, this.peaks[i]);
        top = Math.max(top, this.peaks[i]);
      }
      const up = top / loudest * high * 0.46;
      const down = -low / loudest * high * 0.46;
      pen.fillRect(x, high / 2 - up, 1, Math.max(1, up + down));
    }
  }

  /** Shows where it is, as long as it plays. */
  follow() {
    const button = $("play");
    if (!button || this.entry !== this.timeline.chosen || !this.peaks) {
      return;
    }
    const playing = !this.audio.paused && !this.audio.ended;
    const text = playing ? TEXTS.pause : TEXTS.play;
    if (button.textContent !== text) {
      button.textContent = text;
    }
    const at = this.audio.currentTime;
    $("clock").textContent = `${at.toFixed(1)} / ${this.seconds.toFixed(1)} s`;
    $("head-line").style.left = at / this.seconds * 100 + "%";
    if (playing && !this.following) {
      this.following = requestAnimationFrame(() => {
        this.following = 0;
        this.follow();
      });
    }
  }
}

read().then((data) => {
  $("main").hidden = false;
  const timeline = new Timeline(data);
  document.body.dataset.ready = "yes";
  return timeline;
}).catch((e) => {
  trouble(e.message || TEXTS.noData);
  document.body.dataset.ready = "no";
});
