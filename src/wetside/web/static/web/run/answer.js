// Which act an answer is for, whether it can be true already, and what comes of it: the same as the core's. Pure.

import { AHEAD, ASSUMED, WAITS, after, awaited, bathNow, before, dueOf, lastTold, scheduleAt } from "./schedule.js";

const away = (due, now_s) => (due.due_s === null ? Infinity : Math.abs(due.due_s - now_s));

function mayBeMeant(due, rank, last) {
  const inside = due.act.does === "enter" || due.act.does === "lift";
  return (rank > last || inside)
    && (due.how === ASSUMED || due.how === AHEAD)
    && (!due.act.awaited || inside)
    && !["pour", "hold", "load"].includes(due.act.does);
}

/** Key of the act that an answer at the schedule's moment tells; null where none is waited for. */
export function actForAnswer(rules, schedule) {
  const waited = awaited(schedule, rules.developing.at(-1) ?? 0);
  const now_s = schedule.now_s;
  const last = lastTold(schedule);
  const near = schedule.dues.filter((due, rank) => mayBeMeant(due, rank, last) && away(due, now_s) <= rules.constants.near_s);
  if (near.length) {
    const best = near.reduce((found, due) => (away(due, now_s) < away(found, now_s) ? due : found));
    if (!waited || waited.due_s === null || away(best, now_s) < away(waited, now_s)) return best.act.key;
  }
  return waited?.act.key ?? null;
}

// Seconds that pours and drains take on the way from one act to a later one; 0 where one does not follow.
function handlingBetween(acts, since, key) {
  const known = new Map(acts.map((act) => [act.key, act]));
  let seconds = 0;
  let act = known.get(key);
  while (act.key !== since) {
    const anchor = known.get(act.anchor);
    if (act.does === "full" || ((act.does === "pour" || act.does === "move") && anchor?.does === "drain")) seconds += act.offset_s;
    if (!anchor) return 0;
    act = anchor;
  }
  return seconds;
}

/** When a waiting act could be done at the earliest; null if unknown. [s] */
export function earliestOf(schedule, key) {
  let due = dueOf(schedule, key);
  let more_s = 0;
  while (due.ready_s === null) {
    more_s += due.act.offset_s;
    due = dueOf(schedule, due.act.anchor);
    if (!due) return null;
    if (due.how !== WAITS) return (due.at_s ?? 0) + more_s;
  }
  return due.ready_s + more_s;
}

function bathBefore(schedule, key) {
  const earlier = schedule.dues.slice(0, schedule.dues.findIndex((due) => due.act.key === key));
  return earlier.filter((due) => ["full", "move", "enter"].includes(due.act.does)).at(-1)?.act.duration_s ?? 0;
}

/** What makes an act at `at_s` hard to believe: `{code, early_s}`; null where it may well be. [s] */
export function doubtAbout(rules, schedule, key, at_s) {
  const due = dueOf(schedule, key);
  if (due.act.does === "hold" || due.act.does === "load") return null;
  const wet = rules.acts.filter((act) => act.key in rules.stamps && act.number >= 1);
  if (wet.length) {
    const last = wet.reduce((found, act) => (rules.stamps[act.key].at_s > rules.stamps[found.key].at_s ? act : found));
    const last_s = rules.stamps[last.key].at_s;
    const least_s = handlingBetween(rules.acts, last.key, key) / 2;
    if (at_s < last_s + least_s) return { code: "runs.doubt.impossible", early_s: last_s + least_s - at_s };
  }
  const expected_s = due.due_s ?? earliestOf(schedule, key);
  const { early_s, early_share } = rules.constants;
  if (expected_s !== null && expected_s - at_s > Math.max(early_s, early_share * bathBefore(schedule, key))) {
    return { code: "runs.doubt.early", early_s: expected_s - at_s };
  }
  return null;
}

/** Why an act at `at_s` cannot be beside what is known; null where nothing speaks against it. [s] */
export function objectionTo(rules, key, at_s) {
  const act = rules.acts.find((one) => one.key === key);
  if (!act) return "runs.contested.act";
  if (key in rules.stamps) return "runs.contested.again";
  const told = (keys) => keys.filter((one) => one in rules.stamps).map((one) => rules.stamps[one].at_s);
  if (at_s < 0 || told(before(rules, key)).some((one) => one > at_s)) return "runs.contested.before";
  if (told(after(rules, key)).some((one) => one < at_s)) return "runs.contested.passed";
  return null;
}

