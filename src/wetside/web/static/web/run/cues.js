// What to say and when, and what to show: the same as the core's cues. Pure.

import { AHEAD, ASSUMED, INFERRED, TOLD, WAITS, awaited, scheduleAt, dueOf } from "./schedule.js";
import { actForAnswer } from "./answer.js";

const over = (rules) => rules.status === "ended" || rules.status === "abandoned";

/** Cues from `since_s` on, before `until_s`: `{at_s, kind, act, code, in_s, since_s}`. [s] */
export function cuesBetween(rules, since_s, until_s) {
  if (over(rules) || rules.clock.doubtful) return [];
  const schedule = scheduleAt(rules, since_s);
  return schedule.dues
    .flatMap((due) => cuesOf(due, schedule, rules))
    .filter((cue) => since_s <= cue.at_s && cue.at_s < until_s)
    .sort((a, b) => a.at_s - b.at_s || order(a.act, b.act) || order(a.kind, b.kind));
}

const order = (a, b) => (a < b ? -1 : a > b ? 1 : 0);

function cuesOf(due, schedule, rules) {
  const { act } = due;
  const limits = rules.constants;
  if (due.how === TOLD || due.how === INFERRED || (act.sheet !== null && rules.lost.includes(act.sheet))) return [];
  if (due.due_s === null) {
    return due.ready_s === null ? [] : [{ at_s: due.ready_s, kind: "ready", act: act.key, code: `runs.cue.ready_${act.does}` }];
  }
  const found = [];
  const at_s = due.due_s;
  if (limits.spoken.includes(act.does)) {
    const free_s = freeBefore(due, schedule);
    if (act.does !== "pour" || free_s === null || at_s - free_s > limits.prompt_s) {
      const prompt_s = free_s === null ? at_s - limits.prompt_s : Math.max(free_s + 1, at_s - limits.prompt_s);
      if (prompt_s < at_s - 2) found.push({ at_s: prompt_s, kind: "prompt", act: act.key, code: `runs.cue.prompt_${act.does}` });
      const counts = ["drain", "lift", "enter"].includes(act.does) ? limits.counts_s : limits.counts_s.slice(1, 2);
      for (const in_s of counts) {
        if (at_s - in_s > prompt_s) found.push({ at_s: at_s - in_s, kind: "count", act: act.key, code: `runs.cue.count_${act.does}`, in_s });
      }
    }
    found.push({ at_s, kind: "now", act: act.key, code: `runs.cue.now_${act.does}` });
  }
  if (act.awaited && ["full", "move", "enter", rules.names.hang].includes(act.does)) found.push(...repeatsOf(due, schedule, limits));
  return found;
}

function repeatsOf(due, schedule, limits) {
  const later = schedule.dues.slice(schedule.dues.indexOf(due) + 1).filter((one) => one.act.awaited);
  const until_s = later.find((one) => one.due_s !== null)?.due_s ?? null;
  const times = [...limits.repeats_s];
  const last = limits.repeats_s.at(-1);
  for (let number = 1; number < limits.most_repeats; number += 1) times.push(last + limits.repeat_every_s * number);
  return times
    .filter((after_s) => until_s === null || due.due_s + after_s < until_s)
    .map((since_s) => ({ at_s: due.due_s + since_s, kind: "repeat", act: due.act.key, code: `runs.cue.repeat_${due.act.does}`, since_s }));
}

function freeBefore(due, schedule) {
  const earlier = schedule.dues.slice(0, schedule.dues.indexOf(due))
    .filter((one) => one.at_s !== null && one.act.does !== "hold" && one.act.does !== "load" && one.at_s < due.due_s)
    .map((one) => one.at_s);
  return earlier.length ? Math.max(...earlier) : null;
}

/** The next act of the hands; a further fill of the same bath that is full asks for nothing and is passed over. */
function nextToShow(schedule) {
  return schedule.dues.find((due) => (due.how === AHEAD || due.how === WAITS) && (due.act.does !== "full" || due.act.awaited));
}

/** The largest line: `{code, in_s, act}`; no time at all while the clock is in doubt. [s] */
export function shownNow(rules, now_s) {
  if (over(rules)) return { code: `runs.next.${rules.status}`, in_s: null, act: null };
  if (rules.clock.doubtful) return { code: "runs.next.clock_doubtful", in_s: null, act: null };
  const schedule = scheduleAt(rules, now_s);
  const due = nextToShow(schedule);
  if (!due) return { code: "runs.next.last", in_s: null, act: awaited(schedule)?.act.key ?? null };
  const { act } = due;
  if (due.how === AHEAD) return { code: `runs.next.${act.does}`, in_s: due.due_s - now_s, act: act.key };
  if (act.does === "load") return { code: "runs.next.load", in_s: null, act: act.key };
  if (act.does === "hold") {
    return { code: act.key === rules.names.lights_out ? "runs.next.lights_out" : "runs.next.lights_on", in_s: null, act: act.key };
  }
  if (due.ready_s !== null && due.ready_s > now_s) return { code: "runs.next.ready_in", in_s: due.ready_s - now_s, act: act.key };
  return { code: act.does === "drain" ? "runs.next.ready_drain" : "runs.next.ready_pour", in_s: null, act: act.key };
}

/** The act whose answer is missing, and since when; null where none is. [s] */
export function overdue(rules, now_s) {
  if (over(rules) || rules.clock.doubtful) return null;
  const schedule = scheduleAt(rules, now_s);
  const key = actForAnswer(rules, schedule);
  if (key === null) return null;
  const due = dueOf(schedule, key);
  if (due.due_s === null || now_s - due.due_s < 1 || due.how !== ASSUMED || !due.act.awaited) return null;
  return { code: due.act.kind === "stop" ? "runs.next.missing_stop" : "runs.next.missing", act: key, since_s: now_s - due.due_s };
}
