// The live run's page: shows what the rules say of now, takes answers, hands them over, and goes on without a server.

import { actForAnswer, look, takeBack, tell, withFacts } from "./answer.js";
import { RunClock } from "./clock.js";
import { overdue, shownNow } from "./cues.js";
import { newName, openHandover } from "./handover.js";
import { bathNow, dueOf, scheduleAt } from "./schedule.js";
import { Track } from "./track.js";
import { bindForms } from "./forms.js";
import { Signals } from "./signals.js";
import { keepPage } from "../keeping.js";

const KEEP_EVERY_S = 5;
const ASK_AGAIN_MS = [1000, 2000, 4000, 8000];
const ANSWER_WITHIN_MS = 5000;
const WATCH_AGAIN_MS = 2000;
const TOLD_KEYS = new Set([" ", "Enter", "PageDown", "ArrowRight", "ArrowDown"]);
const BACK_KEYS = new Set(["Backspace", "PageUp", "u", "U"]);
const REPEAT_S = 1.5;
const READ_WITHIN_S = 5;
const ANSWER_S = 4;

export const mss = (seconds) => {
  const whole = Math.floor(Math.abs(seconds) + 0.5);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
};
const filled = (text, values) => Object.entries(values).reduce((said, [name, value]) => said.replaceAll(`{${name}}`, value), text);
const steady = () => performance.now() / 1000;
const wall = () => Date.now() / 1000;

export class RunPage {
  constructor(place, handover) {
    this.place = place;
    this.handover = handover;
    this.part = (name) => place.querySelector(`[data-run-${name}]`);
    this.clock = new RunClock(steady, wall, newName);
    this.track = new Track(place.querySelector("svg"));
    this.signals = new Signals(this);
    this.base = null;
    this.rules = null;
    this.alone = false;
    this.tries = 0;
    this.note = "";
    this.lastTold = { tell: -Infinity, back: -Infinity };
    this.keptAt = -Infinity;
    this.saidAt = -Infinity;
    this.cuesFrom = null;
  }

  get words() {
    return this.rules.words.page;
  }

  /** The run's time; null where none may be shown. [s] */
  now() {
    return this.clock.now();
  }

  async begin() {
    const kept = await this.handover.keptRun().catch(() => null);
    if (!(await this.ask()) && kept) {
      this.base = kept.rules;
      this.clock.byKept(kept.clock);
      this.work();
      this.note = this.words.reloaded;
      this.serverGone();
    } else if (kept && this.base && kept.rules.seq > this.base.seq) {
      this.base = kept.rules;
      this.work();
    }
    if (!this.base) {
      this.later();
      return;
    }
    this.place.hidden = false;
    // On a telephone the way to other pages lies above the screen: what to do next comes first.
    if (window.innerWidth <= 640 && window.scrollY === 0) this.place.scrollIntoView();
    document.documentElement.dataset.run = "ready";
    this.watch();
    this.handover.drain();
    this.show();
  }

  /** Read the rules; whether the server answered. */
  async ask() {
    this.asking ??= this.askOnce().finally(() => { this.asking = null; });
    return this.asking;
  }

  async askOnce() {
    const sent = steady();
    try {
      const answer = await fetch(this.place.dataset.rules, {
        cache: "no-store", redirect: "error", headers: { Accept: "application/json" }, signal: AbortSignal.timeout(ANSWER_WITHIN_MS),
      });
      if (!answer.ok) throw new Error(String(answer.status));
      const rules = await answer.json();
      const got = steady();
      if (!this.base || rules.seq >= this.base.seq) this.base = rules;
      if (!rules.clock.doubtful) this.clock.byServer(rules.clock.run_s, Date.parse(rules.clock.origin_utc), sent, got);
      this.work();
      if (this.alone) this.serverBack();
      this.tries = 0;
      if (this.note === this.words.slept || this.note === this.words.reloaded) this.note = "";
      this.keep();
      return true;
    } catch {
      if (this.base) this.serverGone();
      return false;
    }
  }

  /** Rules with what this device has told and the server has not. */
  work() {
    const facts = this.handover.beyond(this.base.seq);
    const doubtful = this.clock.now() === null;
    this.rules = { ...withFacts(this.base, facts), clock: { ...this.base.clock, doubtful } };
    this.signals.plan(true);
  }

  serverGone() {
    this.alone = true;
    this.later();
  }

