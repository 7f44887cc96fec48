"""Two runs side by side in words, for pages and terminals."""

from __future__ import annotations

from math import expm1
from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.wording import sentence, shown

if TYPE_CHECKING:
    from wetside.planning.documents.note import Note
    from wetside.runs.compared import Comparison, Ranked
    from wetside.runs.difference import Difference


class Row(NamedTuple):
    """One difference in words; density, percent of time, spread and zones are empty where no figure can be given.

    ``bar`` begins and lasts so much of a hundred, with the middle for nothing; None without a figure. [%]
    """

    kind: str
    one: str
    other: str
    density: str
    percent: str
    spread: str
    zones: str
    backing: str
    remark: str
    bar: tuple[float, float] | None = None


class Said(NamedTuple):
    """A comparison in words; ``figures`` are ranked, ``words`` have no figure, ``missing`` nobody knows of a run."""

    title: str
    summary: str
    noise: str
    reference: str
    basis: str
    measured: str
    figures: tuple[Row, ...]
    words: tuple[Row, ...]
    missing: tuple[tuple[str, tuple[str, ...]], ...]


def comparison_said(found: Comparison, one: str, other: str) -> Said:
    """Say a comparison.

    Parameters
    ----------
    found : Comparison
    one, other : str
        What the runs are called.
    """
    names = {"one": one, "other": other}
    measured = ""
    if found.measured is not None and found.left is not None:
        measured = sentence("runs.compared.measured", {"measured": found.measured, "left": found.left})
    return Said(
        title=_title(found, names),
        summary=_summary(found),
        noise=sentence("runs.compared.noise", {"density": found.noise.density_spread}),
        reference=sentence("runs.compared.reference", {"range": found.reference_range}),
        basis="" if found.direct else sentence("runs.compared.not_direct", {}),
        measured=measured,
        figures=tuple(_ranked(row, _largest(found)) for row in found.ranked),
        words=tuple(_row(difference) for difference in found.listed),
        missing=_missing(found, names),
    )


def _missing(found: Comparison, names: dict[str, str]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """What nobody knows of both runs, then of each."""
    lines = [tuple(_value(fact.note) for fact in found.missing if fact.first is first) for first in (True, False)]
    both = tuple(line for line in lines[0] if line in lines[1])
    groups = (
        (sentence("runs.compared.both", {}), both),
        (names["one"], tuple(line for line in lines[0] if line not in both)),
        (names["other"], tuple(line for line in lines[1] if line not in both)),
    )
    return tuple(group for group in groups if group[1])


def _title(found: Comparison, names: dict[str, str]) -> str:
    if not found.ranked:
        return sentence("runs.compared.title_none", _spoken(names))
    kind = _kind(found.ranked[0].difference)
    params: dict[str, Any] = {**_spoken(names), "kind": kind[:1].lower() + kind[1:]}
    if found.worth is None:
        return sentence("runs.compared.title_far", params)
    if not found.explains:
        return sentence("runs.compared.title_small", _spoken(names))
    return sentence("runs.compared.title_more", {**params, "density": found.worth.density})


def _spoken(names: dict[str, str]) -> dict[str, str]:
    """Names as they stand in a title that begins with the second."""
    load = sentence("runs.compared.load", {"number": ""}).strip()
    first = names["one"]
    return {**names, "one": first[:1].lower() + first[1:] if first.startswith(load) else first}


def _summary(found: Comparison) -> str:
    if not found.ranked:
        return ""
    if found.worth is None:
        return sentence("runs.compared.sum_far", {})
    params = {"density": found.worth.density, "spread": found.worth.density_spread, "zones": found.worth.zones}
    return sentence("runs.compared.sum", params)


def _kind(difference: Difference) -> str:
    return sentence(f"runs.compared.kind_{difference.kind}", {})


def _largest(found: Comparison) -> float:
    """Largest share among the figures, the length of the longest bar. [1]"""
    return max((abs(row.difference.share or 0.0) for row in found.ranked), default=0.0)


def _ranked(row: Ranked, largest: float) -> Row:
    share = row.difference.share or 0.0
    long = 50.0 * abs(share) / largest if largest else 0.0
    plain = _row(row.difference)._replace(bar=(50.0 - long if share < 0 else 50.0, long))
    if row.worth is None:
        return plain
    spread = row.worth.density_spread
    return plain._replace(
        density=shown(row.worth.density, "signed"),
        percent=shown(100.0 * expm1(share), "percent"),
        spread=f"± {shown(spread, 'density')}" if spread >= 0.005 else "",
        zones=shown(row.worth.zones, "signed_1"),
    )


def _row(difference: Difference) -> Row:
    return Row(
        kind=_kind(difference),
        one=_value(difference.one),
        other=_value(difference.other),
        density="",
        percent="",
        spread="",
        zones="",
        backing=sentence(f"runs.compared.backing_{difference.backing.value}", {}),
        remark="" if difference.remark is None else _value(difference.remark),
    )


def _value(note: Note) -> str:
    """Value of a run with the words of the core said too."""
    params = dict(note.params)
    for name in ("clock", "stop", "agitation"):
        if name in params:
            params[name] = sentence(f"runs.compared.{name}_{params[name]}", {})
    if "where" in params:
        params["where"] = [sentence(f"runs.where.{one}", {}) for one in params["where"]]
    if "incidents" in params:
        params["incidents"] = [_incident(what, sheets) for what, sheets in params["incidents"]]
    return sentence(note.code, params)


def _incident(what: str, sheets: tuple[str, ...]) -> str:
    said = sentence(f"runs.compared.incident_{what}", {})
    return sentence("runs.compared.incident_of", {"what": said, "sheets": list(sheets)}) if sheets else said
