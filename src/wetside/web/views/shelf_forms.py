"""What the pages of the shelf share: units of the darkroom, numbers in an address, fields with their mistakes."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple
from urllib.parse import urlencode
from uuid import UUID

from django.http import HttpResponseRedirect
from django.urls import reverse

from wetside.web.forms.entry import Entry, entries, mistakes_of

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from django.http import HttpRequest

    from wetside.errors import WetsideError


class Undo(NamedTuple):
    """What the frame offers to bring back: where to, and what it says."""

    address: str
    said: str


def key_of(request: HttpRequest, name: str) -> UUID | None:
    """Identity in an address; None where there is none."""
    try:
        return UUID(request.GET.get(name, ""))
    except ValueError:
        return None


def to(name: str, *parts: object, **asked: object) -> HttpResponseRedirect:
    """Redirect to a page by its name, with what stands after the question mark."""
    address = reverse(name, args=parts)
    return HttpResponseRedirect(f"{address}?{urlencode(asked)}" if asked else address)


def fields(
    document: type,
    names: Sequence[str],
    raw: Mapping[str, Any],
    error: WetsideError | None = None,
    *,
    form: str = "",
    path: str = "",
    labels: Mapping[str, str] | None = None,
    units: str = "metric",
) -> tuple[Entry, ...]:
    """Fields of a form, each with its mistake; ``form`` keeps them apart from those of another form of the page."""
    mistakes = mistakes_of(error) if error is not None else {}
    made = entries(document, names, raw, mistakes, path=path, labels=labels, units=units)
    return tuple(one._replace(id=f"{form}-{one.id}") for one in made) if form else made


def rest_of(error: WetsideError | None, names: Sequence[str]) -> list[str]:
    """Mistakes that belong to no field of a form."""
    if error is None:
        return []
    found = mistakes_of(error).items()
    return [said for field, said in found if field.partition("[")[0].partition(".")[0] not in names]


def with_choices(
    made: Sequence[Entry], name: str, choices: Sequence[tuple[str, str]], value: str | None = None
) -> tuple[Entry, ...]:
    """Fields with one of them as a choice among what is there."""
    return tuple(
        one._replace(kind="choice", choices=tuple(choices), value=one.value if value is None else value)
        if one.name == name
        else one
        for one in made
    )
