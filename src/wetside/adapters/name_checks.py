"""Names of an evening file that refer to each other: unique where they are given, found where they are used."""

from __future__ import annotations

import dataclasses
from typing import TYPE_CHECKING, Any

from wetside.adapters.suggest import nearest_word
from wetside.errors import ConflictError, InputError, UnknownNameError
from wetside.values.names import plain_name

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from wetside.adapters.findings import FieldPath, Findings
    from wetside.planning.documents.evening import Evening, Sheet

_LISTS = (
    ("films", "name"),
    ("developers", "name"),
    ("processes", "name"),
    ("bottles", "mark"),
    ("vessels", "name"),
    ("aims", "name"),
)


def there(items: Iterable[Any]) -> Iterator[tuple[int, Any]]:
    """Tables of a list that could be filled, with their places."""
    return ((index, item) for index, item in enumerate(items) if item is not None)


def check_names(evening: Evening, findings: Findings) -> Evening:
    """Check that names are unique and found, and settle what sheets leave open.

    Parameters
    ----------
    evening : Evening
        As bound, perhaps with errors noted already.
    findings : Findings
        Where errors go.

    Returns
    -------
    evening : Evening
        With names spelled as they are declared, the only film filled in, and twins mutual.
    """
    for name, attribute in _LISTS:
        _check_unique(name, attribute, getattr(evening, name), findings)
    names = {
        name: {
            plain_name(getattr(item, attribute) or ""): getattr(item, attribute)
            for _, item in there(getattr(evening, name))
            if getattr(item, attribute)
        }
        for name, attribute in _LISTS
    }
    _check_developers(evening, names["developers"], findings)
    _check_bottles(evening, names["bottles"], findings)
    settled: dict[str, Any] = {}
    for key, known in (("process", names["processes"]), ("aim", names["aims"])):
        given = getattr(evening, key)
        if given is not None:
            settled[key] = _found(given, known, (key,), key, findings)
    sheets = _settle_sheets(evening.sheets, names, findings)
    ids = {plain_name(sheet.id): sheet.id for _, sheet in there(evening.sheets) if sheet.id}
    for index, look in there(evening.looks):
        if look.sheet:
            _found(look.sheet, ids, ("looks", index, "sheet"), "sheet", findings)
    return dataclasses.replace(evening, sheets=tuple(_settle_twins(sheets, findings)), **settled)


def _check_unique(name: str, attribute: str, items: Sequence[Any], findings: Findings) -> None:
    seen: dict[str, int] = {}
    for index, item in there(items):
        value = getattr(item, attribute)
        if value is None:
            continue
        first = seen.setdefault(plain_name(value), index)
        if first != index:
            findings.add(
                (name, index, attribute), ConflictError("files.name.twice", value=value, first=first + 1, table=name)
            )


def _found(given: str, known: Mapping[str, str], path: FieldPath, what: str, findings: Findings) -> str:
    """Name as it is declared; the given one, with an error noted, where it is not."""
    name = known.get(plain_name(given))
    if name is not None:
        return name
    if not findings.at(*path):
        nearest = nearest_word(given, known.values())
        code = "files.name.unknown_none"
        if known:
            code = "files.name.unknown_any" if nearest is None else "files.name.unknown_near"
        findings.add(
            path, UnknownNameError(code, value=given, what=what, nearest=nearest, allowed=list(known.values())[:12])
        )
    return given


def _check_developers(evening: Evening, known: Mapping[str, str], findings: Findings) -> None:
    """Where developers are declared at all, every one that is named must be among them."""
    if not known:
        return
    for rank, film in there(evening.films):
        for part in ("times", "tests"):
            for index, row in there(getattr(film, part)):
                if row.developer is not None:
                    _found(row.developer, known, ("films", rank, part, index, "developer"), "developer", findings)
    for rank, process in there(evening.processes):
        if process.developer is not None:
            _found(process.developer, known, ("processes", rank, "developer"), "developer", findings)


def _check_bottles(evening: Evening, known: Mapping[str, str], findings: Findings) -> None:
    if not known:
        return
    for rank, process in there(evening.processes):
        for index, bath in there(process.baths):
            if bath.bottle is not None:
                _found(bath.bottle, known, ("processes", rank, "baths", index, "bottle"), "bottle", findings)
            for key in ("second", "third"):
                mark = getattr(bath, key)
                if mark is not None:
                    _found(mark, known, ("processes", rank, "baths", index, key), "bottle", findings)


def _settle_sheets(sheets: Sequence[Sheet], names: Mapping[str, Mapping[str, str]], findings: Findings) -> list[Any]:
    films = names["films"]
    settled: list[Any] = []
    for index, sheet in enumerate(sheets):
        if sheet is None:
            settled.append(None)
            continue
        changes: dict[str, Any] = {}
        for key, known in (
            ("film", films),
            ("in_holder", films),
            ("process", names["processes"]),
            ("aim", names["aims"]),
        ):
            given = getattr(sheet, key)
            # Without any film declared the sheets' own words stand: the shipped figures may know them.
            if given and (known or known is not films):
                name = _found(given, known, ("sheets", index, key), "film" if known is films else key, findings)
                if name != given:
                    changes[key] = name
        if not sheet.film and not findings.at("sheets", index, "film"):
            if len(films) == 1:
                changes["film"] = next(iter(films.values()))
            else:
                code = "files.sheet.which_film" if films else "files.sheet.no_film"
                findings.add(("sheets", index, "film"), InputError(code, allowed=list(films.values())[:12]))
        settled.append(dataclasses.replace(sheet, **changes) if changes else sheet)
    return settled


def _settle_twins(sheets: list[Any], findings: Findings) -> list[Any]:
    """Check that labels are unique and twins come in pairs; make a twin mutual that only one side names."""
    by_name: dict[str, int] = {}
    for index, sheet in there(sheets):
        if not sheet.id:
            if not (findings.at("sheets", index, "label") or findings.at("sheets", index, "holder")):
                findings.add(("sheets", index), InputError("files.sheet.no_label"))
            continue
        first = by_name.setdefault(plain_name(sheet.id), index)
        if first != index:
            key = "label" if sheet.label else "holder"
            findings.add(("sheets", index, key), ConflictError("files.sheet.twice", value=sheet.id, first=first + 1))
    ids = {name: sheets[index].id for name, index in by_name.items()}
    partner: dict[int, int] = {}
    for index, sheet in there(sheets):
        if sheet.twin is None:
            continue
        path = ("sheets", index, "twin")
        other = by_name.get(plain_name(sheet.twin))
        if other is None:
            _found(sheet.twin, ids, path, "sheet", findings)
        elif other == index:
            findings.add(path, ConflictError("files.twin.itself", value=sheet.twin))
        elif partner.get(index, other) != other or partner.get(other, index) != index:
            third = partner.get(other, partner.get(index, other))
            findings.add(path, ConflictError("files.twin.third", value=sheet.twin, third=sheets[third].id))
        else:
            partner[index], partner[other] = other, index
    for index, other in partner.items():
        if sheets[index].twin != sheets[other].id:
            sheets[index] = dataclasses.replace(sheets[index], twin=sheets[other].id)
    return sheets