/** What comes of "told" at `now_s`: `{facts, act, refused, early_s}`, facts as `{kind, version, data}`. [s] */
export function tell(rules, now_s) {
  const { repeat_s, twice_s } = rules.constants;
  if (rules.clock.doubtful) return { facts: [], act: null, refused: "runs.refused.clock" };
  if (rules.told_s !== null && now_s - rules.told_s >= 0 && now_s - rules.told_s < repeat_s) {
    return { facts: [], act: null, refused: "runs.refused.repeat" };
  }
  const schedule = scheduleAt(rules, now_s);
  const key = rules.status === "ready" || rules.status === "running" ? actForAnswer(rules, schedule) : null;
  if (key === null) return { facts: [], act: null, refused: "runs.refused.nothing" };
  const objection = objectionTo(rules, key, now_s);
  if (objection) return { facts: [], act: key, refused: objection };
  const doubt = doubtAbout(rules, schedule, key, now_s);
  const insisted = doubt !== null && rules.doubt?.act === key && now_s - rules.doubt.at_s <= twice_s;
  if (doubt && !insisted) {
    return { facts: [{ kind: "doubted", version: 1, data: { act: key, code: doubt.code } }], act: key, refused: doubt.code, early_s: doubt.early_s };
  }
  return { facts: [{ kind: "done", version: 1, data: { act: key, ago_s: 0, insisted } }], act: key, refused: null };
}

/** What comes of "take back": the act that was told last no longer counts. */
export function takeBack(rules) {
  const told = Object.entries(rules.stamps);
  if (!told.length) return { facts: [], act: null, refused: "runs.refused.nothing_told" };
  const later = ([, a], [, b]) => a.at_s - b.at_s || (a.device < b.device ? -1 : a.device > b.device ? 1 : a.number - b.number);
  const [key, stamp] = told.reduce((last, one) => (later(one, last) > 0 ? one : last));
  return { facts: [{ kind: "taken-back", version: 1, data: { device: stamp.device, number: stamp.number } }], act: key, refused: null };
}

/** Rules with the facts that this device has not handed over, in their order: `{kind, data, device, number, run_s}`. */
export function withFacts(rules, facts) {
  return facts.reduce(withFact, rules);
}

const UNTIL_THE_END = new Set(["ready", "running"]);

function withFact(rules, fact) {
  const { kind, data, run_s } = fact;
  const known_s = Math.max(rules.known_s, run_s);
  if (kind === "taken-back") {
    const stamps = Object.fromEntries(
      Object.entries(rules.stamps).filter(([, stamp]) => stamp.device !== data.device || stamp.number !== data.number),
    );
    return { ...rules, stamps, status: statusBy(rules, stamps), known_s };
  }
  if (!UNTIL_THE_END.has(rules.status)) return rules;
  if (kind === "done") {
    const at_s = run_s - data.ago_s;
    if (objectionTo(rules, data.act, at_s)) return rules;
    const stamp = { at_s, by: "wall-clock", device: fact.device, number: fact.number, insisted: data.insisted };
    const stamps = { ...rules.stamps, [data.act]: stamp };
    return { ...rules, stamps, status: statusBy(rules, stamps), doubt: null, told_s: run_s, known_s };
  }
  if (kind === "doubted") return { ...rules, doubt: { act: data.act, at_s: run_s }, told_s: run_s, known_s };
  if (kind === "read") {
    const reading = { at_s: run_s, temp_c: data.shown_c - data.reads_high_c, where: data.where };
    return { ...rules, readings: [...rules.readings, reading], known_s };
  }
  if (kind === "lost") {
    const there = rules.sheets.some((sheet) => sheet.id === data.sheet) && !rules.lost.includes(data.sheet);
    return there ? { ...rules, lost: [...rules.lost, data.sheet], known_s } : rules;
  }
  if (kind === "retired") {
    const pause = rules.pauses[data.pause];
    return pause ? { ...rules, pauses: { ...rules.pauses, [data.pause]: { ...pause, retired: true } }, known_s } : rules;
  }
  if (kind === "end-moved") {
    const shift = { shift_s: data.shift_s, why: data.why, density: data.density, at_s: run_s };
    return { ...rules, shifts: { ...rules.shifts, [data.act]: shift }, known_s };
  }
  return rules;
}

function statusBy(rules, stamps) {
  if (rules.status === "abandoned") return rules.status;
  if (rules.names.hang in stamps) return "ended";
  return rules.acts.some((act) => act.number >= 1 && act.key in stamps) ? "running" : "ready";
}

/** What a look does: the developing end that lies ahead comes later, or sooner; never in the past. [s] */
export function look(rules, now_s, by_s) {
  const schedule = scheduleAt(rules, now_s);
  const due = schedule.dues.find((one) => ["drain", "lift"].includes(one.act.does) && one.act.kind === "develop" && one.due_s > now_s);
  if (!due || bathNow(schedule)?.act.kind !== "develop") return { facts: [], act: null, refused: "runs.refused.no_end" };
  if (!(Math.abs(by_s) <= rules.constants.most_looked_s)) return { facts: [], act: due.act.key, refused: "runs.refused.look" };
  const moved_s = Math.max(by_s, now_s - due.due_s);
  const shift_s = (rules.shifts[due.act.key]?.shift_s ?? 0) + moved_s;
  const data = { act: due.act.key, shift_s, why: "look", density: 0 };
  return { facts: [{ kind: "end-moved", version: 1, data }], act: due.act.key, refused: null, moved_s };
}

