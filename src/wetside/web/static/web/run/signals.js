// What reaches a person who does not look: sound where it is there, vibration, a flash only when asked for, a screen
// that stays on. Nothing of it is needed: the page is whole without.

import { cuesBetween } from "./cues.js";

const AHEAD_S = 180; // a hidden page is woken once a minute
const DRIFT_S = 0.02;
const LATE_S = 1.5; // a cue whose moment was slept through is not given later than this
const SHAKES = { prompt: [80], count: [40, 60, 40], now: [220, 80, 220], repeat: [120, 80, 120, 80, 120], ready: [60] };
const FLASH_MS = 250; // on and off: two flashes a second, under the limit of three

export class Signals {
  constructor(page) {
    this.page = page;
    this.sound = null;
    this.until_s = null;
    this.planned_s = -Infinity;
    this.lock = null;
    const shake = page.part("shake");
    shake.checked = localStorage.getItem("run-shake") !== "no";
    shake.addEventListener("change", () => localStorage.setItem("run-shake", shake.checked ? "yes" : "no"));
    const button = page.part("sound");
    if (page.place.dataset.sound && "AudioContext" in window) {
      button.hidden = false;
      button.addEventListener("click", () => this.openSound(button));
    }
  }

  async openSound(button) {
    try {
      const { openSound } = await import(this.page.place.dataset.sound);
      const sound = await openSound({ clips: await this.clips() });
      const heard = await sound.tryOut();
      this.sound = sound;
      button.hidden = true;
      if (!heard.clip) this.page.say(this.page.words.tones_only, true);
      this.plan(true);
    } catch {
      button.hidden = true;
      this.sound = null;
      this.page.say(this.page.words.no_sound, true);
    }
  }

  /** Clips of the run, rendered by the server if they are not there yet; none where it does not answer: tones then. */
  async clips() {
    try {
      const answer = await fetch(this.page.place.dataset.clips);
      return answer.ok ? (await answer.json()).clips : {};
    } catch {
      return {};
    }
  }

  speak(text) {
    this.sound?.say?.(text);
  }

  /** Give the next minute's cues to the sound, which plays them on its own clock. [s] */
  plan(anew = false) {
    const now_s = this.page.now();
    if (!this.sound || now_s === null) return;
    const left = Math.abs(this.sound.drift(now_s)) > DRIFT_S;
    if (!anew && !left && now_s - this.planned_s < AHEAD_S / 3) return;
    this.planned_s = now_s;
    this.sound.plan(cuesBetween(this.page.rules, now_s - LATE_S, now_s + AHEAD_S), { now: () => this.page.now() });
  }

  /** Cues since the last look at the clock: spoken to a reader of screens, shaken, flashed. [s] */
  play(now_s) {
    if (now_s === null) {
      this.until_s = null;
      return;
    }
    this.plan();
    if (this.until_s === null || now_s < this.until_s || now_s - this.until_s > 30) {
      this.until_s = now_s;
      return;
    }
    const cues = cuesBetween(this.page.rules, this.until_s, now_s).filter((cue) => now_s - cue.at_s <= LATE_S);
    this.until_s = now_s;
    for (const cue of cues) this.give(cue);
  }

  give(cue) {
    const said = this.page.rules.words.acts[cue.act]?.cues ?? {};
    const name = cue.kind === "count" ? `count-${cue.in_s}` : cue.kind;
    const text = (said[name] ?? "").replace("{in}", cue.since_s === undefined ? "" : clock(cue.since_s));
    if (text) this.page.part("aloud").textContent = text;
    this.page.place.dispatchEvent(new CustomEvent("run:cue", { detail: { ...cue, text } }));
    if (this.page.part("shake").checked) navigator.vibrate?.(SHAKES[cue.kind]);
    if (this.page.part("flash").checked && cue.kind !== "ready") this.flash();
  }

  flash() {
    if (this.flashing) return;
    let left = 4;
    this.flashing = setInterval(() => {
      document.body.classList.toggle("run-flashing", left % 2 === 0 && left > 0);
      if (left-- <= 0) {
        clearInterval(this.flashing);
        this.flashing = 0;
      }
    }, FLASH_MS);
  }

  /** Keep the screen on, from the first answer on. */
  async wake() {
    if (this.lock && !this.lock.released) return;
    const said = this.page.part("awake");
    try {
      this.lock = await navigator.wakeLock.request("screen");
      if (this.page.rules) said.textContent = this.page.words.awake;
    } catch {
      if (this.page.rules) said.textContent = this.page.words.not_awake;
    }
  }
}

const clock = (seconds) => `${Math.floor(seconds / 60)}:${String(Math.round(seconds % 60)).padStart(2, "0")}`;
