// The microphone and the loudspeaker of the browser.

import { clockMissed, pageMs } from "./link.js";

const HZ = 16000;
const STALLED_MS = 1500;
const FLAG_HELD = 1;
const FLAG_PLAYING = 2;
const FLAG_FREE = 4;
const SILENT_PIECES = 30;
const NO_SOUND_MS = 3000;
const LOOK_FOR_IT_MS = 3000;
const ECHO_MS = 300;

export class Sound {
  /** on: piece(piece), state(name), level(dB, noise dB), stream ended(id), played(number), back(), slept(). */
  constructor(on) {
    this.on = on;
    this.context = null;
    this.media = null;
    this.stream = null;
    this.way = "word";
    this.pressed = false;
    this.playing = null;
    this.blocks = [];
    this.zeros = 0;
    this.device = null; // the microphone that went, and is waited for
    this.echoes = false; // whether the microphone hears what is said back
    this.deafUntil = 0;
    setInterval(() => this.lookAfter(), 1000);
    if (navigator.mediaDevices) {
      navigator.mediaDevices.addEventListener("devicechange", () => this.lookForIt());
    }
  }

  /** A microphone that was unplugged is taken again when it is back: nobody has to touch anything. */
  async lookForIt() {
    if (this.device === null || this.isOn() || this.looking) {
      return;
    }
    this.looking = true;
    this.lookedMs = Date.now();
    try {
      if (await this.start(this.device)) {
        this.on.back();
      }
    } finally {
      this.looking = false;
    }
  }

  lookAfter() {
    if (this.device !== null && !this.isOn() && Date.now() - (this.lookedMs || 0) > LOOK_FOR_IT_MS) {
      this.lookForIt();
    }
    const stands = this.isOn() && this.context && Date.now() - this.cameMs > NO_SOUND_MS;
    if (stands && !this.stands) {
      this.on.state("stopped");
    }
    this.stands = stands;
    if (stands) {
      this.context.resume().catch(() => null);
    }
  }

  isOn() {
    return this.media !== null;
  }

  /** again: the one microphone to take, or none for any; then nothing is said while it isn't there. */
  async start(again = null) {
    if (!navigator.mediaDevices || !window.AudioWorkletNode) {
      this.on.state("unable");
      return false;
    }
    if (again === null) {
      this.device = null;
      this.on.state("asking");
    }
    try {
      this.media = await navigator.mediaDevices.getUserMedia({
        audio: {
          echoCancellation: true,
          noiseSuppression: false,
          autoGainControl: false,
          channelCount: 1,
          ...(again ? { deviceId: { exact: again } } : {}),
        },
      });
      await this.connect();
    } catch (e) {
      this.release();
      if (again !== null) {
        return false;
      }
      const why = { NotAllowedError: "refused", SecurityError: "refused", NotFoundError: "none", OverconstrainedError: "none" };
      this.on.state(why[e.name] || "busy");
      return false;
    }
    return true;
  }

  async connect() {
    const track = this.media.getAudioTracks()[0];
    try {
      this.context = new AudioContext({ sampleRate: HZ });
      this.source = this.context.createMediaStreamSource(this.media);
    } catch (e) {
      // Some browsers want the rate of the microphone; the worklet changes it then.
      this.context = new AudioContext();
      this.source = this.context.createMediaStreamSource(this.media);
    }
    await this.context.audioWorklet.addModule("/microphone.js");
    // Without a touch some browsers never say yes: that no sound comes is seen later.
    await Promise.race([this.context.resume(), new Promise((done) => setTimeout(done, 2000))]);
    const node = new AudioWorkletNode(this.context, "microphone", { numberOfOutputs: 0, channelCount: 1 });
    node.port.onmessage = (event) => this.take(new Int16Array(event.data.samples), event.data.wallMs);
    this.source.connect(node);
    this.node = node;
    this.begin();
    const granted = track.getSettings();
    track.onended = () => {
      this.stop();
      this.device = granted.deviceId || "";
      this.on.state("gone");
    };
    track.onmute = () => this.on.state("muted");
    track.onunmute = () => this.on.state(this.good);
    this.echoes = granted.echoCancellation !== true;
    this.good = granted.sampleRate && granted.sampleRate < HZ ? "narrow" : this.echoes ? "echoes" : "on";
    this.device = null;
    this.on.state(this.good);
  }

  /** A new recording: from here on samples are counted anew. */
  begin() {
    this.stream = crypto.randomUUID();
    this.first = 0;
    this.startMs = null;
    this.wallMs = Date.now();
    this.cameMs = Date.now();
    this.last = null;
  }

