"""What is weakest in the evidence of a film in one developer, and what would help most: worked out, never canned.

The planner's own rules are asked: which row it would start from, what moves that row to the evening's conditions, which
ranges the tested times reach. Each answer that is weak becomes a finding with the act that would mend it.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.chemistry import parse_dilution
from wetside.development import temperature_factor
from wetside.development.coefficient import GENERAL_COEFFICIENT
from wetside.errors import ManyErrors, OutOfRangeError, WetsideError
from wetside.planning.basis import FamilyBasis, TimeBasis, choose_basis, require_no_stain_unseen
from wetside.planning.contrast import WIDENING, normal_placing, range_line
from wetside.planning.documents.evening import EVENING_FORMAT, Evening, Process, Sheet
from wetside.planning.factors import coefficient_of, move_time
from wetside.planning.resolved import ANY_VESSEL, NORMAL_AIM, ResolvedSheet
from wetside.planning.ways import agitation_of
from wetside.sensitometry.aims import log_range_of_n
from wetside.sensitometry.channels import channels_of_printing
from wetside.values.dilution import STOCK
from wetside.values.evidence import Evidence, Source, moved_evidence
from wetside.values.names import name_key, plain_name

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from wetside.planning.documents.evening import Aim, Developer, Film, FilmTest, Vessel
    from wetside.planning.library import Library
    from wetside.values.family import ContrastFamily

EVENING = Evening(format=EVENING_FORMAT)
"""An evening of defaults: flare, floor, a true thermometer."""

STEP_S = 15.0
"""Times for a tablet are advised in quarters of a minute. Our choice. [s]"""
SHORTER, LONGER = 0.8, 1.2
"""Where two tablets go, as shares of the time that they shall bracket: about N-1 and N+1. Our choice. [1]"""
WIDE_SPAN = 1.1
"""A printed range wider than this, longest over shortest, is more than the window of a sheet. [1]"""
DISAGREE = 0.01
"""Sources of a coefficient that lie further apart disagree: 4 % of time over four degrees. Our choice. [1/C]"""
PAIR_STEP_C = 4.0
"""Between the two temperatures of an advised pair: what most published pairs have. [C]"""
_OWN = Source("own", "own test")
TRIED_N = (0.0, -1.0, 1.0)
"""Developments that a family should reach for each aim, the normal one first."""


class Advice(NamedTuple):
    """An act that would mend a finding, as a code with parameters."""

    code: str
    params: Mapping[str, Any]


class Finding(NamedTuple):
    """A weak point, as a code with parameters; ``weight`` ranks it, 100 keeps a plan from being made. [1]"""

    code: str
    params: Mapping[str, Any]
    advice: Advice | None = None
    weight: int = 0


class Known(NamedTuple):
    """A film with what else bears on it; ``vessel`` None where none is kept."""

    film: Film
    library: Library
    developers: Mapping[str, Developer]
    processes: tuple[Process, ...]
    aims: tuple[Aim, ...]
    vessel: Vessel | None

    def uses(self, developer: str, dilution: str) -> bool:
        """Whether a process of the darkroom is in that developer and dilution."""
        return any(
            name_key(process.developer) == name_key(developer) and (process.dilution or STOCK).text == dilution
            for process in self.processes
        )


class _Ground(NamedTuple):
    """What findings stand on: the process that a plan would use, its vessel and developer."""

    known: Known
    process: Process
    vessel: Vessel
    developer: Developer | None
    named: bool


def findings_of(
    known: Known, developer: str, dilution: str, tests: tuple[tuple[FilmTest, FamilyBasis | None], ...]
) -> tuple[tuple[Finding, ...], Evidence | None]:
    """Weak points of a film in a developer, the weightiest first, and what a plan would rest on.

    Parameters
    ----------
    known : Known
    developer, dilution : str
    tests : tuple
        Own tests with their families; None where the readings make none.

    Returns
    -------
    findings : tuple of Finding
    evidence : Evidence or None
        None where nothing could be planned.
    """
    ground = _ground(known, developer, dilution)
    basis: TimeBasis | FamilyBasis | None = None
    found: list[Finding] = []
    for channel in _channels(known):
        try:
            chosen = choose_basis(_resolved(ground), ground.vessel, known.library, {}, channel)
            basis = basis or chosen
        except WetsideError as error:
            found.append(_other_index(ground) or _refused(error, tests, channel))
    if basis is not None:
        # Another light keeps one aim from being planned, not the film.
        found = [one._replace(weight=48) if one.code == "planning.other_channel" else one for one in found]
    evidence = None
    if basis is not None:
        evidence, more = _of_basis(basis, ground)
        found += more
        found += _of_family(basis, ground, tests) if isinstance(basis, FamilyBasis) else _of_time(basis, ground)
    found += _of_coefficient(ground, basis)
    unique = {(finding.code, str(sorted(finding.params.items(), key=str))): finding for finding in found}
    return tuple(sorted(unique.values(), key=lambda finding: -finding.weight)), evidence


def _ground(known: Known, developer: str, dilution: str) -> _Ground:
    wanted = None if dilution == STOCK.text else parse_dilution(dilution)
    text = (wanted or STOCK).text
    for process in known.processes:
        if plain_name(process.developer) == plain_name(developer) and (process.dilution or STOCK).text == text:
            break
    else:
        process = Process(name="", developer=developer, dilution=wanted)
    return _Ground(
        known,
        process,
        known.vessel or ANY_VESSEL,
        known.developers.get(plain_name(developer)),
        bool(process.name),
    )


def _channels(known: Known) -> list[str]:
    return list(dict.fromkeys(aim.channel.value for aim in known.aims)) or [NORMAL_AIM.channel.value]


def _resolved(ground: _Ground) -> ResolvedSheet:
    sheet = Sheet(film=ground.known.film.name, label="evidence")
    return ResolvedSheet(sheet, ground.known.film, ground.process, ground.developer, None, None)


def _other_index(ground: _Ground) -> Finding | None:
    """Published rows there are, but for other indexes than the film's; None where that is not what is wrong."""
    film, text, developer = ground.known.film, (ground.process.dilution or STOCK).text, ground.process.developer
    own = [row.developer for row in film.times] + [row.developer for row in film.tests]
    if film.ei is None or name_key(developer) in map(name_key, own):
        return None
    indexes = sorted(
        {
            point.ei
            for point in ground.known.library.points
            if name_key(point.film) == name_key(film.published or film.name)
            and name_key(point.developer) == name_key(developer)
            and point.dilution.text == text
            and point.ei is not None
        }
    )
    if not indexes or film.ei in indexes:
        return None
    params = {"ei": film.ei, "indexes": [f"{ei:g}" for ei in indexes]}
    return Finding("services.evidence.other_index", params, None, 100)


