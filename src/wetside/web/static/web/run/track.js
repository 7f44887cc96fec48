// The track: the run to scale, passing a fixed now. Baths are told by texture and word, cues by shape and word.

import { AHEAD, WAITS, nextDue, scheduleAt } from "./schedule.js";

const SVG = "http://www.w3.org/2000/svg";
const SPANS_S = [180, 360, 900, 2700, 7200]; // what the track shows ahead; the shortest in which the next act is seen
const STROKES_S = { 180: 30, 360: 60, 900: 120, 2700: 300, 7200: 900 };
const NOW_AT = 0.26;
const SHAPES = { pour: "down", move: "down", enter: "down", drain: "up", lift: "up", inspect: "diamond", agitate: "bar", hang: "square" };

function made(name, attributes = {}, text = "") {
  const element = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  if (text) element.textContent = text;
  return element;
}

function shape(kind, x, y, r, className) {
  const points = {
    down: [[-r, 0], [r, 0], [0, 1.5 * r]],
    up: [[-r, 1.5 * r], [r, 1.5 * r], [0, 0]],
    diamond: [[0, -0.1 * r], [0.9 * r, 0.8 * r], [0, 1.7 * r], [-0.9 * r, 0.8 * r]],
    bar: [[-0.3 * r, 0], [0.3 * r, 0], [0.3 * r, 1.6 * r], [-0.3 * r, 1.6 * r]],
    square: [[-0.8 * r, 0], [0.8 * r, 0], [0.8 * r, 1.6 * r], [-0.8 * r, 1.6 * r]],
  }[kind];
  return made("polygon", { points: points.map(([dx, dy]) => `${x + dx},${y + dy}`).join(" "), class: className });
}

/** Baths as stretches of the run: `{act, from_s, to_s, open}`; open where nobody knows yet how long it stays. [s] */
export function stretches(rules, schedule, far_s) {
  const found = [];
  for (const due of schedule.dues) {
    const { act } = due;
    if (due.at_s === null || act.number < 1) continue;
    const last = found.at(-1);
    if (act.does === "pour" || act.does === "move") {
      if (last && last.to_s === null) last.to_s = due.at_s;
      found.push({ act, from_s: due.at_s, to_s: null, open: false });
    } else if ((act.does === "drain" || act.does === "hang") && last && last.to_s === null) {
      last.to_s = due.at_s;
    }
  }
  const last = found.at(-1);
  if (last && last.to_s === null) Object.assign(last, { to_s: far_s, open: true });
  return found;
}

export class Track {
  constructor(svg) {
    this.svg = svg;
    this.width = 0;
    this.span_s = SPANS_S[0];
    new ResizeObserver(() => { this.width = 0; }).observe(svg.parentElement);
  }

  measure() {
    if (this.width) return;
    this.width = Math.max(240, this.svg.parentElement.clientWidth);
    this.em = Number.parseFloat(getComputedStyle(this.svg).fontSize);
    const { em } = this;
    this.rows = { label: 1.35 * em, top: 2 * em, foot: 7 * em, mark: 7.35 * em, word: 9.3 * em, word2: 10.6 * em, line: 11.5 * em, lineWord: 12.8 * em };
    this.height = 13.6 * em;
    this.svg.setAttribute("viewBox", `0 0 ${this.width} ${this.height}`);
    this.svg.setAttribute("width", this.width);
    this.svg.setAttribute("height", this.height);
    this.textures();
  }

  textures() {
    const { em } = this;
    const defs = made("defs");
    const pattern = (id, size) => {
      const one = made("pattern", { id, width: size, height: size, patternUnits: "userSpaceOnUse" });
      defs.append(one);
      return one;
    };
    const hatch = pattern("run-stop", 0.5 * em);
    hatch.setAttribute("patternTransform", "rotate(45)");
    hatch.append(made("rect", { width: 1.3, height: 0.5 * em, class: "run-ink" }));
    const dots = pattern("run-presoak", 0.6 * em);
    dots.append(made("circle", { cx: 0.3 * em, cy: 0.3 * em, r: 1.3, class: "run-ink" }));
    const waves = pattern("run-wash", 0.7 * em);
    waves.append(made("rect", { width: 0.7 * em, height: 1.2, y: 0.35 * em, class: "run-ink" }));
    const cross = pattern("run-wetting", 0.8 * em);
    cross.append(made("path", { d: `M${0.2 * em} ${0.4 * em}h${0.4 * em}M${0.4 * em} ${0.2 * em}v${0.4 * em}`, class: "run-cross" }));
    this.layer = made("g");
    this.svg.replaceChildren(defs, this.layer);
  }

  /** Draw the run as it stands at `now_s`; nothing but words where no time may be shown. [s] */
  draw(rules, now_s, words) {
    this.measure();
    this.layer.replaceChildren();
    if (now_s === null) return;
    const schedule = scheduleAt(rules, now_s);
    const next = nextDue(schedule);
    const ahead_s = next === null ? 0 : ((next.due_s ?? next.ready_s ?? now_s) - now_s);
    this.span_s = SPANS_S.find((span) => ahead_s <= span * (1 - NOW_AT) * 0.9) ?? SPANS_S.at(-1);
    if (this.width < 500 && this.span_s === SPANS_S[0]) this.span_s = 150;
    const scale = this.width / this.span_s;
    const zero = NOW_AT * this.width;
    this.x = (at_s) => zero + (at_s - now_s) * scale;
    this.from_s = now_s - zero / scale;
    this.to_s = now_s + (this.width - zero) / scale;
    this.baths(rules, schedule, now_s);
    this.strokes(now_s);
    this.nothingWaits(rules, schedule, words);
    this.now(zero);
    this.marks(rules, schedule, next);
  }

