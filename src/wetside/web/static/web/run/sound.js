// Tones and spoken clips on the audio clock: the cues of the next minutes are queued ahead, so that neither a busy page
// nor a hidden one is late, and queued anew where the audio clock has left the run's own.
//
// Tones glide or tick; none is a train of even pulses, as signals of danger, of evacuation and of medical devices are.

const LOUDEST = 0.5;
const SOFT = 0.02;
const NEAR_S = 0.05;
const SAME_S = 0.02; // a queued cue stays as it is while its moment is right within this: making it anew is a risk
const LATE_S = 1.5; // a cue that was promised, and that a halting audio clock held back, is still given so late
const MOST_BEHIND_S = 0.5; // what leaves the device lies behind what is made; more than this is no such distance
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

  /** The audio clock's time of what is heard now: sound that is made leaves the device a little later. [s] */
  heardNow() {
    const made_s = this.context.currentTime;
    const out = this.context.state === "running" ? this.context.getOutputTimestamp?.() : null;
    if (!out?.performanceTime) return made_s;
    const heard_s = out.contextTime + (performance.now() - out.performanceTime) / 1000;
    // A pair from before a sleep, or one that cannot be, says nothing.
    return heard_s <= made_s && made_s - heard_s <= MOST_BEHIND_S ? heard_s : made_s;
  }

  /** Tie the audio clock to a run's clock. [s] */
  anchor(run_s = null) {
    if (this.context.state !== "running") this.context.resume();
    if (run_s !== null) this.tie = { audio_s: this.heardNow(), run_s };
  }

  /** By how much the audio clock has left the run's since they were tied. [s] */
  drift(run_s) {
    return this.tie ? this.heardNow() - this.tie.audio_s - (run_s - this.tie.run_s) : 0;
  }

  /**
   * Queue cues, those of the last moment included. What is queued and still right stays; what is no longer wanted, or whose
   * moment moved, is replaced; what has begun is heard to its end. Where the audio clock stood still, a cue may be due
   * that was promised and has not begun: it is given at once if it is still among the cues. One that was never promised
   * is not given late.
   */
  plan(cues, runClock) {
    const now_s = runClock.now();
    if (now_s === null) return;
    this.anchor(now_s);
    const begin = this.context.currentTime;
    const wanted = cues.map((cue) => {
      const name = `${cue.act}-${cue.kind}${cue.kind === "count" ? `-${cue.in_s}` : ""}`;
      return { cue, name, key: `${name} ${cue.since_s ?? ""}`, at: this.tie.audio_s + cue.at_s - now_s };
    });
    const byKey = new Map(wanted.map((one) => [one.key, one]));
    const kept = new Set();
    const promised = new Set();
    this.queue = this.queue.filter((queued) => {
      const { key, cueAt, run_s, until, source } = queued;
      // What was heard a moment ago is remembered, or it would be given again as a cue that is a little late.
      if (until <= begin && now_s - run_s > LATE_S) return false;
      const one = byKey.get(key);
      const same = one && Math.abs(one.cue.at_s - run_s) < LATE_S;
      // What is about to begin may be on its way out already: it is neither taken back nor heard twice.
      if (cueAt <= begin + NEAR_S || (same && Math.abs(one.at - cueAt) <= SAME_S)) {
        if (same) kept.add(key);
        return true;
      }
      if (same) promised.add(key);
      source.stop(0);
      return false;
    });
    for (const { cue, name, key, at } of wanted) {
      const late_s = now_s - cue.at_s;
      if (kept.has(key) || (late_s > NEAR_S && (late_s > LATE_S || !promised.has(key)))) continue;
      const from = Math.max(at, begin);
      this.tone(cue.kind, from, key, cue.at_s);
      this.clip(name, from + (WORDS_AFTER_S[cue.kind] ?? 0.4), key, from, cue.at_s);
    }
  }

  tone(kind, at, key = "", run_s = -Infinity) {
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
      this.queue.push({ source, key, cueAt: at, run_s, until: begin + lasts });
    }
  }

  clip(name, at, key = "", cueAt = at, run_s = -Infinity) {
    const buffer = this.buffers.get(name);
    if (!buffer) return;
    const source = this.context.createBufferSource();
    source.buffer = buffer;
    source.connect(this.output);
    source.start(at);
    this.queue.push({ source, key, cueAt, run_s, until: at + buffer.duration });
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