  take(samples, wallMs) {
    if (this.stream === null) {
      return;
    }
    this.cameMs = Date.now();
    let now = pageMs() - Math.max(0, this.cameMs - wallMs);
    if (this.last !== null) {
      const missed = wallMs - this.last.wallMs - (now - this.last.now);
      if (missed > STALLED_MS) {
        clockMissed(missed);
        now += missed;
      }
    }
    this.last = { wallMs, now };
    const recordedMs = ((this.first + samples.length) * 1000) / HZ;
    // The piece that came through fastest tells best when the recording began; clocks of sound cards drift, so it may
    // move by a hundredth of a millisecond a piece.
    const began = now - recordedMs;
    const behind = Math.max(began - (this.startMs ?? began), wallMs - this.wallMs - recordedMs);
    if (behind > STALLED_MS) {
      this.on.ended(this.stream);
      this.begin();
      this.wallMs = wallMs - (samples.length * 1000) / HZ;
      this.on.slept();
      this.on.state("rested");
      clearTimeout(this.resting);
      this.resting = setTimeout(() => this.isOn() && this.on.state(this.good), 10000);
      this.take(samples, wallMs);
      return;
    }
    this.wallMs = Math.min(wallMs - recordedMs, this.wallMs + 0.01);
    this.startMs = this.startMs === null ? began : Math.min(began, this.startMs + 0.01);
    // Where the browser doesn't take the read-back out of the sound, it isn't listened to meanwhile.
    const playing = this.playing !== null;
    const deaf = this.echoes && (playing || Date.now() < this.deafUntil);
    const flags =
      (!deaf && (this.way !== "held" || this.pressed) ? FLAG_HELD : 0) |
      (playing && !this.echoes ? FLAG_PLAYING : 0) |
      (this.way === "word" ? 0 : FLAG_FREE);
    this.on.piece({
      stream: this.stream,
      first: this.first,
      pageMs: this.startMs + (this.first * 1000) / HZ,
      flags,
      samples,
    });
    this.first += samples.length;
    this.measure(samples);
  }

  measure(samples) {
    let peak = 0;
    let sum = 0;
    for (let from = 0; from < samples.length; from += 320) {
      let power = 0;
      for (let i = from; i < from + 320; i++) {
        power += samples[i] * samples[i];
        peak = Math.max(peak, Math.abs(samples[i]));
      }
      sum += power;
      this.blocks.push(10 * Math.log10(power / 320 / 32768 ** 2 + 1e-9));
    }
    this.blocks.splice(0, Math.max(0, this.blocks.length - 250));
    this.zeros = peak === 0 ? this.zeros + 1 : 0;
    if (this.zeros === SILENT_PIECES) {
      this.on.state("silent");
    } else if (peak > 0 && this.wasSilent) {
      this.on.state(this.good);
    }
    this.wasSilent = this.zeros >= SILENT_PIECES;
    const sorted = [...this.blocks].sort((one, other) => one - other);
    this.on.level(10 * Math.log10(sum / samples.length / 32768 ** 2 + 1e-9), sorted[Math.floor(sorted.length / 10)], peak);
  }

  /** Plays a sound of the server's: TBOU, number, count, samples. */
  play(data) {
    const view = new DataView(data);
    const number = view.getUint32(4, true);
    const count = view.getUint32(8, true);
    if (!this.context || this.context.state !== "running") {
      this.on.played(number);
      return;
    }
    const buffer = this.context.createBuffer(1, count, HZ);
    const channel = buffer.getChannelData(0);
    for (let i = 0; i < count; i++) {
      channel[i] = view.getInt16(12 + 2 * i, true) / 32768;
    }
    this.hush();
    const voice = this.context.createBufferSource();
    voice.buffer = buffer;
    voice.connect(this.context.destination);
    voice.onended = () => {
      if (this.playing === voice) {
        this.playing = null;
        this.deafUntil = Date.now() + ECHO_MS;
      }
      this.on.played(number);
    };
    this.playing = voice;
    voice.start();
  }

  hush() {
    if (this.playing) {
      this.playing.stop();
      this.playing = null;
      this.deafUntil = Date.now() + ECHO_MS;
    }
  }

  stop() {
    this.device = null;
    if (this.stream !== null) {
      this.on.ended(this.stream);
    }
    this.stream = null;
    this.hush();
    this.release();
    this.on.state("off");
  }

  release() {
    if (this.media) {
      this.media.getTracks().forEach((track) => track.stop());
    }
    this.media = null;
    if (this.context) {
      this.context.close();
    }
    this.context = null;
  }
}