  baths(rules, schedule, now_s) {
    const { rows, em } = this;
    const stays = schedule.dues.find((due) => due.how === WAITS && due.ready_s !== null);
    let free = -Infinity;
    for (const one of stretches(rules, schedule, Math.max(this.to_s + 60, now_s))) {
      if (one.to_s < this.from_s || one.from_s > this.to_s) continue;
      const left = Math.max(-8, this.x(one.from_s));
      const right = Math.min(this.width + 8, this.x(one.to_s));
      this.layer.append(made("rect", {
        x: left, y: rows.top, width: Math.max(1, right - left), height: rows.foot - rows.top, class: `run-bath run-${one.act.kind}`,
      }));
      const name = rules.words.acts[one.act.key]?.name ?? "";
      const long = name.length * 0.52 * em;
      let at = Math.max(left + 0.4 * em, 0.6 * em, free);
      const now = NOW_AT * this.width;
      if (at < now + 0.8 * em && at + long > now - 0.8 * em) at = now + 0.9 * em; // beside the line of now, not under it
      if (at + 1.5 * em < Math.max(right, left + 4 * em)) {
        this.layer.append(made("text", { x: at, y: rows.label, class: "run-name" }, name));
        free = at + (name.length + 2) * 0.52 * em;
      }
    }
    if (stays && stays.ready_s > this.from_s && stays.ready_s < this.to_s) {
      const x = this.x(stays.ready_s);
      this.layer.append(made("path", { d: `M${x} ${rows.top}V${rows.foot}`, class: "run-ready" }));
    }
  }

  strokes(now_s) {
    const { rows, em } = this;
    const step_s = STROKES_S[this.span_s] ?? 30;
    this.step_s = step_s;
    for (let at_s = Math.ceil(this.from_s / (step_s / 2)) * (step_s / 2); at_s < this.to_s; at_s += step_s / 2) {
      const long = Math.round(at_s / (step_s / 2)) % 2 === 0;
      const x = this.x(at_s);
      if (at_s >= 0 && now_s !== null) this.layer.append(made("path", { d: `M${x} ${rows.foot}v${long ? -0.55 * em : -0.3 * em}`, class: "run-stroke" }));
    }
  }

  nothingWaits(rules, schedule, words) {
    const { rows, em } = this;
    const last = rules.developing.at(-1);
    const pour = schedule.dues.find((due) => due.act.kind === "develop" && (due.act.does === "pour" || due.act.does === "move"));
    const stop = schedule.dues.find((due) => due.act.number === last + 1 && ["full", "move", "pour"].includes(due.act.does));
    if (!pour || pour.at_s === null || !stop || stop.at_s === null) return;
    const left = Math.max(0, this.x(pour.at_s));
    const right = Math.min(this.width, this.x(stop.at_s));
    if (right <= 0 || left >= this.width || right - left < 1) return;
    this.layer.append(made("rect", { x: left, y: rows.line, width: right - left, height: 3, class: "run-hold" }));
    const at = left + 0.6 * em;
    if (right > 1) this.layer.append(made("text", { x: Math.min(at, this.width - 9 * em), y: rows.lineWord, class: "run-hold-word" }, words.nothing_waits));
  }

  marks(rules, schedule, next) {
    const { rows, em } = this;
    const ends = [-Infinity, -Infinity];
    for (const due of schedule.dues) {
      const kind = SHAPES[due.act.does];
      const at_s = due.at_s ?? due.ready_s;
      if (!kind || at_s === null || at_s < this.from_s || at_s > this.to_s) continue;
      const x = this.x(at_s);
      const isNext = due === next;
      const past = due.how !== AHEAD && due.how !== WAITS;
      this.layer.append(shape(kind, x, rows.mark, 0.6 * em, `run-mark${isNext ? " run-next" : ""}${past ? " run-past" : ""}`));
      const word = rules.words.acts[due.act.key]?.mark ?? "";
      const half = word.length * 0.29 * em;
      const at = Math.min(Math.max(x, half + 2), this.width - half - 2);
      const row = ends.findIndex((end) => end < at - half);
      if (row < 0 || (past && this.width < 500)) continue;
      ends[row] = at + half + 0.5 * em;
      this.layer.append(made("text", { x: at, y: row ? rows.word2 : rows.word, class: `run-word${isNext ? " run-next" : ""}${past ? " run-past" : ""}` }, word));
    }
  }

  now(x) {
    const { rows, em } = this;
    this.layer.append(
      made("path", { d: `M${x} ${0.6 * em}V${rows.line}`, class: "run-now" }),
      shape("down", x, 0.1 * em, 0.55 * em, "run-now-head"),
    );
  }
}
