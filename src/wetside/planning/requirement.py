"""What one sheet needs in one vessel: its time, its window, how far any other time would be off, and why."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from wetside.chemistry import developer_weight
from wetside.development import density_range_change_assumed, require_same_way, time_factor_assumed
from wetside.errors import RefusedError
from wetside.planning.basis import FamilyBasis, choose_basis, require_no_stain_unseen
from wetside.planning.contrast import WIDENING, normal_placing, range_line
from wetside.planning.documents.plan import Note, ReckoningStep
from wetside.planning.factors import move_time, temp_tonight_c
from wetside.planning.loads import RelativeDeviation
from wetside.planning.looks import apply_look
from wetside.planning.misexposure import audit_of_sheet
from wetside.planning.rescue import is_shortened, practice_notes, rescue_notes, rescue_of
from wetside.planning.resolved import NORMAL_AIM, tolerance_of
from wetside.planning.scene import scene_of_sheet
from wetside.planning.ways import free_time_s, way_of_load
from wetside.sensitometry import required_gradient
from wetside.values.dilution import STOCK
from wetside.values.evidence import Evidence, Source, moved_evidence, weakest_evidence
from wetside.values.window import Window

if TYPE_CHECKING:
    from collections.abc import Callable

    from wetside.planning.basis import TimeBasis
    from wetside.planning.documents.evening import Evening, Vessel
    from wetside.planning.library import Library
    from wetside.planning.looks import Judged
    from wetside.planning.misexposure import SheetAudit
    from wetside.planning.resolved import ResolvedSheet
    from wetside.planning.scene import Scene
    from wetside.sensitometry.rescue import RescueAdvice

OWN_TEST = Source("own", "own test")

WINDOW_SHARE = 1.1
"""Without a family a window runs from t/1.1 to 1.1 t: the half of a paper grade, ``assumed``. [1]"""

FACTOR_LIMITS = (0.4, 2.5)
"""Beyond these an assumed contraction or expansion is refused: no film was ever shown to follow it. Our choice."""

SAME_GRADIENT = 0.005
"""Two gradients nearer than this are one: half a unit of the last digit that sheets print. [1]"""


class Requirement(NamedTuple):
    """A sheet's need in a vessel.

    ``deviation``, ``density`` and ``guess`` take a load's time [s]: deviation is 1 at the window's edge; density is
    predicted range less aim (only with a family); guess the same by common practice (only without).
    ``agent_from_others`` marks a reference agent that nobody knows of this sheet, and that others of its bath lent it.
    """

    time_s: float
    window: Window
    deviation: Callable[[float], float]
    density: Callable[[float], float] | None
    guess: Callable[[float], float] | None
    evidence: Evidence
    steps: tuple[ReckoningStep, ...]
    notes: tuple[Note, ...]
    n: float | None
    gradient: float
    weight: float
    agent_ml_per_cm2: float | None
    audit: SheetAudit
    agent_from_others: bool = False


def requirement_of(
    resolved: ResolvedSheet,
    vessel: Vessel,
    evening: Evening,
    library: Library,
    families: dict[tuple[str, int], FamilyBasis],
    judged: Judged | None = None,
) -> Requirement:
    """Work out what a sheet needs in a vessel.

    Raises
    ------
    WetsideError
        If the evidence does not carry a plan for this sheet; the others are not touched by it.
    """
    aim = resolved.aim or NORMAL_AIM
    scene = scene_of_sheet(resolved.sheet)
    gradient = required_gradient(aim.density_range, scene.log_range, evening.flare_log)
    audit = audit_of_sheet(resolved, evening, library, gradient)
    free_s = free_time_s(resolved.process)
    if free_s is not None:
        return _by_two_baths(resolved, free_s, scene, audit, gradient)
    basis = choose_basis(resolved, vessel, library, families, aim.channel.value)
    if isinstance(basis, FamilyBasis):
        require_no_stain_unseen(resolved, aim)
    require_same_way(basis.way, resolved.process.way)
    work_out = _by_family if isinstance(basis, FamilyBasis) else _by_time
    need = work_out(resolved, vessel, evening, library, basis, scene, audit, gradient, judged)  # type: ignore[arg-type]
    # What the way asks of film and vessel is asked here, where a refusal sets aside one sheet and not the evening.
    way_of_load(
        resolved.process,
        [resolved.film],
        resolved.size.area_cm2 if resolved.size else 0.0,
        need.time_s,
        vessel.max_ml,
        vessel,
        temp_tonight_c(evening, resolved.process),
        resolved.process.dilution or STOCK,
    )
    return need


def _no_deviation(_time_s: float) -> float:
    """In two baths time is nearly free: no sheet is better or worse for it."""
    return 0.0


def _by_two_baths(
    resolved: ResolvedSheet, time_s: float, scene: Scene, audit: SheetAudit, gradient: float
) -> Requirement:
    """Bath A soaks and bath B acts: both times stand in the process, and any scene may share the load."""
    step = ReckoningStep(
        "planning.two_baths",
        {"process": resolved.process.name},
        time_s,
        "s",
        None,
        Evidence.ASSUMED,
        Source("own", "times of your process"),
    )
    notes = (Note("planning.two_baths_free"),) if scene.n else ()
    return Requirement(
        time_s,
        Window(time_s, time_s),
        _no_deviation,
        None,
        None,
        Evidence.ASSUMED,
        (*scene.steps, *audit.steps, step),
        (*notes, *audit.notes),
        scene.n,
        gradient,
        developer_weight(audit.stop_error),
        None,
        audit,
    )


def _by_family(
    resolved: ResolvedSheet,
    vessel: Vessel,
    evening: Evening,
    library: Library,
    basis: FamilyBasis,
    scene: Scene,
    audit: SheetAudit,
    gradient: float,
    judged: Judged | None,
) -> Requirement:
    aim, family = resolved.aim or NORMAL_AIM, basis.family
    tolerance = tolerance_of(aim)
    film_range = scene.log_range - evening.flare_log
    normal_range = scene.normal_log_range - evening.flare_log
    low = normal_placing(family, aim.density_range, normal_range)
    line = range_line(family, low, film_range)
    start_s = line.time_for(aim.density_range)
    target = aim.density_range
    notes = list(basis.notes)
    evidence = family.evidence
    if not line.inside(start_s, WIDENING):
        raise RefusedError(
            "planning.beyond_tested",
            time_s=start_s,
            low_s=line.times_s[0],
            high_s=line.times_s[-1],
            range_low=line.ranges[0],
            range_high=line.ranges[-1],
            wanted=aim.density_range,
        )
    if not line.inside(start_s):
        evidence = weakest_evidence(evidence, Evidence.ASSUMED)
        notes.append(Note("planning.widened", {"low_s": line.times_s[0], "high_s": line.times_s[-1]}))
    advice = rescue_of(resolved, family, low, film_range, start_s, audit) if line.inside(start_s) else None
    shortened: tuple[ReckoningStep, ...] = ()
    normal_s = start_s
    if advice is not None and is_shortened(advice):
        start_s, target = advice.dev_s, line.range_at(advice.dev_s)
        shortened = (_shortened(advice, normal_s, target - aim.density_range),)
    moved = move_time(
        start_s,
        family.conditions,
        family.source or OWN_TEST,
        resolved.process,
        vessel,
        evening,
        resolved.developer,
        library,
    )
    look_factor, look_steps, look_notes = apply_look(
        judged, resolved, start_s * moved.factor, lambda ratio: line.time_for(target / ratio) / start_s
    )
    factor = moved.factor * look_factor
    ends = (line.times_s[0] * (1 - WIDENING), line.times_s[-1] * (1 + WIDENING))
    edges = (line.time_for(target - tolerance), line.time_for(target + tolerance))
    window = Window(max(edges[0], ends[0]) * factor, min(edges[1], ends[1]) * factor)
    if edges[0] < ends[0] or edges[1] > ends[1]:
        notes.append(Note("planning.window_cut", {"low_s": window.low_s, "high_s": window.high_s}))

    def density(time_s: float) -> float:
        return line.range_at(time_s / factor) - aim.density_range

    def deviation(time_s: float) -> float:
        return abs(line.range_at(time_s / factor) - target) / tolerance

    first = ReckoningStep(
        "planning.family",
        {
            "film": family.film,
            "tests": len(line.times_s),
            "range": aim.density_range,
            "gradient": gradient,
            "log_range": film_range,
            "tolerance": tolerance,
        },
        normal_s,
        "s",
        None,
        evidence,
        family.source,
    )
    changes = (*moved.steps, *look_steps)
    steps = (*scene.steps, *audit.steps, first, *shortened, *_with_effects(changes, line.range_at, start_s))
    conditions = family.conditions
    return Requirement(
        start_s * factor,
        window,
        deviation,
        density,
        None,
        moved_evidence(evidence, *(step.evidence for step in changes)),
        steps,
        (*notes, *moved.notes, *look_notes, *audit.notes, *rescue_notes(advice)),
        scene.n,
        gradient,
        developer_weight(audit.stop_error),
        conditions.agent_ml_per_cm2,
        audit,
    )


def _shortened(advice: RescueAdvice, normal_s: float, effect: float) -> ReckoningStep:
    """The step from the normal time to the one that keeps a dense sheet's highlight under its limit."""
    return ReckoningStep(
        "planning.rescue_shortened",
        {"normal_s": normal_s},
        advice.dev_s,
        "s",
        advice.dev_s / normal_s,
        advice.evidence,
        Source("own", "your test, and a limit"),
        None,
        effect,
    )