def _refused(error: WetsideError, tests: tuple[tuple[FilmTest, FamilyBasis | None], ...], channel: str) -> Finding:
    """Why no plan can start here."""
    one = error.errors[0] if isinstance(error, ManyErrors) else error
    if one.code == "values.family.too_few":
        minutes = next(test.rows[0][0] for test, family in tests if family is None and test.rows)
        time_s = minutes * 60.0
        other_s = _quarter(time_s * 1.4)
        return Finding(
            "services.evidence.one_time",
            {"time_s": time_s},
            Advice("services.evidence.one_more_tablet", {"time_s": other_s, "first_s": time_s}),
            100,
        )
    if one.code == "planning.other_channel":
        return Finding(one.code, one.params, Advice("services.evidence.read_again", {"channel": channel}), 95)
    return Finding(one.code, one.params, None, 100)


def _of_basis(basis: TimeBasis | FamilyBasis, ground: _Ground) -> tuple[Evidence | None, list[Finding]]:
    """What moves the basis to the process: each step that weakens it, or what forbids it."""
    time_s, conditions, start = _start(basis)
    source = basis.source if isinstance(basis, TimeBasis) else basis.family.source
    try:
        moved = move_time(
            time_s,
            conditions,
            source or _OWN,
            ground.process,
            ground.vessel,
            EVENING,
            ground.developer,
            ground.known.library,
        )
    except WetsideError as error:
        advice = _pair_advice(ground, time_s) if "temp" in error.code or "coefficient" in error.code else None
        return None, [Finding(error.code, error.params, advice, 90)]
    found = []
    for step in moved.steps:
        weight = 58 if step.evidence is Evidence.ASSUMED else 45
        percent = 0.0 if step.factor is None else (step.factor - 1.0) * 100.0
        if step.code.startswith("planning.agitation"):
            params = {"from_class": conditions.agitation.value, "to_class": _to_class(ground), "percent": percent}
            advice = Advice(
                "services.evidence.tablet_in_vessel",
                {"time_s": _quarter(time_s * moved.factor), "kind": _to_class(ground)},
            )
            if step.code == "planning.agitation_presoak":
                params["spread"] = 100.0 * (step.spread or 0.0)
                found.append(Finding("services.evidence.moved_presoak", params, advice, weight))
            else:
                found.append(Finding("services.evidence.moved_agitation", params, advice, weight))
        elif step.code == "planning.temperature" and abs(percent) >= 1.0:
            params = {"from_c": conditions.temp_c, "to_c": ground.process.temp_c, "percent": percent}
            found.append(
                Finding("services.evidence.moved_temperature", params, _pair_advice(ground, time_s), weight - 5)
            )
    return moved_evidence(start, *(step.evidence for step in moved.steps)), found