  async serverBack() {
    this.alone = false;
    const had = this.handover.waiting.length;
    await this.handover.drain();
    // What hands were told a moment ago is worth more than this news.
    const quiet = had || steady() - this.saidAt > READ_WITHIN_S;
    if (!this.handover.waiting.length && quiet) this.say(had ? this.words.back : this.words.back.split(". ")[0] + ".");
    this.watch();
  }

  later() {
    clearTimeout(this.asker);
    this.asker = setTimeout(async () => {
      if (!(await this.ask())) this.later();
      else if (this.place.hidden) this.begin();
    }, ASK_AGAIN_MS[Math.min(this.tries, ASK_AGAIN_MS.length - 1)]);
    this.tries += 1;
  }

  watch() {
    this.events?.close();
    if (this.alone || !("EventSource" in window)) return;
    this.events = new EventSource(this.place.dataset.watch);
    this.events.addEventListener("fact", (event) => {
      const said = JSON.parse(event.data);
      if (said.seq > this.base.seq) this.ask();
    });
    this.events.onerror = async (event) => {
      // After an answer that was none, such as one of a server whose database rests, the browser does not try again.
      const closed = event.target.readyState === EventSource.CLOSED;
      if ((await this.ask()) && closed && event.target === this.events) setTimeout(() => this.watch(), WATCH_AGAIN_MS);
    };
    this.events.onopen = () => { if (this.opened) this.ask(); this.opened = true; };
  }

  keep() {
    this.keptAt = steady();
    if (this.base) this.handover.keepRun(this.base, this.clock.kept()).catch(() => {});
  }

  // What hands tell

  /** Take what came of an answer: kept first, then shown and spoken. */
  async take(found, said) {
    if (this.now() === null) return this.say(this.words.clock, true);
    if (found.facts.length) await this.handover.add(found.facts, this.clock.moment());
    this.work();
    this.say(said, found.refused !== null);
    this.show();
    return undefined;
  }

  tooSoon(kind) {
    const at = steady();
    if (at - this.lastTold[kind] < REPEAT_S) return true;
    this.lastTold[kind] = at;
    return false;
  }

  async told() {
    this.signals.wake();
    if (this.tooSoon("tell")) return;
    const now_s = this.now();
    if (now_s === null) {
      this.say(this.words.clock, true);
      return;
    }
    const found = tell({ ...this.rules, told_s: null }, now_s);
    await this.take(found, this.saidOf(found));
  }

  saidOf(found) {
    const act = this.rules.words.acts[found.act];
    if (found.refused === null) return act.taken;
    const said = {
      "runs.doubt.early": act && filled(act.early, { in: mss(found.early_s ?? 0) }),
      "runs.doubt.impossible": act && filled(act.impossible, { in: mss(Math.max(1, found.early_s ?? 0)) }),
      "runs.refused.repeat": this.words.repeat,
      "runs.refused.nothing": this.words.nothing,
      "runs.refused.nothing_told": this.words.nothing_told,
      "runs.refused.clock": this.words.clock,
      "runs.refused.no_end": this.words.no_end,
    }[found.refused];
    return said ?? this.words.cannot_be;
  }

  async back() {
    if (this.tooSoon("back")) return;
    const found = takeBack(this.rules);
    const said = this.rules.words.acts[found.act]?.taken_back ?? this.words.taken_back_any;
    await this.take(found, found.refused === null ? said : this.saidOf(found));
  }

  async looked(by_s) {
    const found = look(this.rules, this.now() ?? 0, by_s);
    let said = this.saidOf({ ...found, act: null, refused: found.refused ?? "" });
    if (found.refused === null) said = "";
    await this.take(found, said);
    if (found.refused === null) {
      const due = dueOf(scheduleAt(this.rules, this.now()), found.act);
      this.say(filled(this.words.looked, { in: mss(Math.max(0, due.due_s - this.now())) }));
    }
  }

  byWatch(run_s) {
    this.clock.byWatch(run_s);
    return this.take({ facts: [{ kind: "time-told", version: 1, data: { run_s } }], refused: null }, filled(this.words.watch_taken, { in: mss(run_s) }));
  }

  say(text, no = false) {
    const said = this.part("said");
    said.classList.toggle("no", no);
    said.textContent = text;
    this.saidAt = steady();
    if (text) this.signals.speak(text);
  }

  // What is shown

