"""Documents of films, developers, processes and aims as a page sends them: read key by key, then checked together."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wetside.adapters.findings import Findings, field_text
from wetside.adapters.sense_checks import check_sense
from wetside.errors import Place
from wetside.planning.documents.evening import EVENING_FORMAT, Evening
from wetside.services.records.documents import document_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wetside.adapters.findings import FieldPath

_OUTER = {"film": "films", "developer": "developers", "process": "processes", "aim": "aims"}
"""Where a document of each kind stands in an evening file, whose checks are used."""


def checked_document(kind: str, raw: Mapping[str, Any]) -> Any:
    """Document of a plain table that is right key by key and makes sense as a whole, by the evening file's own checks.

    Parameters
    ----------
    kind : str
        ``film``, ``developer``, ``process`` or ``aim``.
    raw : mapping
        Plain values by key.

    Raises
    ------
    WetsideError
        With the field of everything that cannot be taken.
    """
    document = document_of(kind, raw)
    findings = Findings()
    around: dict[str, Any] = {_OUTER[kind]: (document,)}
    check_sense(Evening(format=EVENING_FORMAT, **around), findings)
    if findings:
        findings.refuse(_place)
    return document


def _place(path: FieldPath) -> Place:
    """Field inside the one document, without the evening's table around it."""
    return Place(field=field_text(path[2:]))
