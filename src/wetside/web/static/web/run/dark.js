// The device that stays in the dark: one black surface, any key or tap is next, everything else is heard. It is the run's
// page with nothing to see: the same rules, answers and hand-over, so that a silent server changes nothing here either.

import { shownNow } from "./cues.js";
import { hear, openRun, RunPage } from "./page.js";
import { openSound } from "./sound.js";

const BACK_KEYS = new Set(["Backspace", "PageUp", "ArrowLeft", "ArrowUp", "u", "U"]);
const LOST_KEYS = new Set(["Delete", "l", "L"]);
const NO_ANSWER = /^(Shift|Control|Alt|AltGraph|Meta|CapsLock|NumLock|Audio.*|Volume.*|Brightness.*|Power|F\d+)$/;
const HELD_BACK_MS = 800;
const HELD_LOST_MS = 3000;
const AGAIN_S = 10; // what must be told twice counts within this
const LEAD_S = 0.03;
const GAP_S = 0.25;
const TONES = { yes: [[330, 494]], back: [[494, 330]], no: [[196, 185], [196, 185]] }; // from and to [Hz]
const TONE_S = 0.14;
const steady = () => performance.now() / 1000;

/** Untimed sentences, one after the other; a new answer cuts off what was still being said of the last one. */
class Aloud {
  constructor(sound) {
    this.sound = sound;
    this.sources = [];
    this.free_s = 0;
  }

  begin(kind) {
    const { context } = this.sound;
    for (const source of this.sources) source.stop();
    this.sources = [];
    this.free_s = context.currentTime + LEAD_S;
    window.speechSynthesis?.cancel();
    for (const [from, to] of TONES[kind]) {
      const source = context.createOscillator();
      const gain = context.createGain();
      source.frequency.setValueAtTime(from, this.free_s);
      source.frequency.linearRampToValueAtTime(to, this.free_s + TONE_S);
      gain.gain.setValueAtTime(0, this.free_s);
      gain.gain.linearRampToValueAtTime(0.4, this.free_s + 0.02);
      gain.gain.setValueAtTime(0.4, this.free_s + TONE_S - 0.02);
      gain.gain.linearRampToValueAtTime(0, this.free_s + TONE_S);
      source.connect(gain).connect(this.sound.output);
      this.play(source, TONE_S + 0.06);
    }
  }

  say(text) {
    const buffer = this.sound.buffers.get(text);
    if (!buffer) return this.sound.say(text);
    const { context } = this.sound;
    this.free_s = Math.max(this.free_s, context.currentTime + LEAD_S);
    const source = context.createBufferSource();
    source.buffer = buffer;
    source.connect(this.sound.output);
    this.play(source, buffer.duration + GAP_S);
    return true;
  }

  play(source, lasts_s) {
    source.start(this.free_s);
    if (source.frequency) source.stop(this.free_s + lasts_s);
    this.sources.push(source);
    this.free_s += lasts_s;
  }
}

class DarkPage extends RunPage {
  constructor(place, handover) {
    super(place, handover);
    this.gate = document.querySelector("[data-dark]");
    this.over = document.querySelector("[data-dark-over]");
    this.track.draw = () => {};
    this.signals.flash = () => {};
    this.black = false;
    this.aloud = null;
    this.heard = [];
    this.losing = null;
    this.leaving_s = -Infinity;
    this.find = (name) => this.gate.querySelector(`[data-dark-${name}]`);
    this.saidWords = null;
  }

  entitle() {} // a tab's name is lit too

  async begin() {
    await super.begin();
    if (!this.base) return;
    await this.readWords();
    this.find("try").disabled = false;
  }

  /** What may be said, and its clips; what was read before stays where the server does not answer. */
  async readWords() {
    try {
      const answer = await fetch(this.gate.dataset.words, { cache: "no-store", redirect: "error" });
      if (!answer.ok) throw new Error(String(answer.status));
      this.saidWords = await answer.json();
      await this.signals.sound?.load(this.saidWords.clips);
    } catch {
      this.saidWords ??= { next: {}, lost: {}, said: {}, clips: {}, voice: false };
    }
  }

  /** Open the sound and try every way out; nothing is found missing later, in the dark. */
  async tryOut() {
    let works = { tone: false, clip: false, voice: false, vibration: "vibrate" in navigator };
    try {
      const sound = await openSound({ clips: { ...(await this.signals.clips()), ...this.saidWords.clips } });
      works = await sound.tryOut();
      this.signals.sound = sound;
      this.aloud = new Aloud(sound);
      this.signals.plan(true);
    } catch {
      this.signals.sound = null;
    }
    navigator.vibrate?.(80);
    const { words } = this.find("works").dataset;
    const [yes, no] = words.split("|");
    for (const item of this.gate.querySelectorAll("[data-dark-way]")) {
      item.querySelector("span").textContent = works[item.dataset.darkWay] ? yes : no;
    }
    this.find("works").hidden = false;
    this.find("mute").hidden = works.clip || works.voice;
    this.find("silent").hidden = works.tone;
    this.find("go").disabled = !works.tone;
    if (works.tone) this.find("go").focus();
  }

