"""What is spent and what is near its end: by film against capacity, by clearing time, by keeping, by its date.

Nothing is judged that was not said: where the capacity is unknown it is assumed and marked so, where no sheet was read
the answer is to read the label.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.cards.count import counted
from wetside.chemistry.clearing import SAME_TEMPERATURE_C, ClearingTest, judge_fixer
from wetside.chemistry.fixer import FilmFixed, fixer_capacity, fixer_share
from wetside.chemistry.keeping import keeping_of
from wetside.errors import AmbiguousError
from wetside.services.records.ledger_fold import film_passed, since_emptied
from wetside.values.evidence import Evidence, Source, Sourced, weakest_evidence
from wetside.values.names import name_key
from wetside.values.sheet_size import UNIT_AREA_CM2

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable, Sequence

    from wetside.chemistry.fixer import BathCapacity
    from wetside.chemistry.keeping import KeepingRow
    from wetside.records.models import Bottle
    from wetside.services.records.ledger_fold import Booked

NEAR_SHARE = 0.8
"""Share of a capacity from which a bath is near its end: a load is left. Our choice. [1]"""
NEAR_DAYS = 14
"""Days before its last good day from which a bottle is near it. Our choice. [d]"""
HALF_FULL = 0.75
"""Below this share of what was filled in, a bottle counts as half full: it has air over it. Our choice. [1]"""
STOP_UNITS_PER_LITRE = 15.0
"""Film to a litre of stop bath whose maker gives no figure. [1/l]"""

SPENT, NEAR, GOOD, UNSURE = "spent", "near", "good", "unsure"
_RANK = {SPENT: 0, NEAR: 1, UNSURE: 2, GOOD: 3}
WASTE = "waste-"


class Line(NamedTuple):
    """One line of the reckoning: its state, a code with parameters to say, evidence and source.

    ``share`` of the way to the end, None where there is none. [1]
    """

    state: str
    code: str
    params: dict[str, Any]
    evidence: Evidence
    source: Source | None = None
    share: float | None = None


class Judged(NamedTuple):
    """State of a bottle, and the lines behind it, the one that decides in front."""

    state: str
    lines: tuple[Line, ...]

    @property
    def share(self) -> float | None:
        """Largest share of the way to an end. [1]"""
        return max((line.share for line in self.lines if line.share is not None), default=None)


class Tables(NamedTuple):
    """What makers and handbooks say of capacities and of keeping."""

    capacities: tuple[BathCapacity, ...]
    keeping: tuple[KeepingRow, ...]


def judge(bottle: Bottle, ledger: Sequence[Booked], tables: Tables, today: dt.date) -> Judged:
    """Judge a bottle.

    Parameters
    ----------
    bottle : Bottle
    ledger : sequence of Booked
        All its lines.
    tables : Tables
    today : date
        Day for which it is judged.
    """
    if bottle.role.startswith(WASTE):
        return Judged(GOOD, ())
    found = [
        line
        for line in (
            *_by_area(bottle, ledger, tables.capacities),
            _by_clearing(bottle, ledger) if bottle.role == "fixer" else None,
            _by_date(bottle, today),
            _by_keeping(bottle, ledger, tables.keeping, today),
        )
        if line is not None
    ]
    found.sort(key=lambda line: (_RANK[line.state], -(line.share or 0.0)))
    states = {line.state for line in found}
    state = next((one for one in (SPENT, NEAR) if one in states), GOOD)
    return Judged(state, tuple(found))


def state_of_share(share: float) -> str:
    """Whether a share [1] of a capacity is its end, near it, or well before it."""
    return SPENT if share >= 1.0 - 1e-9 else NEAR if share >= NEAR_SHARE else GOOD


def capacity_of(bottle: Bottle, rows: Iterable[BathCapacity]) -> Sourced | None:
    """Film to a litre of a bottle: its own figure, the maker's, or the usual one; None where none is to be had. [1/l]

    Parameters
    ----------
    bottle : Bottle
    rows : iterable of BathCapacity

    Raises
    ------
    AmbiguousError
        If its product has several figures and its dilution does not tell them apart.
    """
    own = bottle.facts.get("capacity")
    if own is not None:
        return Sourced(float(own), Evidence.PUBLISHED, Source("own", "its label, as you entered it"))
    if bottle.role == "fixer":
        fixers = [row for row in rows if row.bath == "fix"]
        return fixer_capacity(bottle.product or None, fixers, bottle.dilution or None)
    if bottle.role == "stop":
        wanted = name_key(bottle.product)
        for row in rows:
            if row.bath == "stop" and wanted and name_key(row.product) == wanted:
                return Sourced(row.units_per_litre, Evidence.PUBLISHED, row.source)
        return Sourced(STOP_UNITS_PER_LITRE, Evidence.ASSUMED, Source("common-practice", "usual stop bath"))
    return None


def _by_area(bottle: Bottle, ledger: Sequence[Booked], rows: Iterable[BathCapacity]) -> Iterable[Line]:
    """Film that went through beside the capacity, each piece against the liquid that took it."""
    unknown = unknown_film(ledger)
    if unknown:
        yield Line(UNSURE, "services.judged.film_unknown", {"runs": counted("run", unknown)}, Evidence.ASSUMED)
    passed = [film for film in film_passed(ledger) if film.units]
    units = sum(film.units for film in passed)
    if not passed:
        return
    try:
        capacity = capacity_of(bottle, rows)
    except AmbiguousError as error:
        yield Line(UNSURE, error.code, dict(error.params), Evidence.ASSUMED)
        return
    if capacity is None:
        yield Line(UNSURE, "services.judged.no_capacity", {"units": units}, Evidence.TESTED)
        return
    share = 0.0
    for film in passed:
        if film.volume_ml is None:
            yield Line(UNSURE, "services.judged.no_volume", {"units": units}, Evidence.TESTED)
            return
        one = FilmFixed(film.units * UNIT_AREA_CM2, tabular=film.film_class == "tabular" and bottle.role == "fixer")
        share += fixer_share((one,), film.volume_ml, capacity.value)
    tabular = sum(film.units for film in passed if film.film_class == "tabular") if bottle.role == "fixer" else 0.0
    params = {"units": units, "tabular": tabular, "share": share, "per_l": capacity.value}
    code = "services.judged.area_tabular" if tabular else "services.judged.area"
    evidence = weakest_evidence(capacity.evidence, Evidence.ASSUMED) if tabular else capacity.evidence
    yield Line(state_of_share(share), code, params, evidence, capacity.source, share)


def unknown_film(ledger: Sequence[Booked]) -> int:
    """How often since a bottle was last emptied film went through of which nobody knows how much it was."""
    return sum(line.kind == "film" and not line.area_units for line in since_emptied(ledger))


class Seen(NamedTuple):
    """Film of a class that a bottle has seen since it was filled. [units of 516 cm2]"""

    film_class: str
    units: float


def seen_by_class(ledger: Sequence[Booked]) -> tuple[Seen, ...]:
    """Film since a bottle was last emptied, by its class."""
    found: dict[str, float] = {}
    for line in since_emptied(ledger):
        if line.kind == "film" and line.area_units:
            word = line.film_class or "ordinary"
            found[word] = found.get(word, 0.0) + line.area_units
    return tuple(Seen(word, units) for word, units in sorted(found.items()))


def clearing_tests(ledger: Sequence[Booked]) -> list[Booked]:
    """Clearing tests since the bottle was last emptied, in order."""
    return [line for line in since_emptied(ledger) if line.kind == "clearing"]


def fresh_beside(lines: Sequence[Booked]) -> tuple[Booked | None, Booked | None]:
    """Newest clearing test of a bath in use, and the fresh one that it can be held against; None where there is none.

    Parameters
    ----------
    lines : sequence of Booked
        That count since the bottle was last emptied.
    """
    tests = [line for line in lines if line.kind == "clearing"]
    now = next((test for test in reversed(tests) if not test.fresh), None)
    if now is None:
        return None, None
    alike = [
        test
        for test in tests
        if test.fresh
        and name_key(test.film) == name_key(now.film)
        and abs((test.temp_c or 0.0) - (now.temp_c or 0.0)) <= SAME_TEMPERATURE_C + 1e-9
    ]
    return now, alike[-1] if alike else None


def _by_clearing(bottle: Bottle, ledger: Sequence[Booked]) -> Line | None:
    """The newest test beside a fresh one with the same film at the same temperature; no other says anything of it."""
    lines = since_emptied(ledger)
    now, fresh = fresh_beside(lines)
    if now is None:
        if not clearing_tests(ledger) and any(line.kind == "film" for line in lines):
            return Line(UNSURE, "services.judged.no_clearing", {}, Evidence.ASSUMED)
        return None
    if fresh is None:
        params: dict[str, Any] = {"film": now.film, "temp_c": now.temp_c, "now_s": now.clearing_s}
        return Line(UNSURE, "services.judged.no_fresh_alike", params, Evidence.TESTED)
    dilution = bottle.dilution
    decision = judge_fixer(
        0.0,
        ClearingTest(fresh.clearing_s or 0.0, fresh.temp_c or 0.0, fresh.film, dilution),
        ClearingTest(now.clearing_s or 0.0, now.temp_c or 0.0, now.film, dilution),
        tabular=now.film_class == "tabular",
        longest_s=None,
    )
    params = {
        "now_s": now.clearing_s,
        "fresh_s": fresh.clearing_s,
        "limit_s": 2.0 * (fresh.clearing_s or 0.0),
        "film": now.film,
        "temp_c": now.temp_c,
        "fix_s": decision.fix_time_s,
    }
    share = max(0.0, decision.clearing_share or 0.0)
    state = SPENT if decision.action == "change" else NEAR if share >= NEAR_SHARE else GOOD
    source = Source("ilford-rapid-fixer-2002", "p. 4, twice the fresh time")
    # A bath that is spent is not told how long to fix in it.
    code = "services.judged.clearing_over" if state == SPENT else "services.judged.clearing"
    return Line(state, code, params, Evidence.TESTED, source, share)


def _state_of_days(days: int) -> str:
    return SPENT if days < 0 else NEAR if days <= NEAR_DAYS else GOOD


def _by_date(bottle: Bottle, today: dt.date) -> Line | None:
    until = bottle.keeps_until
    if until is None:
        return None
    days = (until - today).days
    code = "services.judged.date_over" if days < 0 else "services.judged.date"
    own = Source("own", "the date on its label")
    return Line(_state_of_days(days), code, {"until": until.isoformat(), "days": abs(days)}, Evidence.PUBLISHED, own)


def _by_keeping(bottle: Bottle, ledger: Sequence[Booked], rows: Iterable[KeepingRow], today: dt.date) -> Line | None:
    """How long its maker, or a handbook, says that it keeps like this."""
    made = bottle.opened or bottle.mixed
    if bottle.opened is not None and bottle.mixed is not None and bottle.form != "concentrate":
        made = bottle.mixed
    if made is None or not bottle.form or bottle.role not in ("developer", "fixer", "stop"):
        return None
    if made > today:
        params: dict[str, Any] = {"made": made.isoformat()}
        return Line(UNSURE, "services.judged.later", params, Evidence.ASSUMED)
    filled = sum(line.change_ml for line in since_emptied(ledger) if line.kind == "filled")
    half = bottle.left_ml is not None and filled > 0 and bottle.left_ml < HALF_FULL * filled
    fill = "half" if half else "opened" if bottle.form == "concentrate" and bottle.opened else "full"
    keeping = keeping_of(
        rows,
        made,
        today,
        form=bottle.form,
        product=bottle.product,
        kind=bottle.role,
        fill=fill,
        lid="closed",
    )
    if keeping.row is None:
        # A date of its own is what it is told to be read from.
        name = bottle.product or bottle.holds
        return (
            None if bottle.keeps_until else Line(UNSURE, "services.judged.read_label", {"name": name}, Evidence.ASSUMED)
        )
    if keeping.until is None or keeping.days_left is None:
        return Line(GOOD, "services.judged.no_limit", {}, Evidence.PUBLISHED, keeping.row.source)
    params = {"until": keeping.until.isoformat(), "days": abs(keeping.days_left), "fill": _FILLS[fill]}
    code = "services.judged.kept_over" if keeping.days_left < 0 else "services.judged.kept"
    hours = keeping.row.unit == "hours"
    state = _state_of_days(keeping.days_left) if not hours else SPENT if keeping.days_left < 0 else GOOD
    return Line(state, code, params, Evidence.PUBLISHED, keeping.row.source)


_FILLS = {"full": "nearly full", "half": "half full", "opened": "opened"}