  show() {
    if (!this.base) return;
    const hidden = document.visibilityState === "hidden";
    const settled = this.settle(hidden);
    const now_s = this.now();
    if ((now_s === null) !== this.rules.clock.doubtful || settled) this.work();
    this.showNext(now_s);
    this.showAround(now_s);
    // With nothing poured and nothing timed there is nothing to draw: an empty band would only puzzle.
    this.part("track").hidden = this.isStill(now_s);
    if (!hidden) this.track.draw(this.rules, now_s, this.words);
    this.signals.play(now_s);
    if (steady() - this.keptAt > KEEP_EVERY_S) this.keep();
  }

  /** Whether the run is over, or has not come to its first liquid. */
  isStill(now_s) {
    if (["ended", "abandoned"].includes(this.rules.status)) return true;
    if (now_s === null) return false;
    const { dues } = scheduleAt(this.rules, now_s);
    return !dues.some((due) => due.at_s !== null && due.act.number >= 1);
  }

  /** The two clocks of this device disagree: ask the server; without one, see what may still be shown. */
  settle(hidden) {
    const apart_s = this.clock.apart();
    if (apart_s === 0) {
      this.wasHidden = hidden;
      return false;
    }
    const found = this.clock.settle(hidden || this.wasHidden === true);
    this.wasHidden = hidden;
    if (found === "slept") this.note = this.words.slept;
    this.ask();
    return true;
  }

  put(name, text) {
    const place = this.part(name);
    if (place.textContent !== text) place.textContent = text;
    if ("hidden" in place.dataset || ["missing", "alone", "aside"].includes(name)) place.hidden = !text;
  }

  showNext(now_s) {
    const shown = shownNow(this.rules, now_s ?? 0);
    const act = this.rules.words.acts[shown.act];
    const part = shown.code.split(".").at(-1);
    let head = act?.head ?? "";
    let then = act?.then ?? "";
    if (["ended", "abandoned", "last"].includes(part)) [head, then] = [this.words[part], ""];
    if (part === "last" && act) [head, then] = [act.head, this.words.last];
    if (part === "clock_doubtful") {
      head = this.words.doubtful;
      then = filled(this.words.doubtful_then, { in: mss(this.rules.known_s) });
    }
    if (part === "ready_pour" || part === "ready_drain") [head, then] = [act.ready, then || act.then_ready];
    if (part === "ready_in") [head, then] = [act.wait, act.then_wait];
    this.put("head", head);
    this.put("then", then);
    const time = shown.in_s === null ? "" : mss(Math.max(0, shown.in_s));
    this.put("in", time ? this.words[part === "ready_in" ? "for" : "in"] : "");
    this.put("clock", time);
    this.part("clock").classList.toggle("run-long", time.length > 5);
    this.put("aside", this.rules.words.aside ?? "");
    const missing = overdue(this.rules, now_s ?? 0);
    // Hands need a moment from the last drop to the pedal: a warning at every bath would soon be read no more.
    this.put("missing", missing && missing.since_s >= ANSWER_S ? filled(this.rules.words.acts[missing.act].missing, { in: mss(missing.since_s) }) : "");
    const answer = now_s === null || !["ready", "running"].includes(this.rules.status) ? null : actForAnswer(this.rules, scheduleAt(this.rules, now_s));
    const tells = answer === null ? "" : filled(this.words.tells, { what: this.rules.words.acts[answer].tell });
    const button = this.part("tell");
    if (button.textContent !== tells) button.textContent = tells;
    button.hidden = !tells;
    const last = takeBack(this.rules).act;
    const told = this.rules.words.acts[last]?.tell;
    this.put("back", told ? filled(this.words.takes_back, { what: told }) : this.words.takes_back_any);
    this.part("back").hidden = last === null;
    this.place.classList.toggle("run-ended", ["ended", "abandoned"].includes(this.rules.status));
    this.part("over").hidden = this.base.status !== "ended" || this.handover.waiting.length > 0;
    const title = `${time ? `${time} ` : ""}${head}`;
    this.entitle(title);
    if (this.said !== head) {
      this.said = head;
      const svg = this.place.querySelector("svg");
      svg.setAttribute("aria-label", [head, time && `${this.words.in} ${time}`].filter(Boolean).join(" "));
    }
  }

  entitle(title) {
    if (document.title !== title) document.title = title;
  }