  async goBlack() {
    await document.documentElement.requestFullscreen?.({ navigationUI: "hidden" }).catch(() => {});
    document.documentElement.classList.add("dark-on");
    this.over.hidden = false;
    this.over.focus({ preventScroll: true });
    getSelection().removeAllRanges();
    this.black = true;
    this.signals.wake();
    this.say(this.saidWords.said.said_black);
    this.sayNext();
  }

  /** The page again, lit. */
  leave() {
    this.black = false;
    location.assign(this.gate.dataset.run);
  }

  say(text, no = false, kind = no ? "no" : "yes") {
    this.part("said").textContent = text ?? "";
    if (!this.black || !this.aloud) return;
    this.aloud.begin(kind);
    this.speak(text);
  }

  speak(text) {
    if (!text) return;
    this.heard.push(text);
    this.aloud.say(text);
  }

  /** What is wanted now, where no cue says it: a hold, or the next sheet. */
  sayNext() {
    const now_s = this.now();
    if (!this.aloud || now_s === null) return;
    const { said, next } = this.saidWords;
    const { status, names, stamps, acts } = this.rules;
    if (status === "ended" || status === "abandoned") return this.speak(said.said_over);
    const { act } = shownNow(this.rules, now_s);
    if (act === names.lights_on && !acts.some((one) => one.does === "load")) this.speak(said.said_load);
    if (next[act]) return this.speak(next[act]);
    if (names.lights_on in stamps) this.speak(this.gate.dataset.air ? said.said_run_on : said.said_on);
    return undefined;
  }

  async take(found, said) {
    this.losing = null;
    await super.take(found, said);
    if (found.refused === null) this.sayNext();
  }

  /** A closed vessel's dark is over when both are so; a tray's lasts through the run. */
  get darkOver() {
    const { status, names, stamps } = this.rules;
    return status === "ended" || status === "abandoned" || (!this.gate.dataset.air && names.lights_on in stamps);
  }

  async told() {
    if (!this.darkOver) return super.told();
    return this.tooSoon("tell") ? undefined : this.leave();
  }

  async lost() {
    if (this.tooSoon("lost")) return undefined;
    const now_s = this.now();
    if (now_s === null) return this.say(this.words.clock, true);
    const { said, lost } = this.saidWords;
    const act = this.rules.acts.find((one) => one.key === shownNow(this.rules, now_s).act);
    if (act?.does !== "load") return this.say(said.said_lost_which, true);
    const again = this.losing && this.losing.sheet === act.sheet && steady() - this.losing.at_s <= AGAIN_S;
    if (!again) {
      this.losing = { sheet: act.sheet, at_s: steady() };
      return this.say(said.said_lost_again, true);
    }
    // Volume and agent of an earlier loss say nothing of this one.
    const fresh = Object.keys(lost).length === this.rules.sheets.length - this.rules.lost.length;
    await this.take({ facts: [{ kind: "lost", version: 1, data: { sheet: act.sheet } }], refused: null }, fresh ? lost[act.sheet] : said.lost_offline);
    await this.handover.drain();
    return this.readWords();
  }

  escape() {
    if (steady() - this.leaving_s <= AGAIN_S && !this.tooSoon("leave")) return this.leave();
    this.tooSoon("leave");
    this.leaving_s = steady();
    return this.say(this.saidWords.said.said_leave_again, true);
  }
}

function listen(page) {
  hear(page);
  page.find("try").addEventListener("click", () => page.tryOut());
  page.find("go").addEventListener("click", () => page.goBlack());
  const quiet = (event) => {
    if (!page.black) return false;
    event.preventDefault();
    event.stopPropagation();
    return true;
  };
  addEventListener("keydown", (event) => {
    if (!page.black || event.ctrlKey || event.metaKey || event.altKey || NO_ANSWER.test(event.key)) return;
    quiet(event);
    if (event.repeat) return;
    if (event.key === "Escape") page.escape();
    else if (BACK_KEYS.has(event.key)) page.back();
    else if (LOST_KEYS.has(event.key)) page.lost();
    else page.told();
  }, true);
  let pressed = null;
  page.over.addEventListener("pointerdown", (event) => { if (quiet(event)) pressed ??= { id: event.pointerId, at: performance.now() }; });
  page.over.addEventListener("pointercancel", () => { pressed = null; });
  page.over.addEventListener("pointerup", (event) => {
    if (!quiet(event) || pressed?.id !== event.pointerId) return;
    const held = performance.now() - pressed.at;
    pressed = null;
    if (held >= HELD_LOST_MS) page.lost();
    else if (held >= HELD_BACK_MS) page.back();
    else page.told();
  });
  for (const name of ["keyup", "keypress", "click", "dblclick", "contextmenu", "selectstart", "dragstart"]) addEventListener(name, quiet, true);
  addEventListener("wheel", quiet, { capture: true, passive: false });
  addEventListener("touchmove", quiet, { capture: true, passive: false });
  document.addEventListener("fullscreenchange", () => {
    if (page.black && !document.fullscreenElement) page.say(page.saidWords.said.said_frame, true);
  });
}

const place = document.querySelector("[data-dark] section[data-run]");
if (place) openRun(place, DarkPage, listen).then((page) => { document.documentElement.darkPage = page; });
