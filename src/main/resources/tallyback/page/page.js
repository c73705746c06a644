// The page itself: shows what the server tells, and hands on what is pressed, held or typed.

import { Link } from "./link.js";
import { Sound } from "./sound.js";
import { Store } from "./store.js";
import { TEXTS } from "./texts.js";

const $ = (id) => document.getElementById(id);
const MOST_TOLD = 8;
const MOST_LINES = 6;
const TAP_MS = 300;
const UNLOCK_MS = 1200;

/** The same patterns as the sounds: one short, two short, one long. */
const SHAKES = { noted: [90], asked: [90, 90, 90], rejected: [360], reminder: [90, 90, 90, 90] };

function remembered(storage, name, make) {
  try {
    let value = storage.getItem(name);
    if (value === null) {
      value = make();
      storage.setItem(name, value);
    }
    return value;
  } catch (e) {
    return make();
  }
}

const random = () => crypto.randomUUID().slice(0, 8);
const who = {
  device: remembered(localStorage, "tallyback-device", () => `p${random()}`),
  tab: remembered(sessionStorage, "tallyback-tab", () => `t${random()}`),
};

let attention = "";
let way = remembered(localStorage, "tallyback-way", () => "word");
let part = "free";
let listened = false;
let wakeLock = null;
let heardThrough = "good";
let connected = "away";

// ---- sound that is kept, and what of it is lost

const losses = new Map();

function lost(piece) {
  const known = losses.get(piece.stream);
  if (known && known.to === piece.from) {
    known.to = piece.to;
  } else {
    losses.set(piece.stream, { ...piece, noted: false });
  }
  showLosses();
}

function showLosses() {
  const texts = [...losses.values()].map((loss) =>
    TEXTS.undelivered(
      new Date(loss.pageMs).toTimeString().slice(0, 8), Math.max(1, Math.round((loss.to - loss.from) / 16000)), loss.noted),
  );
  note("undelivered", texts.join(" "));
}

function tellLosses() {
  for (const loss of losses.values()) {
    if (!loss.noted) {
      link.send({ type: "lost", stream: loss.stream, from: loss.from, pageMs: loss.pageMs });
    }
  }
}

const store = new Store(who.tab, lost);

// ---- the connection

const link = new Link(who, store, {
  welcome(message) {
    attention = message.attention || "";
    $("plans").hidden = !message.plans;
    $("look-back").hidden = false;
    $("to-review").href = `/jobs/${encodeURIComponent(message.job)}/review`;
    if (!attention && way === "word") {
      choose("open");
    }
    $("told").replaceChildren();
    history.length = 0;
    connection("here");
    showWays();
    tellLosses();
  },
  message: receive,
  sound: (data) => sound.play(data),
  away(reason) {
    if (connected !== "failed" && connected !== "ended") {
      connection("away");
    }
    note("trouble", reason && reason !== "" && connected === "away" ? reason : "");
    sound.hush();
  },
});

function connection(state, says) {
  connected = state;
  $("connection").dataset.state = state;
  $("connection").textContent = TEXTS.connection[state] || state;
  note("trouble", says || "");
}

function receive(message) {
  switch (message.type) {
    case "told":
      told(message);
      break;
    case "answers":
      answers(message.answers);
      break;
    case "noise":
      heardThrough = message.state;
      break;
    case "board":
      board(message);
      break;
    case "way":
      choose(message.way);
      break;
    case "hush":
      sound.hush();
      break;
    case "part":
      takePart(message.part);
      break;
    case "state":
      connection(message.state, message.says);
      break;
    case "clock":
      note("clock", message.says);
      break;
    case "second":
      note("second", message.says);
      break;
    case "used-to":
      $("used-to").textContent = message.says;
      break;
    case "words":
      if (!message.taken) {
        note("trouble", message.says);
      }
      break;
    case "lost":
      for (const loss of losses.values()) {
        if (loss.stream === message.stream && loss.from === message.from && message.noted) {
          loss.noted = true;
        }
      }
      showLosses();
      break;
    default:
  }
}

function takePart(now) {
  const before = part;
  part = now;
  if (now === "watches" && sound.isOn()) {
    link.listening = false;
    sound.stop();
  }
  note("elsewhere", now === "watches" ? (before === "listens" ? TEXTS.taken : TEXTS.elsewhere) : "");
  showListen();
}

// ---- what is told

const history = [];

function note(id, text) {
  const element = $(id);
  element.hidden = !text;
  element.textContent = text || "";
}