  showAround(now_s) {
    const words = this.words;
    const said = [this.rules.rehearsal ? words.rehearsal : ""];
    const over = ["ended", "abandoned"].includes(this.rules.status);
    if (now_s !== null && !over) {
      const inside = bathNow(scheduleAt(this.rules, now_s));
      said.push(inside ? filled(words.now_in, { bath: this.rules.words.acts[inside.act.key].bath }) : words.now_dry);
    }
    const last = new Map(this.rules.readings.map((reading) => [reading.where, reading]));
    for (const [where, reading] of last) said.push(`${this.temperature(reading.temp_c)} ${words[`where_${where === "developer" ? "in" : where.replace("-", "_")}`]}`);
    for (const shift of Object.values(this.rules.shifts)) {
      const s = Math.round(Math.abs(shift.shift_s));
      if (!s) continue;
      const density = shift.density ? ` ${filled(words.density, { density: this.signed(shift.density) })}` : "";
      said.push(filled(shift.shift_s < 0 ? words.earlier : words.later, { s }) + density);
    }
    this.put("where", said.filter(Boolean).join(" · "));
    const alone = [];
    if (this.alone) alone.push(words.alone);
    if (this.alone && this.handover.waiting.length) alone.push(filled(words.kept, { count: this.handover.waiting.length }));
    if (this.note) alone.push(this.note);
    if (this.handover.refused.length) {
      alone.push(filled(words.not_taken, { count: this.handover.refused.length, why: this.handover.refused.at(-1).why ?? "" }));
    }
    if (!this.handover.keeps) alone.push(words.not_kept);
    this.put("alone", alone.join(" "));
  }

  signed(value) {
    const text = Math.abs(value).toFixed(2);
    return this.sign(Number(text) === 0 ? text : `${value < 0 ? "−" : "+"}${text}`);
  }

  sign(text) {
    return this.rules.shown.comma ? text.replace(".", ",") : text;
  }

  temperature(temp_c) {
    return this.rules.shown.us ? `${this.sign((temp_c * 1.8 + 32).toFixed(1))} °F` : `${this.sign(temp_c.toFixed(1))} °C`;
  }
}

function typing(target) {
  return target instanceof Element && target.closest("input, select, textarea, [contenteditable]") !== null;
}

// A field keeps its keys. A pedal's two it does not need, except where they walk through a list or a longer text.
function kept(event) {
  const pedal = event.key === "PageDown" || event.key === "PageUp";
  return typing(event.target) && !(pedal && event.target.closest("input"));
}

function bind(page) {
  const face = page.part("face");
  face.addEventListener("click", () => page.told());
  page.part("back").addEventListener("click", () => page.back());
  document.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey || kept(event)) return;
    const acts = event.target instanceof Element ? event.target.closest("a, summary, button:not([data-run-tell])") : null;
    // A key that works a control in focus works that control; a pedal's PageDown means "told" wherever the focus is.
    if (acts && (event.key === " " || event.key === "Enter")) return;
    if (TOLD_KEYS.has(event.key)) {
      event.preventDefault();
      if (!event.repeat) page.told();
    } else if (BACK_KEYS.has(event.key)) {
      event.preventDefault();
      if (!event.repeat) page.back();
    } else if (event.key === "t" || event.key === "T") {
      event.preventDefault();
      page.part("more").open = true;
      page.place.querySelector("#run-shown").focus();
    }
  });
  hear(page);
}

/** News of the browser and of what is kept, whatever page hears them. */
export function hear(page) {
  document.addEventListener("visibilitychange", () => {
    page.keep();
    if (document.visibilityState === "visible") {
      page.show();
      page.signals.wake();
      page.ask();
    }
  });
  window.addEventListener("pagehide", () => page.keep());
  window.addEventListener("online", () => page.ask());
  page.handover.addEventListener("changed", () => { if (page.base) { page.work(); page.show(); } });
  page.handover.addEventListener("handed", () => page.ask());
  page.handover.addEventListener("unanswered", () => { if (page.base && !page.alone) page.serverGone(); });
  bindForms(page);
}

export async function openRun(place, Page = RunPage, listen = bind) {
  const { run, facts, token, csrf } = place.dataset;
  const handover = await openHandover(run, { facts, token }, csrf);
  const page = new Page(place, handover);
  listen(page);
  await page.begin();
  const calm = matchMedia("(prefers-reduced-motion: reduce)");
  let drawn = -Infinity;
  const step = () => {
    const at = performance.now();
    if (at - drawn >= (calm.matches ? 500 : 80)) {
      drawn = at;
      page.show();
    }
    requestAnimationFrame(step);
  };
  requestAnimationFrame(step);
  setInterval(() => { if (document.visibilityState === "hidden") page.show(); }, 1000);
  keepPage(place.dataset.worker).catch(() => {});
  return page;
}

const place = document.querySelector("section[data-run]:not([data-dark] *)");
if (place) openRun(place);

