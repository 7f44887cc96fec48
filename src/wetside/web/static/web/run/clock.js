// The run's clock on this device: tied to the server's answer, then derived from the page's own steady clock.
// Nothing is counted. The page's clock may stand still while the device sleeps, and the wall clock may be set: where
// the two disagree the server is asked, and where it does not answer no time is shown that could be wrong. Pure: the
// two clocks are given to it.

const STEERED_S = 2; // a wall clock that moves less is only being steered by its time server
const LONGEST_S = 86400;

export class RunClock {
  /** `steady()` and `wall()` give seconds; `name()` a new name for a stretch of the steady clock. */
  constructor(steady, wall, name) {
    this.steady = steady;
    this.wall = wall;
    this.name = name;
    this.boot = name();
    this.tie = null;
    this.doubtful = true;
    this.by = "";
    this.best_s = Infinity;
  }

  /** By the server's answer: it was `run_s` when the request was on its way, asked and answered at `sent`, `got`. [s] */
  byServer(run_s, origin_ms, sent, got) {
    const round_s = Math.max(0, got - sent);
    const found_s = run_s + round_s / 2;
    const there = this.tie && !this.doubtful ? this.at(got) : null;
    // An answer that took longer says less: it changes the tie only where that must be wrong.
    if (there !== null && Math.abs(there - found_s) <= Math.max(round_s / 2, 0.02) && round_s >= this.best_s) return;
    const moved = there === null || Math.abs(there - found_s) > 0.25;
    this.tieTo(found_s, got, origin_ms, "server", moved);
    this.best_s = round_s;
  }

  /** By what this device kept before the page was loaded anew: a run's time beside the wall clock of then. */
  byKept(kept) {
    const passed_s = this.wall() - kept.wall_s;
    // Back by no more than steering does is no clock that was set.
    const possible = passed_s >= -STEERED_S && kept.run_s + passed_s <= LONGEST_S && !kept.doubtful;
    this.tieTo(kept.run_s + Math.max(0, passed_s), this.steady(), kept.origin_ms, "wall-clock", true);
    this.doubtful = !possible;
    return possible;
  }

  /** By a watch that somebody read. [s] */
  byWatch(run_s) {
    this.tieTo(run_s, this.steady(), this.tie?.origin_ms ?? 0, "watch", true);
  }

  tieTo(run_s, steady_s, origin_ms, by, fresh) {
    if (fresh) {
      this.boot = this.name();
      this.best_s = Infinity;
    }
    this.tie = { run_s, steady_s, origin_ms, wall_s: this.wall() - (this.steady() - steady_s) };
    this.doubtful = false;
    this.by = by;
  }

  at(steady_s) {
    return this.tie.run_s + (steady_s - this.tie.steady_s);
  }

  /** The run's time; null where none may be shown. [s] */
  now() {
    return this.tie && !this.doubtful ? this.at(this.steady()) : null;
  }

  /** By how much the wall clock went further than the steady one since the tie; 0 within what steering does. [s] */
  apart() {
    if (!this.tie) return 0;
    const apart_s = this.wall() - this.tie.wall_s - (this.steady() - this.tie.steady_s);
    return Math.abs(apart_s) <= STEERED_S ? 0 : apart_s;
  }

  /**
   * What a disagreement means where no server tells. Set back: the steady clock is right. Forward while nobody looked:
   * the device slept, and only the wall clock went on. Forward before somebody's eyes: nobody can tell. [s]
   */
  settle(hidden) {
    const apart_s = this.apart();
    if (apart_s === 0) return "same";
    if (apart_s < 0) {
      this.tie.wall_s += apart_s;
      return "set-back";
    }
    if (hidden && !this.doubtful) {
      this.tieTo(this.at(this.steady()) + apart_s, this.steady(), this.tie.origin_ms, "wall-clock", true);
      return "slept";
    }
    this.tie.wall_s += apart_s;
    this.doubtful = true;
    return "doubtful";
  }

  /** What to keep on the device so that a page that is loaded anew goes on. */
  kept() {
    return { run_s: this.tie ? this.at(this.steady()) : 0, wall_s: this.wall(), origin_ms: this.tie?.origin_ms ?? 0, doubtful: this.doubtful };
  }

  /** When a fact is told now, for the server: UTC by the run's own clock, and this stretch of the steady one. */
  moment() {
    const run_s = this.at(this.steady());
    return { run_s, at_utc: new Date(this.tie.origin_ms + run_s * 1000).toISOString(), boot_s: this.steady(), boot_id: this.boot };
  }
}