def _start(basis: TimeBasis | FamilyBasis) -> tuple[float, Any, Evidence]:
    """Time in the middle of a basis [s], its conditions and evidence."""
    if isinstance(basis, TimeBasis):
        return math.sqrt(basis.low_s * basis.high_s), basis.conditions, basis.evidence
    low_s, high_s = basis.family.span_s
    return math.sqrt(low_s * high_s), basis.family.conditions, basis.family.evidence


def _of_time(basis: TimeBasis, ground: _Ground) -> Iterator[Finding]:
    """A time alone: how contrast moves with it is common practice."""
    time_s, conditions, evidence = _start(basis)
    middle_s = time_s
    try:
        middle_s *= move_time(
            time_s,
            conditions,
            basis.source,
            ground.process,
            ground.vessel,
            EVENING,
            ground.developer,
            ground.known.library,
        ).factor
    except WetsideError:
        middle_s = time_s
    shorter_s = max(EVENING.floor_s, middle_s * SHORTER)
    short_s = _quarter(shorter_s)
    long_s = _quarter(max(middle_s * LONGER, shorter_s * LONGER / SHORTER))
    advice = Advice(
        "services.evidence.two_tablets",
        {
            "short_s": short_s,
            "long_s": long_s,
            "developer": ground.process.developer,
            "dilution": (ground.process.dilution or STOCK).text,
            "temp_c": ground.process.temp_c,
        },
    )
    code = "services.evidence.bare_time" if evidence is Evidence.ASSUMED else "services.evidence.no_test"
    yield Finding(code, {"time_s": time_s}, advice, 80 if evidence is Evidence.ASSUMED else 60)
    if basis.high_s > basis.low_s * WIDE_SPAN:
        params = {"low_s": basis.low_s, "high_s": basis.high_s}
        yield Finding("services.evidence.wide_span", params, advice, 50)
    if conditions.gradient is None:
        yield Finding(
            "services.evidence.no_gradient",
            {},
            Advice("services.evidence.one_tablet", {"time_s": _quarter(time_s)}),
            42,
        )
    if conditions.agent_ml_per_cm2 is None:
        yield Finding("services.evidence.no_reference", {}, Advice("services.evidence.note_agent", {}), 40)


def _of_family(
    basis: FamilyBasis, ground: _Ground, tests: tuple[tuple[FilmTest, FamilyBasis | None], ...]
) -> Iterator[Finding]:
    family = basis.family
    for test, own in tests:
        if own is not None and test.base_fog is None:
            lowest = min(density for _, _, density in test.rows)
            yield Finding(
                "services.evidence.no_base_fog",
                {"density": lowest},
                Advice("services.evidence.unexposed_strip", {}),
                30,
            )
    if family.conditions.agent_ml_per_cm2 is None:
        yield Finding("services.evidence.no_reference", {}, Advice("services.evidence.note_agent", {}), 40)
    for aim in ground.known.aims or (NORMAL_AIM,):
        try:
            require_no_stain_unseen(_resolved(ground), aim)
        except WetsideError as error:
            wanted = channels_of_printing(aim.printing.value)[0]
            yield Finding(error.code, error.params, Advice("services.evidence.read_again", {"channel": wanted}), 92)
        if aim.channel.value == family.channel:
            yield from _reach(family, aim)


