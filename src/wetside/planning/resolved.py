"""An evening file with every name looked up: what each sheet is, and in what it would be developed."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.planning.documents.evening import Aim, Bath, Film, Process, Vessel
from wetside.planning.documents.plan import Note, Unplanned
from wetside.planning.documents.words import AfterUse, BathKind, Printing, VesselKind
from wetside.values.conditions import Agitation, StopKind
from wetside.values.dilution import STOCK
from wetside.values.names import plain_name

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from wetside.planning.documents.evening import Bottle, Developer, Evening, FilmTest, FilmTime, Sheet
    from wetside.values.sheet_size import SheetSize

NORMAL_AIM = Aim(name="graded paper, middle grade", printing=Printing.GRADED, density_range=1.05)
"""Stands where no aim is declared: the middle grade's range of ISO 6846, ``assumed``."""

TOLERANCE = {Printing.GRADED: 0.08, Printing.VARIABLE: 0.15, Printing.SCANNER: 0.15, Printing.ALTERNATIVE: 0.10}
"""How far a density range may be off where the aim does not say; half a paper grade is 0.085. [density]"""

PLAIN_BATHS = (
    Bath(does=BathKind.DEVELOP),
    Bath(does=BathKind.STOP, time_s=30.0),
    Bath(does=BathKind.FIX, time_s=300.0, after=AfterUse.BACK),
    Bath(does=BathKind.WASH, time_s=120.0, changes=3),
    Bath(does=BathKind.WETTING, time_s=60.0, out_of_vessel=True),
)
"""A process of which only the developer is known; common practice, said so in the plan."""

AGITATION_OF_VESSEL = {
    VesselKind.DRUM: Agitation.ROTARY,
    VesselKind.TUBES: Agitation.ROTARY,
    VesselKind.TRAY: Agitation.TRAY,
    VesselKind.HANGERS: Agitation.INTERMITTENT,
}

ANY_VESSEL = Vessel(
    name="any vessel", kind=VesselKind.DRUM, places=(("any", 1_000_000),), min_ml=1.0, max_ml=1_000_000.0
)
"""Stands where the evening names no vessel: no limit is known, and the plan says so."""

ACID_WORDS = ("water", "rinse", "wash")


class ResolvedSheet(NamedTuple):
    """A sheet with what its names stand for; ``aim`` is the declared one or None."""

    sheet: Sheet
    film: Film
    process: Process
    developer: Developer | None
    aim: Aim | None
    size: SheetSize | None


class ResolvedEvening(NamedTuple):
    """All sheets that can be planned, those that are done, those that cannot be planned, and what was filled in."""

    sheets: tuple[ResolvedSheet, ...]
    done: tuple[ResolvedSheet, ...]
    unplanned: tuple[Unplanned, ...]
    vessels: tuple[Vessel, ...]
    notes: tuple[Note, ...]


def baths_of(process: Process) -> tuple[Bath, ...]:
    """Baths of a process; the plain set where the file lists none."""
    return process.baths or PLAIN_BATHS


def has_presoak(process: Process) -> bool:
    """Whether a pre-soak comes before the first developing bath."""
    for bath in baths_of(process):
        if bath.does is BathKind.DEVELOP:
            return False
        if bath.does is BathKind.PRESOAK:
            return True
    return False


def stop_of(process: Process) -> StopKind:
    """What ends development: the bath after the last developing one, acid only if it is a stop bath.

    A stop bath named after water or a rinse is taken as water.
    """
    baths = baths_of(process)
    last = max(index for index, bath in enumerate(baths) if bath.does is BathKind.DEVELOP)
    if last + 1 < len(baths) and baths[last + 1].does is BathKind.STOP:
        name = plain_name(baths[last + 1].name or "")
        return StopKind.WATER if any(word in name for word in ACID_WORDS) else StopKind.ACID
    return StopKind.WATER


def tolerance_of(aim: Aim) -> float:
    """Tolerance of an aim: its own, else the default of its printing. [density]"""
    return TOLERANCE[aim.printing] if aim.tolerance is None else aim.tolerance