function told(message) {
  const quiet = message.status === "rejected" && !message.says;
  if (quiet && way === "word") {
    return; // nobody called: talk that is no entry
  }
  const status = message.heard === "" && message.says.startsWith("the attention word") ? "called" : message.status;
  const says = quiet ? TEXTS.notUnderstood : message.says;
  if (history.length > 0) {
    before(history[history.length - 1]);
  }
  history.push({ ...message, status, says });
  history.splice(0, Math.max(0, history.length - 20));
  $("last").dataset.status = status;
  $("last-status").textContent = TEXTS.status[status] || status;
  $("last-time").textContent = message.time;
  $("last-says").textContent = status === "called" ? "" : says;
  $("last-says").dataset.length = size(says);
  $("last-heard").textContent = message.heard && status !== "noted" && status !== "answered" ? TEXTS.heard(message.heard) : "";
  note("reminder", message.reminder || "");
  if (Date.now() - Date.parse(message.at) < 60000 && SHAKES[status] && mayShake()) {
    navigator.vibrate(SHAKES[status]);
  }
}

/* A browser lets a page shake the device only after somebody has touched it. */
function mayShake() {
  const touched = !navigator.userActivation || navigator.userActivation.hasBeenActive;
  return Boolean(navigator.vibrate) && touched;
}

/* From a few words, the largest, to an answer of many lines. */
function size(says) {
  if (says.includes("\n")) {
    return "4";
  }
  const step = [30, 70, 140].findIndex((most) => says.length <= most);
  return String(step < 0 ? 4 : step + 1);
}

function before(message) {
  const item = document.createElement("li");
  item.dataset.status = message.status;
  const status = document.createElement("strong");
  status.textContent = TEXTS.status[message.status] || message.status;
  const time = document.createElement("span");
  time.className = "time";
  time.textContent = message.time;
  const says = document.createElement("span");
  says.textContent = message.says || message.heard;
  item.append(time, status, says);
  $("told").prepend(item);
  while ($("told").children.length > MOST_TOLD) {
    $("told").lastChild.remove();
  }
}

function answers(list) {
  $("asking").hidden = list.length === 0;
  $("answers").replaceChildren(
    ...list.map((answer) => {
      const button = document.createElement("button");
      button.type = "button";
      button.textContent = answer;
      button.addEventListener("click", () => enter(answer));
      return button;
    }),
  );
}

function board(message) {
  $("job").textContent = message.job;
  document.title = `Tallyback: ${message.job}`;
  const step = message.step;
  $("next-title").textContent = step && step.begun ? TEXTS.underWayTitle : TEXTS.nextTitle;
  $("next-step").textContent = step ? step.name : TEXTS.noMoreSteps;
  lines("cautions", step ? step.cautions.map((says) => ({ name: "", says })) : [], "");
  $("start-verdict").replaceChildren();
  const question = document.createElement("span");
  question.textContent = message.startQuestion;
  const answer = document.createElement("strong");
  answer.className = "answer";
  answer.dataset.answer = message.startAnswer;
  answer.textContent = message.start;
  $("start-verdict").append(question, " ", answer);
  $("checks").textContent = message.checks > 0 ? TEXTS.checks(message.checks, message.stops.length > 0) : "";
  lines("stops", message.stops, "", 3);
  lines("off", message.off, TEXTS.nothingOff);
  lines("loose", message.loose, TEXTS.nothingLoose);
  lines("fluids", message.fluids, TEXTS.nothingFluid);
  note("paused", message.paused ? TEXTS.paused : "");
}

function lines(id, list, none, most = MOST_LINES) {
  const items = list.slice(0, most).map(({ name, says }) => {
    const item = document.createElement("li");
    if (name) {
      const subject = document.createElement("strong");
      subject.textContent = name;
      item.append(subject, " ");
    }
    item.append(says);
    return item;
  });
  if (list.length > most) {
    const more = document.createElement("li");
    more.textContent = TEXTS.more(list.length - most);
    items.push(more);
  }
  if (items.length === 0 && none) {
    const nothing = document.createElement("li");
    nothing.className = "nothing";
    nothing.textContent = none;
    items.push(nothing);
  }
  $(id).hidden = items.length === 0;
  $(id).replaceChildren(...items);
}

// ---- the microphone

