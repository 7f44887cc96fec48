// Tones and spoken clips on the audio clock: the cues of the next minutes are queued ahead, so that neither a busy page
// nor a hidden one is late, and queued anew where the audio clock has left the run's own.
//
// Tones glide or tick; none is a train of even pulses, as signals of danger, of evacuation and of medical devices are.

const LOUDEST = 0.5;
const SOFT = 0.02;
const NEAR_S = 0.05;
const WORDS_AFTER_S = { prompt: 0.45, count: 0, now: 0.7, repeat: 0.6, ready: 0.55 };
const TONES = {
  // from and to [Hz], begin and length [s]
  prompt: [[392, 587, 0, 0.32]],
  count: [[784, 784, 0, 0.05]],
  now: [[587, 294, 0, 0.3], [294, 440, 0.3, 0.3]],
  repeat: [[784, 784, 0, 0.05], [784, 784, 0.12, 0.05], [392, 587, 0.24, 0.28]],
  ready: [[262, 247, 0, 0.45]],
};

export async function openSound({ clips = {} } = {}) {
  const context = new AudioContext({ latencyHint: "interactive" });
  await context.resume();
  const sound = new Sound(context);
  await sound.load(clips);
  return sound;
}

export class Sound {
  constructor(context) {
    this.context = context;
    this.output = context.createGain();
    const limit = context.createDynamicsCompressor();
    this.output.connect(limit).connect(context.destination);
    this.buffers = new Map();
    this.queue = [];
    this.tie = null;
    this.muted = false;
    this.volume = Number(localStorage.getItem("run-volume") ?? 0.6);
  }

  get volume() { return this.level; }

  set volume(value) {
    this.level = Math.min(1, Math.max(0, Number.isFinite(value) ? value : 0.6));
    localStorage.setItem("run-volume", String(this.level));
    this.output.gain.value = this.muted ? 0 : this.level * LOUDEST;
  }

  mute(muted) {
    this.muted = muted;
    this.volume = this.level;
  }

  /** Fetch and decode all clips; those that fail are left out, and tones stand in. */
  async load(clips) {
    const byAddress = new Map();
    const decode = (address) => {
      if (!byAddress.has(address)) {
        byAddress.set(address, fetch(address).then((answer) => {
          if (!answer.ok) throw new Error(String(answer.status));
          return answer.arrayBuffer();
        }).then((data) => this.context.decodeAudioData(data)).catch(() => null));
      }
      return byAddress.get(address);
    };
    await Promise.all(Object.entries(clips).map(async ([name, { address }]) => {
      const buffer = await decode(address);
      if (buffer) this.buffers.set(name, buffer);
    }));
  }

  /** Hear a tone and a clip before anything depends on them; tells what works. */
  async tryOut() {
    const at = this.context.currentTime + 0.05;
    const tone = this.context.state === "running";
    if (tone) {
      this.tone("prompt", at);
      this.clip("try-out", at + WORDS_AFTER_S.prompt);
    }
    return { tone, clip: this.buffers.has("try-out"), voice: Boolean(localVoice()), vibration: "vibrate" in navigator };
  }

  /** Tie the audio clock to a run's clock. [s] */
  anchor(run_s = null) {
    if (this.context.state !== "running") this.context.resume();
    if (run_s !== null) this.tie = { audio_s: this.context.currentTime, run_s };
  }

  /** By how much the audio clock has left the run's since they were tied. [s] */
  drift(run_s) {
    return this.tie ? this.context.currentTime - this.tie.audio_s - (run_s - this.tie.run_s) : 0;
  }

  /** Queue cues; what was queued and has not begun is replaced, what has begun is heard to its end. */
  plan(cues, runClock) {
    const now_s = runClock.now();
    if (now_s === null) return;
    this.anchor(now_s);
    const begin = this.context.currentTime;
    // What is about to begin may be on its way out already: it is neither taken back nor heard twice.
    const near = begin + NEAR_S;
    const held = new Set(this.queue.filter(({ cueAt }) => cueAt <= near).map(({ key }) => key));
    for (const { source, key } of this.queue) {
      if (!held.has(key)) source.stop(0);
    }
    this.queue = this.queue.filter(({ key, until }) => held.has(key) && until > begin);
    for (const cue of cues) {
      const at = begin + cue.at_s - now_s;
      const name = `${cue.act}-${cue.kind}${cue.kind === "count" ? `-${cue.in_s}` : ""}`;
      const key = `${name} ${cue.since_s ?? ""}`;
      if (at < begin - NEAR_S || held.has(key)) continue;
      const from = Math.max(at, begin);
      this.tone(cue.kind, from, key);
      this.clip(name, from + (WORDS_AFTER_S[cue.kind] ?? 0.4), key, from);
    }
  }

  tone(kind, at, key = "") {
    for (const [from, to, after, lasts] of TONES[kind] ?? TONES.prompt) {
      const source = this.context.createOscillator();
      const gain = this.context.createGain();
      const begin = at + after;
      source.type = "triangle";
      source.frequency.setValueAtTime(from, begin);
      source.frequency.linearRampToValueAtTime(to, begin + lasts);
      gain.gain.setValueAtTime(0, begin);
      gain.gain.linearRampToValueAtTime(0.5, begin + Math.min(SOFT, lasts / 4));
      gain.gain.setValueAtTime(0.5, begin + lasts - Math.min(SOFT, lasts / 4));
      gain.gain.linearRampToValueAtTime(0, begin + lasts);
      source.connect(gain).connect(this.output);
      source.start(begin);
      source.stop(begin + lasts);
      this.queue.push({ source, key, cueAt: at, until: begin + lasts });
    }
  }

  clip(name, at, key = "", cueAt = at) {
    const buffer = this.buffers.get(name);
    if (!buffer) return;
    const source = this.context.createBufferSource();
    source.buffer = buffer;
    source.connect(this.output);
    source.start(at);
    this.queue.push({ source, key, cueAt, until: at + buffer.duration });
  }

  /** An untimed sentence, by a voice of this device where there is one; never by one that lies elsewhere. */
  say(text) {
    const voice = localVoice();
    if (!voice || this.muted) return false;
    const said = new SpeechSynthesisUtterance(text);
    said.voice = voice;
    said.volume = this.level;
    speechSynthesis.speak(said);
    return true;
  }
}

function localVoice() {
  if (!("speechSynthesis" in window)) return null;
  return speechSynthesis.getVoices().find((voice) => voice.localService && voice.lang.startsWith("en")) ?? null;
}
