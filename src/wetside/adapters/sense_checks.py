"""Values of an evening file that are right each for itself and cannot be true together."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wetside.adapters.name_checks import there
from wetside.development import Way
from wetside.errors import ConflictError, InputError, WetsideError
from wetside.planning.documents.words import AfterUse, BathKind, Mishap
from wetside.values.dilution import STOCK

if TYPE_CHECKING:
    from wetside.adapters.findings import FieldPath, Findings
    from wetside.planning.documents.evening import Bath, Evening, Film, Process, Sheet

SHARE_SLACK = 0.001
"""Thirds written with three digits still sum to one."""


def check_sense(evening: Evening, findings: Findings) -> None:
    """Check what the tables of an evening say together.

    Parameters
    ----------
    evening : Evening
        As bound, perhaps with errors noted already.
    findings : Findings
        Where errors go.
    """
    for index, film in there(evening.films):
        _check_film(film, ("films", index), findings)
    for index, developer in there(evening.developers):
        for rank, pair in there(developer.pairs):
            _check_pair(pair, ("developers", index, "pairs", rank), findings)
    for index, process in there(evening.processes):
        _check_developer(process, ("processes", index), findings)
        _check_baths(process, ("processes", index), findings)
    for index, bottle in there(evening.bottles):
        if bottle.mixed is not None and bottle.keeps_until is not None and bottle.keeps_until < bottle.mixed:
            findings.add(
                ("bottles", index, "keeps_until"),
                ConflictError("files.bottle.dates", mixed=bottle.mixed, keeps_until=bottle.keeps_until),
            )
    for index, vessel in there(evening.vessels):
        if vessel.min_ml is not None and vessel.max_ml is not None and vessel.min_ml > vessel.max_ml:
            findings.add(
                ("vessels", index, "min"),
                ConflictError("files.vessel.limits", min_ml=vessel.min_ml, max_ml=vessel.max_ml),
            )
        if (vessel.mass_g is None) != (vessel.material is None):
            lonely, missing = ("mass", "material") if vessel.material is None else ("material", "mass")
            if not findings.at("vessels", index, missing):
                findings.add(
                    ("vessels", index, lonely), ConflictError("files.vessel.warmth", given=lonely, missing=missing)
                )
    for index, look in there(evening.looks):
        if (look.measured_range is None) == (look.change_percent is None) and not findings.at("looks", index):
            findings.add(("looks", index), ConflictError("files.look.one_of", sheet=look.sheet))
    for index, sheet in there(evening.sheets):
        _check_sheet(sheet, ("sheets", index), findings)


def _check_film(film: Film, path: FieldPath, findings: Findings) -> None:
    if film.reciprocity is not None and not findings.at(*path, "reciprocity"):
        given = film.reciprocity
        here = (*path, "reciprocity")
        if given.power is not None and given.points:
            findings.add((*here, "table"), ConflictError("files.reciprocity.two"))
        elif (
            given.power is None
            and not given.points
            and given.published is None
            and not any(findings.at(*here, key) for key in ("power", "table", "published"))
        ):
            findings.add(here, InputError("files.reciprocity.none"))
    for index, time in there(film.times):
        _check_developer(time, (*path, "times", index), findings)
    for index, test in there(film.tests):
        _check_developer(test, (*path, "tests", index), findings)
        if test.readings is not None and test.rows:
            findings.add((*path, "tests", index, "rows"), ConflictError("files.test.two"))
        elif (
            test.readings is None
            and not test.rows
            and not (findings.at(*path, "tests", index, "readings") or findings.at(*path, "tests", index, "rows"))
        ):
            findings.add((*path, "tests", index), InputError("files.test.none"))


def _check_developer(row: Any, path: FieldPath, findings: Findings) -> None:
    """A dilution that was written into the name leaves its own key empty, which would be poured undiluted."""
    from wetside.chemistry.dilution import require_name_only

    if not row.developer or row.dilution not in {None, STOCK} or findings.at(*path, "dilution"):
        return
    try:
        require_name_only(row.developer)
    except WetsideError as error:
        findings.add((*path, "developer"), error)


def _check_pair(pair: Any, path: FieldPath, findings: Findings) -> None:
    if None in (pair.cold_c, pair.warm_c, pair.cold_s, pair.warm_s):
        return
    if pair.cold_c >= pair.warm_c:
        findings.add((*path, "cold"), ConflictError("files.pair.temperatures", cold_c=pair.cold_c, warm_c=pair.warm_c))
    elif pair.cold_s <= pair.warm_s:
        findings.add((*path, "cold_time"), ConflictError("files.pair.times", cold_s=pair.cold_s, warm_s=pair.warm_s))


def _check_baths(process: Process, path: FieldPath, findings: Findings) -> None:
    baths = [(index, bath) for index, bath in there(process.baths) if bath.does is not None]
    if process.way is Way.REPLENISHED and not process.baths:
        findings.add((*path, "way"), ConflictError("files.bath.replenished_thrown"))
    if not baths or len(baths) < len(process.baths):
        return
    for index, bath in baths:
        here = (*path, "baths", index)
        if bath.does is not BathKind.DEVELOP:
            if bath.time_s is None and not findings.at(*here, "time"):
                findings.add((*here, "time"), InputError("files.bath.no_time", does=str(bath.does)))
            if bath.share is not None:
                findings.add((*here, "share"), ConflictError("files.bath.share_elsewhere", does=str(bath.does)))
            _check_parts(bath, 1, here, findings)
        elif bath.share is not None and bath.time_s is not None:
            findings.add((*here, "share"), ConflictError("files.bath.share_and_time"))
    developing = [(index, bath) for index, bath in baths if bath.does is BathKind.DEVELOP]
    if not developing:
        findings.add((*path, "baths"), InputError("files.bath.no_developer"))
    two_baths = process.way is Way.TWO_BATH
    if two_baths and developing and (len(developing) < 2 or any(bath.time_s is None for _, bath in developing)):
        findings.add((*path, "way"), ConflictError("files.bath.two_bath_times"))
    for index, bath in developing:
        if bath.time_s is not None and not two_baths:
            findings.add((*path, "baths", index, "time"), ConflictError("files.bath.develop_time"))
        parts = 1 if process.dilution is None else len(process.dilution.agents)
        _check_parts(bath, parts, (*path, "baths", index), findings)
        if process.way is Way.REPLENISHED and bath.after is AfterUse.WASTE:
            findings.add((*path, "baths", index, "after"), ConflictError("files.bath.replenished_thrown"))
    _check_shares(developing, path, findings)


def _check_parts(bath: Bath, parts: int, path: FieldPath, findings: Findings) -> None:
    """A bottle for a further part wants a developer of so many parts."""
    if bath.second is not None and parts < 2:
        findings.add((*path, "second"), ConflictError("files.bath.second_part"))
    if bath.third is not None and parts < 3:
        findings.add((*path, "third"), ConflictError("files.bath.third_part"))


def _check_shares(developing: list[tuple[int, Bath]], path: FieldPath, findings: Findings) -> None:
    shares = [(index, bath.share) for index, bath in developing if bath.share is not None and bath.time_s is None]
    if not shares:
        return
    silent = sum(bath.share is None and bath.time_s is None for _, bath in developing)
    total = sum(share for _, share in shares)
    here = (*path, "baths", shares[0][0], "share")
    if silent and total > 1 - SHARE_SLACK:
        findings.add(here, ConflictError("files.bath.shares_leave_nothing", total=total))
    elif not silent and abs(total - 1) > SHARE_SLACK:
        findings.add(here, ConflictError("files.bath.shares", total=total))


def _check_sheet(sheet: Sheet, path: FieldPath, findings: Findings) -> None:
    placed = sheet.shadow is not None or sheet.highlight is not None
    ways = [
        name
        for name, given in (("n", sheet.n is not None), ("scene", sheet.scene_stops is not None), ("readings", placed))
        if given
    ]
    if len(ways) > 1:
        key = {"n": "n", "scene": "scene", "readings": "shadow" if sheet.shadow else "highlight"}[ways[-1]]
        findings.add((*path, key), ConflictError("files.sheet.two_ranges", given=ways))
    _check_placement(sheet, path, findings)
    if Mishap.WRONG_FILM in sheet.mishaps and sheet.in_holder is None and not findings.at(*path, "in_holder"):
        findings.add((*path, "mishaps"), InputError("files.sheet.wrong_film"))
    for key, exposure in (("meant", sheet.meant), ("set", sheet.was_set), ("second", sheet.second)):
        if exposure is not None and (
            exposure.extension_mm is not None
            and exposure.focal_mm is not None
            and exposure.extension_mm < exposure.focal_mm
        ):
            findings.add(
                (*path, key, "extension"),
                ConflictError(
                    "files.exposure.extension", extension_mm=exposure.extension_mm, focal_mm=exposure.focal_mm
                ),
            )


def _check_placement(sheet: Sheet, path: FieldPath, findings: Findings) -> None:
    if (sheet.shadow is None) != (sheet.highlight is None):
        given, lacking = ("shadow", "highlight") if sheet.highlight is None else ("highlight", "shadow")
        if not findings.at(*path, lacking):
            findings.add((*path, given), ConflictError("files.sheet.half_placed", given=given, lacking=lacking))
    elif sheet.shadow is not None and sheet.highlight is not None:
        low, high = sheet.shadow, sheet.highlight
        if None in (low.ev, high.ev, low.zone, high.zone):
            return
        if high.ev <= low.ev:
            findings.add((*path, "highlight"), ConflictError("files.sheet.ev_order", shadow=low.ev, highlight=high.ev))
        elif high.zone <= low.zone:
            findings.add(
                (*path, "highlight"), ConflictError("files.sheet.zone_order", shadow=low.zone, highlight=high.zone)
            )