const sound = new Sound({
  piece(piece) {
    store.add(piece);
    link.pump();
  },
  state(state) {
    $("microphone").dataset.state = state;
    $("microphone").textContent = TEXTS.microphone[state];
    if (state === "gone" || state === "off") {
      showListen();
    }
  },
  ended: (stream) => link.send({ type: "ended", stream }),
  played: (number) => link.send({ type: "played", number }),
  level,
  // The server hears of it at once, and is asked for what it wants.
  slept: () => link.renew(),
  back() {
    link.listen(false);
    keepAwake();
    showListen();
  },
});

async function listen() {
  if (sound.isOn()) {
    link.listening = false;
    listened = false;
    sound.stop();
    link.send({ type: "watch" });
    letSleep();
    forget("tallyback-listens");
    showListen();
    return;
  }
  if (await sound.start()) {
    listened = true;
    link.listen(part === "watches");
    keepAwake();
    remembered(sessionStorage, "tallyback-listens", () => "yes");
  }
  showListen();
}

function forget(name) {
  try {
    sessionStorage.removeItem(name);
  } catch (e) {
    // Nothing was kept there either.
  }
}

async function keepAwake() {
  try {
    wakeLock = await navigator.wakeLock.request("screen");
  } catch (e) {
    wakeLock = null; // the screen may go dark; listening goes on
  }
}

function letSleep() {
  if (wakeLock) {
    wakeLock.release();
    wakeLock = null;
  }
}

document.addEventListener("visibilitychange", () => {
  if (document.visibilityState === "visible" && sound.isOn()) {
    keepAwake();
  }
});

function level(db, floorDb, peak) {
  const meter = $("level");
  meter.setAttribute("aria-valuenow", String(Math.round(Math.max(-80, db))));
  const share = (value) => `${Math.max(0, Math.min(100, ((value + 80) / 80) * 100))}%`;
  $("level-bar").style.inlineSize = share(db);
  $("level-noise").style.insetInlineStart = share(floorDb);
  // How far it can be trusted the server says, by the figure by which it takes or refuses.
  const how = peak >= 32700 ? "over" : heardThrough;
  if (meter.dataset.how !== how) {
    meter.dataset.how = how;
    $("noise").textContent = TEXTS.noise[how];
  }
}

function showListen() {
  const on = sound.isOn();
  $("listen").textContent = on ? TEXTS.stopListening : part === "watches" ? TEXTS.listenHere : TEXTS.listen;
  $("listen").setAttribute("aria-pressed", String(on));
  $("hold").hidden = !(on && way === "held");
  if (!on) {
    $("level").dataset.how = "off";
    $("noise").textContent = TEXTS.noise.off;
    $("level-bar").style.inlineSize = "0";
  }
}

// ---- three ways to be heard

function choose(now) {
  way = now;
  sound.way = now;
  press(false);
  try {
    localStorage.setItem("tallyback-way", now);
  } catch (e) {
    // It is the way for now.
  }
  showWays();
  showListen();
}

function showWays() {
  sound.way = way;
  document.body.dataset.way = way;
  for (const each of ["word", "open", "held"]) {
    $(`way-${each}`).setAttribute("aria-pressed", String(each === way));
  }
  $("way-word").textContent = TEXTS.wayWord(attention);
  $("way-word").hidden = !attention;
}

function press(down) {
  sound.pressed = down;
  $("hold").setAttribute("aria-pressed", String(down));
  $("hold").textContent = down ? TEXTS.holding : TEXTS.hold;
}

/** Held for as long as it is down; a short tap, which is all that some pedals give, switches. */
let downSince = 0;
let wasPressed = false;

function down() {
  downSince = Date.now();
  wasPressed = sound.pressed;
  press(true);
}

function up() {
  if (downSince === 0) {
    return;
  }
  const tapped = Date.now() - downSince < TAP_MS;
  downSince = 0;
  press(tapped ? !wasPressed : false);
}

$("hold").addEventListener("pointerdown", (event) => {
  $("hold").setPointerCapture(event.pointerId);
  down();
});
$("hold").addEventListener("pointerup", up);
$("hold").addEventListener("pointercancel", up);
$("hold").addEventListener("contextmenu", (event) => event.preventDefault());

function isPedal(event) {
  const types = event.target instanceof HTMLInputElement;
  const presses = event.target instanceof HTMLButtonElement && event.target.id !== "hold";
  const plain = !event.ctrlKey && !event.altKey && !event.metaKey;
  const steers = ["Tab", "Escape", "Shift", "Control", "Alt", "Meta", "CapsLock"].includes(event.key);
  const clicks = presses && (event.key === "Enter" || event.key === " ");
  return way === "held" && sound.isOn() && plain && !types && !steers && !clicks;
}