def resolve_evening(evening: Evening) -> ResolvedEvening:
    """Look up every name of an evening whose file has passed its cross checks.

    A sheet that lacks what a plan needs is set aside with a code; the others are planned.
    """
    films = {plain_name(film.name): film for film in evening.films}
    processes = {plain_name(process.name): process for process in evening.processes}
    aims = {plain_name(aim.name): aim for aim in evening.aims}
    developers = {plain_name(developer.name): developer for developer in evening.developers}
    notes: list[Note] = []
    unplanned: list[Unplanned] = []
    sheets: list[ResolvedSheet] = []
    done: list[ResolvedSheet] = []
    looked = {plain_name(look.sheet) for look in evening.looks}
    only_film = evening.films[0] if len(evening.films) == 1 else None
    plain: dict[str, Process] = {}
    for sheet in evening.sheets:
        film = films.get(plain_name(sheet.film)) if sheet.film else only_film
        if film is None:
            film = Film(name=sheet.film, published=sheet.film)
        process = _process_of(sheet, film, evening, processes, plain)
        if process is None:
            unplanned.append(Unplanned(sheet.id, "planning.no_process", {"film": film.name}))
            continue
        size = sheet.size or evening.size
        aim_name = sheet.aim or evening.aim
        aim = aims.get(plain_name(aim_name)) if aim_name else (evening.aims[0] if len(evening.aims) == 1 else None)
        kept = done if sheet.done or plain_name(sheet.id) in looked else sheets
        kept.append(ResolvedSheet(sheet, film, process, developers.get(plain_name(process.developer)), aim, size))
    if plain or any(not process.baths for process in processes.values()):
        notes.append(Note("planning.plain_baths"))
    vessels = evening.vessels
    if not vessels:
        vessels = (ANY_VESSEL,)
        notes.append(Note("planning.no_vessel"))
    return ResolvedEvening(tuple(sheets), tuple(done), tuple(unplanned), vessels, tuple(notes))


def _process_of(
    sheet: Sheet, film: Film, evening: Evening, processes: dict[str, Process], plain: dict[str, Process]
) -> Process | None:
    """Process of a sheet: named, the evening's, the only one, or a plain one of the film's only developer."""
    name = sheet.process or evening.process
    if name:
        return processes.get(plain_name(name))
    if len(processes) == 1:
        return next(iter(processes.values()))
    if processes:
        return None
    rows: tuple[FilmTest | FilmTime, ...] = (*film.tests, *film.times)
    known = {plain_name(row.developer): row for row in rows}
    if len(known) != 1:
        return None
    (row,) = known.values()
    key = f"{plain_name(row.developer)} {row.dilution.text if row.dilution else 'stock'} {row.temp_c}"
    if key not in plain:
        plain[key] = Process(
            name=row.developer, developer=row.developer, dilution=row.dilution or STOCK, temp_c=row.temp_c
        )
    return plain[key]


SAID_ON_BOTTLES = {
    "fix": ("fixer", "fixing bath"),
    "stop": ("stop bath",),
    "wash-aid": ("wash aid",),
    "wetting": ("wetting agent",),
}
"""What people write on the bottle of a bath that has no name of its own. Common practice."""

SAID_AFTER_NAMES = ("concentrate", "stock", "stock solution")
"""What people write on a bottle behind the name of its liquid. Common practice."""


def bottle_of(bottles: Iterable[Bottle], mark: str | None, holds: str) -> Bottle | None:
    """Bottle with a mark, or else the first that holds the named liquid, also where its label says more of it."""
    bottles = tuple(bottles)
    if mark is not None:
        return next((bottle for bottle in bottles if plain_name(bottle.mark) == plain_name(mark)), None)
    for names in names_on_bottles(holds):
        for bottle in bottles:
            if plain_name(bottle.holds) in names:
                return bottle
    return None


def names_on_bottles(holds: str) -> tuple[frozenset[str], frozenset[str]]:
    """Plain names that a bottle of a liquid may bear: its own, and after it those with a word more.

    Examples
    --------
    >>> own, other = names_on_bottles("Brackwater")
    >>> sorted(own), sorted(other)
    (['brackwater'], ['brackwater concentrate', 'brackwater stock', 'brackwater stock solution'])
    """
    own = plain_name(holds)
    other = {plain_name(name) for name in SAID_ON_BOTTLES.get(holds, ())}
    other |= {f"{own} {word}" for word in SAID_AFTER_NAMES} if own else set()
    return frozenset({own}), frozenset(other)


def developing_shares(baths: Sequence[Bath]) -> dict[int, float]:
    """Share of the planned time that each developing bath without a time of its own takes, by index."""
    free = [index for index, bath in enumerate(baths) if bath.does is BathKind.DEVELOP and bath.time_s is None]
    stated = sum(baths[index].share or 0.0 for index in free)
    silent = [index for index in free if baths[index].share is None]
    shares: dict[int, float] = {}
    for index in free:
        share = baths[index].share
        shares[index] = share if share is not None else (1.0 - stated) / len(silent)
    return shares
