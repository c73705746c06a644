// What of the machine can't be had in a test: a microphone that is refused, unplugged or in a din, a motor that shakes, and
// what the browser granted. What is heard and sent is real.
window.surroundings = { refuse: null, granted: {}, hum: 0, shaken: [], awake: 0, flags: [], contexts: [] };

{
  const here = window.surroundings;
  const devices = navigator.mediaDevices;
  const open = devices.getUserMedia.bind(devices);
  devices.getUserMedia = async (wanted) => {
    if (here.refuse) {
      throw new DOMException("", here.refuse);
    }
    here.media = await open(wanted);
    return here.hum ? din() : here.media;
  };

  const din = () => {
    const context = new AudioContext();
    const noise = context.createBufferSource();
    const loud = context.createGain();
    const out = context.createMediaStreamDestination();
    loud.gain.value = here.hum;
    // A tone alone takes few bands away from speech: a hiss is what is too noisy.
    noise.buffer = context.createBuffer(1, 2 * context.sampleRate, context.sampleRate);
    const samples = noise.buffer.getChannelData(0);
    for (let i = 0; i < samples.length; i++) {
      samples[i] = 2 * Math.random() - 1;
    }
    noise.loop = true;
    noise.connect(loud).connect(out);
    noise.start();
    return out.stream;
  };

  here.unplug = () => {
    here.refuse = "OverconstrainedError";
    const track = here.media.getAudioTracks()[0];
    track.stop();
    track.dispatchEvent(new Event("ended"));
  };
  here.plugIn = () => {
    here.refuse = null;
    devices.dispatchEvent(new Event("devicechange"));
  };

  const settings = MediaStreamTrack.prototype.getSettings;
  MediaStreamTrack.prototype.getSettings = function () {
    return { ...settings.call(this), ...here.granted };
  };
  navigator.vibrate = (pattern) => here.shaken.push(pattern) > 0;
  const awake = navigator.wakeLock.request.bind(navigator.wakeLock);
  navigator.wakeLock.request = async (kind) => {
    const lock = await awake(kind);
    here.awake++;
    return lock;
  };
  const Context = window.AudioContext;
  window.AudioContext = class extends Context {
    constructor(options) {
      super(options);
      here.contexts.push(this);
    }
  };
  const send = WebSocket.prototype.send;
  WebSocket.prototype.send = function (data) {
    if (data instanceof ArrayBuffer) {
      here.flags.push(new Uint8Array(data)[5]);
    }
    send.call(this, data);
  };
}