document.addEventListener("keydown", (event) => {
  if (isPedal(event)) {
    event.preventDefault();
    if (!event.repeat) {
      down();
    }
  }
});
document.addEventListener("keyup", (event) => {
  if (downSince !== 0 && isPedal(event)) {
    event.preventDefault();
    up();
  }
});
addEventListener("blur", () => {
  if (downSince !== 0) {
    downSince = 0;
    press(false);
  }
});

// ---- typed words, undo, lock

function enter(words) {
  if (!link.send({ type: "words", id: crypto.randomUUID(), words })) {
    note("trouble", TEXTS.connection.away);
    return false;
  }
  return true;
}

$("type").addEventListener("submit", (event) => {
  event.preventDefault();
  const words = $("words").value.trim();
  if (words && enter(words)) {
    $("words").value = "";
  }
});
$("undo").addEventListener("click", () => enter(TEXTS.undoWords));
$("listen").addEventListener("click", listen);
for (const each of ["word", "open", "held"]) {
  $(`way-${each}`).addEventListener("click", () => choose(each));
}

function lock(on) {
  $("locked").hidden = !on;
  $("controls").inert = on;
  $("bar").inert = on;
  $("main").inert = on;
  if (on) {
    $("unlock").focus();
  }
}

let unlocking = null;
const beginUnlock = (event) => {
  event.preventDefault();
  if (unlocking === null) {
    $("unlock").dataset.held = "true";
    unlocking = setTimeout(() => {
      endUnlock();
      lock(false);
      $("lock").focus();
    }, UNLOCK_MS);
  }
};
const endUnlock = () => {
  clearTimeout(unlocking);
  unlocking = null;
  delete $("unlock").dataset.held;
};
$("lock").addEventListener("click", () => lock(true));
$("unlock").addEventListener("pointerdown", beginUnlock);
$("unlock").addEventListener("keydown", (event) => {
  if (event.key === "Enter" || event.key === " ") {
    beginUnlock(event);
  }
});
["pointerup", "pointercancel", "pointerleave", "keyup", "blur"].forEach((type) =>
  $("unlock").addEventListener(type, endUnlock));
$("unlock").addEventListener("contextmenu", (event) => event.preventDefault());

// ---- beginning

function write() {
  $("last-status").textContent = TEXTS.status.none;
  $("to-plans").textContent = TEXTS.plans;
  $("to-review").textContent = TEXTS.review;
  $("to-jobs").textContent = TEXTS.jobs;
  $("last-says").textContent = TEXTS.nothingYet;
  for (const [id, text] of Object.entries({
    "asking-title": TEXTS.answersTitle,
    "next-title": TEXTS.nextTitle,
    "stands-title": TEXTS.standsTitle,
    "off-title": TEXTS.offTitle,
    "loose-title": TEXTS.looseTitle,
    "fluids-title": TEXTS.fluidsTitle,
    "before-title": TEXTS.beforeTitle,
    undo: TEXTS.undo,
    lock: TEXTS.lock,
    unlock: TEXTS.unlock,
    "way-open": TEXTS.wayOpen,
    "way-held": TEXTS.wayHeld,
    "words-label": TEXTS.wordsLabel,
    enter: TEXTS.enter,
  })) {
    $(id).textContent = text;
  }
  $("microphone").textContent = TEXTS.microphone.off;
  connection("starting");
  press(false);
  showWays();
  showListen();
}

write();
store.open().then(() => {
  if (!store.works) {
    note("trouble", TEXTS.storage);
  }
  let before = null;
  try {
    before = sessionStorage.getItem("tallyback-listens");
  } catch (e) {
    // Then nobody listened here before.
  }
  // After a reload it goes on where it was, if the browser lets it without asking.
  if (before && navigator.permissions) {
    navigator.permissions
      .query({ name: "microphone" })
      .then((permission) => (permission.state === "granted" ? listen() : null))
      .catch(() => null);
  } else if (store.pieces.length > 0) {
    // Sound of a page that was closed is delivered all the same.
    link.listen(false);
  }
});
setInterval(() => {
  const behind = link.behind();
  $("connection").textContent =
    behind > 3 ? `${TEXTS.connection[connected] || ""}. ${TEXTS.waiting(Math.round(behind))}` : TEXTS.connection[connected] || "";
}, 1000);
if ("serviceWorker" in navigator) {
  navigator.serviceWorker.register("/offline.js").catch(() => null);
}