def _with_effects(
    steps: tuple[ReckoningStep, ...], range_at: Callable[[float], float], start_s: float
) -> tuple[ReckoningStep, ...]:
    """The same lines with what each factor would change in density if it were left out."""
    told = []
    for step in steps:
        effect = None if step.factor is None else range_at(start_s) - range_at(start_s / step.factor)
        told.append(
            ReckoningStep(
                step.code,
                step.params,
                step.value,
                step.unit,
                step.factor,
                step.evidence,
                step.source,
                step.spread,
                effect,
            )
        )
    return tuple(told)


def _by_time(
    resolved: ResolvedSheet,
    vessel: Vessel,
    evening: Evening,
    library: Library,
    basis: TimeBasis,
    scene: Scene,
    audit: SheetAudit,
    gradient: float,
    judged: Judged | None,
) -> Requirement:
    aim = resolved.aim or NORMAL_AIM
    target = aim.density_range
    start_s = math.sqrt(basis.low_s * basis.high_s)
    notes = list(basis.notes)
    code = "planning.time" if basis.low_s == basis.high_s else "planning.time_span"
    first = ReckoningStep(
        code,
        {
            "developer": basis.conditions.developer,
            "dilution": basis.conditions.dilution,
            "low_s": basis.low_s,
            "high_s": basis.high_s,
            "agitation": basis.conditions.agitation.value,
            "temp_c": basis.conditions.temp_c,
        },
        start_s,
        "s",
        None,
        basis.evidence,
        basis.source,
        None if basis.low_s == basis.high_s else (basis.high_s - basis.low_s) / 2,
    )
    moved = move_time(
        start_s, basis.conditions, basis.source, resolved.process, vessel, evening, resolved.developer, library
    )
    value = start_s * moved.factor
    steps = [
        *scene.steps,
        *audit.steps,
        first,
        *_with_effects(moved.steps, lambda time_s: density_range_change_assumed(target, time_s / start_s), start_s),
    ]
    contrast = _contrast_step(resolved, basis, scene, gradient, value, evening, target)
    if isinstance(contrast, ReckoningStep):
        steps.append(contrast)
        value = contrast.value
    elif contrast is not None:
        notes.append(contrast)
    look_factor, look_steps, look_notes = apply_look(
        judged, resolved, value, lambda ratio: time_factor_assumed(1.0, ratio)
    )
    value *= look_factor
    steps.extend(
        _with_effects(look_steps, lambda time_s: density_range_change_assumed(target, time_s / start_s), start_s)
    )
    factors = [step.evidence for step in (*moved.steps, *look_steps)]
    if isinstance(contrast, ReckoningStep):
        factors.append(contrast.evidence)
    target_s = value

    def guess(time_s: float) -> float:
        return density_range_change_assumed(target, time_s / target_s)

    return Requirement(
        value,
        Window(value / WINDOW_SHARE, value * WINDOW_SHARE),
        RelativeDeviation(value, WINDOW_SHARE),
        None,
        guess,
        moved_evidence(basis.evidence, *factors),
        tuple(steps),
        (*notes, *moved.notes, *look_notes, *audit.notes, *practice_notes(audit)),
        scene.n,
        gradient,
        developer_weight(audit.stop_error),
        basis.conditions.agent_ml_per_cm2,
        audit,
    )