def _reach(family: ContrastFamily, aim: Aim) -> Iterator[Finding]:
    """The first development that the tested times do not reach for an aim."""
    low_s, high_s = family.span_s
    for n in TRIED_N:
        try:
            normal = log_range_of_n(0.0) - EVENING.flare_log
            low = normal_placing(family, aim.density_range, normal)
            line = range_line(family, low, log_range_of_n(n) - EVENING.flare_log)
        except OutOfRangeError as error:
            beyond = error.params.get("log_h"), error.params.get("high")
            if error.code == "values.curve.beyond_log_h" and isinstance(beyond[0], float) and beyond[0] > beyond[1]:  # type: ignore[operator]
                missing = beyond[0] - float(str(beyond[1]))
                yield Finding(
                    "services.evidence.highlight_not_read",
                    {"aim": aim.name, "n": n, "missing": missing},
                    Advice("services.evidence.expose_tablet_longer", {"stops": missing / math.log10(2.0)}),
                    58 if n == 0 else 36,
                )
                return
            yield Finding(error.code, error.params, None, 58)
            return
        except WetsideError as error:
            yield Finding(error.code, error.params, None, 58)
            return
        wanted_s = line.time_for(aim.density_range)
        if line.inside(wanted_s, WIDENING):
            continue
        params = {"aim": aim.name, "n": n, "low_s": low_s, "high_s": high_s}
        further_s = min(max(wanted_s, 0.6 * low_s), 1.6 * high_s)
        if further_s < EVENING.floor_s:
            advice = Advice("services.evidence.weaker_dilution", {"time_s": further_s, "floor_s": EVENING.floor_s})
        else:
            advice = Advice("services.evidence.third_tablet", {"time_s": _quarter(further_s), "aim": aim.name, "n": n})
        yield Finding("services.evidence.aim_not_reached", params, advice, 56 if n == 0 else 35)
        return


def _of_coefficient(ground: _Ground, basis: TimeBasis | FamilyBasis | None) -> Iterator[Finding]:
    """How times move with temperature in this developer."""
    time_s = 420.0 if basis is None else _start(basis)[0]
    params: dict[str, Any] = {"developer": ground.process.developer}
    coefficient = coefficient_of(ground.process.developer, ground.developer, ground.known.library)
    if coefficient is None:
        yield Finding("services.evidence.no_coefficient", params, _pair_advice(ground, time_s), 38)
        return
    if coefficient.evidence is Evidence.ASSUMED:
        yield Finding("services.evidence.named_coefficient", params, _pair_advice(ground, time_s), 33)
    elif len(coefficient.by_source) > 1:
        low, high = (pick(value for _, value in coefficient.by_source) for pick in (min, max))
        if high - low > DISAGREE:
            params |= {"low": low * 100.0, "high": high * 100.0}
            yield Finding("services.evidence.coefficients_differ", params, _pair_advice(ground, time_s), 25)


def _pair_advice(ground: _Ground, time_s: float) -> Advice:
    """A pair of times to test, the warm one a guess by the general coefficient."""
    cold_c = ground.process.temp_c
    warm_c = cold_c + PAIR_STEP_C
    if warm_c > (GENERAL_COEFFICIENT.span_c or (0.0, 25.0))[1]:
        cold_c, warm_c = cold_c - PAIR_STEP_C, cold_c
    within = GENERAL_COEFFICIENT._replace(span_c=None)
    warm_s = time_s * temperature_factor(within, cold_c, warm_c)
    return Advice(
        "services.evidence.test_pair",
        {"cold_c": cold_c, "cold_s": _quarter(time_s), "warm_c": warm_c, "warm_s": _quarter(warm_s)},
    )


def _to_class(ground: _Ground) -> str:
    return agitation_of(ground.process, ground.vessel).value


def _quarter(time_s: float) -> float:
    """Nearest quarter of a minute, one at least. [s]"""
    return max(STEP_S, STEP_S * math.floor(time_s / STEP_S + 0.5))
