// Keeps sound until the server says that nothing of it is wanted any more: in memory, and in the browser's database so
// that it outlasts a reload. Bounded: what is too much is dropped, the oldest first, and told.

const MOST_PIECES = 6000; // ten minutes
const WRITE_EVERY_MS = 500;

const key = (piece) => `${piece.stream}/${piece.first}`;
const end = (piece) => piece.first + piece.samples.length;

export class Store {
  /** tab: names this tab. lost: told of {stream, from, to, pageMs} for each piece that had to go. */
  constructor(tab, lost) {
    this.tab = tab;
    this.lost = lost;
    this.pieces = []; // in the order they were recorded
    this.unwritten = [];
    this.settledUpTo = new Map();
    this.database = null;
    this.works = true;
  }

  /** Opens the database and takes up what this tab, or one that is closed by now, left there. */
  async open() {
    try {
      this.database = await new Promise((done, failed) => {
        const asked = indexedDB.open("tallyback", 1);
        asked.onupgradeneeded = () => asked.result.createObjectStore("sound", { keyPath: "key" });
        asked.onsuccess = () => done(asked.result);
        asked.onerror = () => failed(asked.error);
      });
      this.database.onversionchange = () => this.database.close();
      const left = await this.all();
      const alive = await this.livingTabs();
      this.pieces = left
        .filter((piece) => piece.tab === this.tab || !alive.has(piece.tab))
        .sort((one, other) => one.pageMs - other.pageMs || one.first - other.first)
        .concat(this.pieces);
    } catch (e) {
      this.works = false;
    }
    setInterval(() => this.write(), WRITE_EVERY_MS);
    addEventListener("pagehide", () => this.write());
  }

  async livingTabs() {
    if (!navigator.locks) {
      return new Set();
    }
    // Held for as long as the tab lives; a reload lets go of it.
    navigator.locks.request(`tallyback-tab-${this.tab}`, () => new Promise(() => {}));
    const state = await navigator.locks.query();
    return new Set((state.held || []).map((lock) => lock.name.replace("tallyback-tab-", "")));
  }

  all() {
    return new Promise((done, failed) => {
      const asked = this.database.transaction("sound").objectStore("sound").getAll();
      asked.onsuccess = () => done(asked.result);
      asked.onerror = () => failed(asked.error);
    });
  }

  add(piece) {
    this.pieces.push(piece);
    this.unwritten.push(piece);
    while (this.pieces.length > MOST_PIECES) {
      const gone = this.pieces.shift();
      this.remove([gone]);
      this.lost({ stream: gone.stream, from: gone.first, to: end(gone), pageMs: gone.pageMs });
    }
  }

  /** Everything of a stream before a sample is on disk or no entry. */
  settled(stream, sample) {
    this.settledUpTo.set(stream, sample);
    const gone = this.pieces.filter((piece) => piece.stream === stream && end(piece) <= sample);
    if (gone.length > 0) {
      const set = new Set(gone);
      this.pieces = this.pieces.filter((piece) => !set.has(piece));
      this.unwritten = this.unwritten.filter((piece) => !set.has(piece));
      this.remove(gone);
    }
  }

  /** The streams there is sound of, with the oldest sample of each. */
  streams() {
    const oldest = new Map();
    for (const piece of this.pieces) {
      if (!oldest.has(piece.stream)) {
        oldest.set(piece.stream, piece.first);
      }
    }
    return [...oldest].map(([stream, sample]) => ({ stream, sample }));
  }

  write() {
    if (!this.database || this.unwritten.length === 0) {
      return;
    }
    const batch = this.unwritten;
    this.unwritten = [];
    try {
      const store = this.database.transaction("sound", "readwrite").objectStore("sound");
      for (const piece of batch) {
        store.put({ ...piece, key: key(piece), tab: this.tab });
      }
    } catch (e) {
      this.works = false;
    }
  }

  remove(pieces) {
    if (!this.database) {
      return;
    }
    try {
      const store = this.database.transaction("sound", "readwrite").objectStore("sound");
      pieces.forEach((piece) => store.delete(key(piece)));
    } catch (e) {
      this.works = false;
    }
  }
}
