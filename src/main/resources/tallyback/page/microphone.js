// Runs beside the page: hands on 16 kHz mono 16-bit samples, a tenth of a second at a time, each with the time at which it
// was complete: the page may be too busy to look.
const OUT_HZ = 16000;
const PIECE = 1600;

/** What comes in at another rate is filtered and read off at 16 kHz: a windowed sinc of 48 taps a side. */
class Rate {
  constructor(inHz) {
    this.step = inHz / OUT_HZ;
    this.cutoff = Math.min(1, OUT_HZ / inHz) * 0.92;
    this.reach = Math.ceil(24 / this.cutoff);
    this.kept = new Float32Array(0);
    this.at = this.reach;
  }

  push(samples, each) {
    const all = new Float32Array(this.kept.length + samples.length);
    all.set(this.kept);
    all.set(samples, this.kept.length);
    while (this.at + this.reach < all.length) {
      each(this.value(all));
      this.at += this.step;
    }
    const drop = Math.max(0, Math.floor(this.at) - this.reach);
    this.kept = all.slice(drop);
    this.at -= drop;
  }

  value(all) {
    const middle = Math.floor(this.at);
    let sum = 0;
    for (let i = middle - this.reach + 1; i <= middle + this.reach; i++) {
      const away = this.at - i;
      const x = Math.PI * away * this.cutoff;
      const sinc = Math.abs(x) < 1e-6 ? 1 : Math.sin(x) / x;
      const window = 0.5 + 0.5 * Math.cos((Math.PI * away) / (this.reach + 1));
      sum += (all[i] || 0) * sinc * window * this.cutoff;
    }
    return sum;
  }
}

class Microphone extends AudioWorkletProcessor {
  constructor() {
    super();
    this.rate = sampleRate === OUT_HZ ? null : new Rate(sampleRate);
    this.piece = new Int16Array(PIECE);
    this.count = 0;
  }

  take(value) {
    this.piece[this.count++] = Math.max(-32768, Math.min(32767, Math.round(value * 32768)));
    if (this.count === PIECE) {
      this.port.postMessage({ samples: this.piece.buffer, wallMs: Date.now() }, [this.piece.buffer]);
      this.piece = new Int16Array(PIECE);
      this.count = 0;
    }
  }

  process(inputs) {
    const channels = inputs[0];
    if (channels.length > 0) {
      const first = channels[0];
      if (this.rate) {
        this.rate.push(first, (value) => this.take(value));
      } else {
        for (let i = 0; i < first.length; i++) {
          this.take(first[i]);
        }
      }
    }
    return true;
  }
}

registerProcessor("microphone", Microphone);