def _contrast_step(
    resolved: ResolvedSheet,
    basis: TimeBasis,
    scene: Scene,
    gradient: float,
    value: float,
    evening: Evening,
    target: float,
) -> ReckoningStep | Note | None:
    """The step from the gradient that the time aims at to the one that the sheet needs.

    A time that states no gradient is taken to give a normal negative for the middle grade. Where neither an aim nor a
    scene was declared the time stands as it is, and a difference is only told.
    """
    normal = required_gradient(NORMAL_AIM.density_range, scene.normal_log_range, evening.flare_log)
    stated = basis.conditions.gradient
    have = stated if stated is not None else normal
    if abs(gradient - have) < SAME_GRADIENT:
        return None
    factor = time_factor_assumed(gradient, have)
    params = {
        "wanted": gradient,
        "have": have,
        "stated": stated is not None,
        "n": scene.n or 0.0,
        "percent": (factor - 1.0) * 100.0,
    }
    if resolved.aim is None and not scene.declared:
        return Note("planning.other_gradient", params)
    if not FACTOR_LIMITS[0] <= factor <= FACTOR_LIMITS[1]:
        raise RefusedError("planning.too_far", wanted=gradient, have=have, factor=factor)
    return ReckoningStep(
        "planning.contrast",
        params,
        value * factor,
        "s",
        factor,
        Evidence.ASSUMED,
        Source("common-practice", "elasticity of contrast 0.65"),
        None,
        target - target / (gradient / have),
    )
