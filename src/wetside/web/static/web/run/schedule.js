// When each act was, is or will be due: worked out from the rules and now, never counted. The same as the core's
// schedule; the fixtures of tests/fixtures/run_rules hold both to it. Pure: no clock, no page.

export const TOLD = "told";
export const INFERRED = "inferred";
export const ASSUMED = "assumed";
export const AHEAD = "ahead";
export const WAITS = "waits";

const isHold = (act) => act.does === "hold" || act.does === "load";

/** Keys of the acts that an act follows from, the nearest first. */
export function before(rules, key) {
  const acts = new Map(rules.acts.map((act) => [act.key, act]));
  const found = [];
  for (let anchor = acts.get(key).anchor; acts.has(anchor); anchor = acts.get(anchor).anchor) found.push(anchor);
  return found;
}

/** Keys of the acts that follow from an act. */
export function after(rules, key) {
  const found = new Set([key]);
  for (const act of rules.acts) if (found.has(act.anchor)) found.add(act.key);
  found.delete(key);
  return [...found];
}

function anyWet(rules) {
  return rules.acts.some((act) => act.number >= 1 && act.key in rules.stamps);
}

function startOf(rules) {
  if (!rules.acts.some((act) => act.key === rules.names.lights_on)) return 0;
  const stamp = rules.stamps[rules.names.lights_on];
  if (stamp) return stamp.at_s;
  return anyWet(rules) ? 0 : null;
}

// A pour belongs to its full, and the drain before a pour to that pour, because hands do not wait between them.
function impliedBy(rules, paused) {
  const acts = new Map(rules.acts.map((act) => [act.key, act]));
  const found = new Map();
  for (const act of [...rules.acts].reverse()) {
    const stamp = rules.stamps[act.key];
    let known;
    if (stamp) known = stamp.at_s;
    else if (found.has(act.key)) known = found.get(act.key).at_s;
    else continue;
    const anchor = acts.get(act.anchor);
    if (!anchor || anchor.key in rules.stamps || found.has(anchor.key) || isHold(anchor)) continue;
    const close = (act.does === "full" && anchor.does === "pour")
      || ((act.does === "pour" || act.does === "move") && anchor.does === "drain" && !paused.has(act.key));
    const told = before(rules, anchor.key).filter((key) => key in rules.stamps).map((key) => rules.stamps[key].at_s);
    const floor = told.length ? Math.max(...told) : 0;
    found.set(anchor.key, { at_s: Math.max(floor, known - act.offset_s), latest_s: Math.max(floor, known), close });
  }
  return found;
}

/** Times of all acts: `{now_s, dues: [{act, due_s, at_s, how, ready_s}]}`. [s] */
export function scheduleAt(rules, now_s) {
  const paused = new Set(Object.values(rules.pauses).filter((pause) => !pause.retired).map((pause) => pause.act));
  const implied = impliedBy(rules, paused);
  const wet = anyWet(rules);
  const at = new Map([[rules.names.start, startOf(rules)]]);
  const dues = [];
  for (const act of rules.acts) {
    const anchor_s = at.get(act.anchor);
    let due_s = anchor_s === null ? null : anchor_s + act.offset_s + (rules.shifts[act.key]?.shift_s ?? 0);
    let ready_s = null;
    if (isHold(act) || paused.has(act.key)) {
      ready_s = due_s;
      due_s = null;
    }
    const stamp = rules.stamps[act.key];
    let at_s;
    let how;
    if (stamp) {
      at_s = stamp.at_s;
      how = TOLD;
    } else if (wet && isHold(act)) {
      at_s = 0;
      how = INFERRED;
    } else if (implied.has(act.key)) {
      const one = implied.get(act.key);
      at_s = one.close || due_s === null ? one.at_s : Math.min(due_s, one.latest_s);
      how = INFERRED;
    } else if (due_s === null) {
      at.set(act.key, null);
      dues.push({ act, due_s: null, at_s: null, how: WAITS, ready_s });
      continue;
    } else {
      at_s = due_s;
      how = due_s <= now_s ? ASSUMED : AHEAD;
    }
    at.set(act.key, at_s);
    dues.push({ act, due_s: due_s ?? at_s, at_s, how, ready_s });
  }
  // Anchors run on through the acts of a lost sheet; nobody is asked for them.
  return { now_s, dues: dues.filter((due) => due.act.sheet === null || !rules.lost.includes(due.act.sheet)) };
}

export function dueOf(schedule, key) {
  return schedule.dues.find((due) => due.act.key === key);
}

export function lastTold(schedule) {
  return schedule.dues.reduce((last, due, rank) => (due.how === TOLD ? rank : last), -1);
}

/** The act that the next answer is for; no act up to the stop is ever passed over. */
export function awaited(schedule, lastDeveloping = 0) {
  const asking = schedule.dues.slice(lastTold(schedule) + 1).filter((due) => due.act.awaited);
  if (!asking.length) return null;
  const first = asking[0];
  if (first.act.number <= lastDeveloping + 1 || first.due_s === null) return first;
  return asking.filter((due) => due.due_s !== null)
    .reduce((best, due) => (Math.abs(due.due_s - schedule.now_s) < Math.abs(best.due_s - schedule.now_s) ? due : best));
}

/** The next thing that hands do. */
export function nextDue(schedule) {
  return schedule.dues.find((due) => due.how === AHEAD || due.how === WAITS) ?? null;
}

/** The pour of the bath that the film is in; null before the first. */
export function bathNow(schedule) {
  const begun = schedule.dues.filter(
    (due) => (due.act.does === "pour" || due.act.does === "move") && due.at_s !== null && due.at_s <= schedule.now_s,
  );
  return begun.at(-1) ?? null;
}
