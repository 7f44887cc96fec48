"""What a request says beside a form's own fields: units, the page of a list, the state that a person saw."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.units import whole_number

if TYPE_CHECKING:
    from django.http import HttpRequest

MOST_PAGES = 10_000


def units_of(request: HttpRequest) -> str:
    """Units that a bare number is taken in: ``metric`` or ``us``."""
    return str(getattr(getattr(request, "darkroom", None), "units", "metric"))


def page_of(request: HttpRequest) -> int:
    """Number of the page of a list; the first where an address asks for none, or for nonsense."""
    return min(whole_number(request.GET.get("page")) or 1, MOST_PAGES)


def revision_of(request: HttpRequest) -> int | None:
    """State of the record that the page was made from; None where the page did not say."""
    return whole_number(request.POST.get("revision"))
