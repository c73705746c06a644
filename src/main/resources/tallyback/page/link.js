// The connection to the server: comes back by itself, and sends what the server doesn't have yet.

const MAGIC = [0x54, 0x42, 0x49, 0x4e]; // TBIN
const HEADER = 40;
const FIRST_WAIT_MS = 500;
const LONGEST_WAIT_MS = 8000;
const GIVEN_UP_MS = 16000;
const MOST_BUFFERED = 1 << 20;

// Never set back. In some browsers it stands still while the machine sleeps: what it missed is added.
let missedMs = 0;

export const pageMs = () => performance.timeOrigin + performance.now() + missedMs;

export function clockMissed(ms) {
  missedMs += ms;
}

function frame(piece) {
  const bytes = new ArrayBuffer(HEADER + piece.samples.length * 2);
  const view = new DataView(bytes);
  MAGIC.forEach((byte, i) => view.setUint8(i, byte));
  view.setUint8(4, 1);
  view.setUint8(5, piece.flags);
  view.setUint16(6, piece.samples.length, true);
  const hex = piece.stream.replaceAll("-", "");
  for (let i = 0; i < 16; i++) {
    view.setUint8(8 + i, parseInt(hex.slice(2 * i, 2 * i + 2), 16));
  }
  view.setBigUint64(24, BigInt(piece.first), true);
  view.setFloat64(32, piece.pageMs, true);
  for (let i = 0; i < piece.samples.length; i++) {
    view.setInt16(HEADER + 2 * i, piece.samples[i], true);
  }
  return bytes;
}

/** A device that was taken away is told so only here: the browser hides why a connection was refused. */
async function leaveIfNotPaired() {
  if (location.protocol === "https:") {
    const health = await fetch("/health").then((answer) => answer.json()).catch(() => ({}));
    if (health.paired === false) {
      location.replace("/pair");
    }
  }
}

export class Link {
  /** on: what to call with each message, and when the connection comes and goes. */
  constructor(who, store, on) {
    this.who = who;
    this.store = store;
    this.on = on;
    this.socket = null;
    this.wait = FIRST_WAIT_MS;
    this.listening = false; // whether the user wants this page to listen
    this.sending = false; // whether the server said where to begin
    this.sent = new Map(); // by stream: up to which sample it was sent
    this.taken = new Map(); // by stream: up to which sample the server has read it
    this.window = 16000;
    this.heardAt = 0;
    setInterval(() => this.lookAfter(), 1000);
    addEventListener("online", () => this.connect());
    this.connect();
  }

  connect() {
    if (this.socket && this.socket.readyState <= WebSocket.OPEN) {
      return;
    }
    clearTimeout(this.timer);
    const socket = new WebSocket(`${location.protocol === "https:" ? "wss" : "ws"}://${location.host}/live`);
    socket.binaryType = "arraybuffer";
    this.socket = socket;
    socket.onopen = () => {
      this.wait = FIRST_WAIT_MS;
      this.heardAt = Date.now();
      this.send({ type: "hello", version: 1, ...this.who, pageMs: pageMs() });
    };
    socket.onmessage = (event) => {
      if (socket === this.socket) {
        this.heardAt = Date.now();
        this.take(event.data);
      }
    };
    socket.onclose = (event) => {
      if (socket === this.socket) {
        this.sending = false;
        this.on.away(event.reason);
        this.timer = setTimeout(() => this.connect(), this.wait * (0.75 + Math.random() / 2));
        this.wait = Math.min(LONGEST_WAIT_MS, this.wait * 2);
        leaveIfNotPaired();
      }
    };
  }

  /** The server speaks every five seconds: when it doesn't, the connection is dead though it may not know. */
  lookAfter() {
    if (this.socket && this.socket.readyState === WebSocket.OPEN && Date.now() - this.heardAt > GIVEN_UP_MS) {
      const dead = this.socket;
      this.socket = null;
      this.sending = false;
      dead.onclose = null;
      dead.onmessage = null;
      dead.close();
      this.on.away("");
      this.connect();
    }
  }

  /** Connects anew, so that the clocks are compared at once: a connection that slept may be dead, too. */
  renew() {
    if (this.isOpen()) {
      const before = this.socket;
      this.socket = null;
      this.sending = false;
      before.onclose = null;
      before.onmessage = null;
      before.close();
      this.connect();
    }
  }

  isOpen() {
    return this.socket !== null && this.socket.readyState === WebSocket.OPEN;
  }

  send(message) {
    if (this.isOpen()) {
      this.socket.send(JSON.stringify(message));
      return true;
    }
    return false;
  }

  take(data) {
    if (typeof data !== "string") {
      this.on.sound(data);
      return;
    }
    const message = JSON.parse(data);
    switch (message.type) {
      case "ping":
        this.send({ type: "pong", sentMs: message.sentMs, pageMs: pageMs() });
        break;
      case "welcome":
        this.window = message.window;
        this.on.welcome(message);
        if (this.listening) {
          this.listen(false);
        }
        break;
      case "wanted":
        message.streams.forEach(({ stream, sample }) => {
          this.sent.set(stream, sample);
          this.taken.set(stream, sample);
        });
        this.sending = true;
        this.pump();
        break;
      case "taken":
        this.taken.set(message.stream, message.sample);
        this.pump();
        break;
      case "settled":
        this.store.settled(message.stream, message.sample);
        break;
      default:
        if (message.type === "part" && message.part !== "listens") {
          this.sending = false;
        }
        this.on.message(message);
    }
  }

  /** Asks to be the page that listens. */
  listen(takeOver) {
    this.listening = true;
    this.send({ type: "listen", takeOver, streams: this.store.streams().slice(-16) });
  }

  /** Sends what the server hasn't got, as far as it wants it now. */
  pump() {
    if (!this.sending || !this.isOpen()) {
      return;
    }
    let ahead = 0;
    for (const [stream, upTo] of this.sent) {
      ahead += Math.max(0, upTo - (this.taken.get(stream) || 0));
    }
    for (const piece of this.store.pieces) {
      const upTo = this.sent.get(piece.stream) || 0;
      if (piece.first + piece.samples.length <= upTo) {
        continue;
      }
      if (ahead >= this.window || this.socket.bufferedAmount > MOST_BUFFERED) {
        return;
      }
      this.socket.send(frame(piece));
      if (!this.taken.has(piece.stream)) {
        this.taken.set(piece.stream, piece.first);
      }
      this.sent.set(piece.stream, piece.first + piece.samples.length);
      ahead += piece.samples.length;
    }
  }

  /** Seconds of sound that the server hasn't got. */
  behind() {
    let samples = 0;
    for (const piece of this.store.pieces) {
      if (piece.first + piece.samples.length > (this.sent.get(piece.stream) || 0)) {
        samples += piece.samples.length;
      }
    }
    return samples / 16000;
  }
}
