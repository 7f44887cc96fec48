"""Mixing: what to measure and from which bottles; "Mixed" books it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any
from uuid import UUID

from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_http_methods

from wetside.adapters.clock import today
from wetside.errors import ManyErrors, Place, WetsideError
from wetside.services.records.bottles_entries import read_entry
from wetside.services.records.mixing import FORMULA, Draw, MixAsk, Part, Proposal, choices, propose
from wetside.services.records.mixing_booked import Target, book_mixing
from wetside.units import fl_oz_us_of_ml, parse_volume_ml
from wetside.web.forms.entry import raw_of_post
from wetside.web.views.asked import units_of
from wetside.web.views.shelf_forms import fields, rest_of, to, with_choices

if TYPE_CHECKING:
    from collections.abc import Mapping

    from django.http import HttpRequest, HttpResponse

ASKED = ("what", "dilution", "volume", "second", "third", "temp", "concentrate_temp", "smallest")
SENT = ("mark", "holds")
LABELS = {
    "what": "What to mix",
    "second": "Second concentrate",
    "third": "Third concentrate",
    "volume": "How much",
    "temp": "Temperature of the mix",
    "concentrate_temp": "Temperature of the bottle",
    "smallest": "Smallest amount of your measure",
    "mark": "Mark of the bottle that takes it",
    "holds": "What to call it",
}
DRAW = "draw-"
MOST_BOTTLES = 12
"""Bottles of one liquid that the page offers. Our choice."""


@require_http_methods(["GET", "HEAD", "POST"])
def mixing(request: HttpRequest) -> HttpResponse:
    """Ask, propose, reckon again with other bottles, and book."""
    units = units_of(request)
    given = request.POST if request.method == "POST" else request.GET
    raw = raw_of_post(MixAsk, ASKED, given, units=units)
    target = raw_of_post(Target, SENT, given, units=units)
    proposal: Proposal | None = None
    error: WetsideError | None = None
    if raw.get("what"):
        try:
            chosen = _draws(given, units) if request.method == "POST" else None
            proposal = propose(read_entry(MixAsk, raw), today(), chosen)
            if request.method == "POST" and given.get("act") == "mixed":
                lines = book_mixing(proposal, read_entry(Target, target), timezone.now(), today())
                return to("bottle", lines[-1].bottle_id, booked=lines[-1].pk)
        except WetsideError as found:
            error = found
    return _render(request, raw, target, proposal, error)


def _draws(given: Mapping[str, Any], units: str) -> dict[UUID, float] | None:
    """Amounts that the page has for each bottle; None where it had no bottles yet. [ml]

    Raises
    ------
    WetsideError
        With the field of each amount that cannot be read.
    """
    found: dict[UUID, float] = {}
    errors: list[WetsideError] = []
    bare = "US fl oz" if units == "us" else "ml"
    for name, value in given.items():
        if not name.startswith(DRAW):
            continue
        text = str(value).strip()
        if not text:
            continue
        if text.replace(",", ".").replace(".", "", 1).isdigit():
            text = f"{text} {bare}"
        try:
            amount = parse_volume_ml(text, low_ml=0.0)
            found[UUID(name.removeprefix(DRAW))] = amount
        except WetsideError as error:
            errors.append(error.at(Place(field=name)))
        except ValueError:
            continue
    if errors:
        raise errors[0] if len(errors) == 1 else ManyErrors(errors)
    return found if any(name.startswith(DRAW) for name in given) else None


def _parts(
    proposal: Proposal | None, given: Mapping[str, Any], units: str
) -> list[tuple[Part, list[tuple[Draw, str]]]]:
    """Parts with their bottles, each with what stands in its field: as typed, or as proposed."""
    if proposal is None:
        return []
    return [
        (
            part,
            [(draw, str(given.get(f"{DRAW}{draw.bottle.pk}", _amount(draw.draw_ml, units)))) for draw in _shown(part)],
        )
        for part in proposal.parts
    ]


def _shown(part: Part) -> list[Draw]:
    """Bottles of a part that the page shows: those that are drawn from, and the next oldest."""
    drawn = [draw for draw in part.draws if draw.draw_ml > 0]
    return drawn + [draw for draw in part.draws if draw.draw_ml <= 0][: max(0, MOST_BOTTLES - len(drawn))]


def _amount(volume_ml: float, units: str) -> str:
    """Amount as it is typed: exact enough that it is read back at the same mark."""
    return f"{fl_oz_us_of_ml(volume_ml):.3f} US fl oz" if units == "us" else f"{volume_ml:g} ml"


def _render(
    request: HttpRequest,
    raw: Mapping[str, Any],
    target: Mapping[str, Any],
    proposal: Proposal | None,
    error: WetsideError | None,
) -> HttpResponse:
    units = units_of(request)
    given = request.POST if request.method == "POST" else request.GET
    there = choices()
    liquids = [("", ""), *((name, name) for name in there.liquids)]
    made = fields(MixAsk, ASKED, raw, error, labels=LABELS, units=units)
    asked = str(raw.get("what", ""))
    if asked and not asked.startswith(FORMULA) and asked not in there.liquids:
        liquids.append((asked, asked))
    made = with_choices(made, "what", [*liquids, *((key, f"Formula: {name}") for key, name in there.formulas)])
    for further in ("second", "third"):
        made = with_choices(made, further, liquids[1:])
    further_asked = any(raw.get(name) for name in ("second", "third", "concentrate_temp"))
    context = {
        "first": made[:3],
        "rest": made[3:],
        "rest_open": further_asked or bool(error and not proposal),
        "hidden": [(name, value) for name, value in raw.items() if isinstance(value, str)],
        "target": fields(Target, SENT, target, error, form="target", labels=LABELS, units=units),
        "proposal": proposal,
        "parts": _parts(proposal, given, units),
        "processes": there.processes,
        "empty": not there.liquids,
        "wrong": rest_of(error, (*ASKED, *SENT)),
    }
    return render(request, "web/shelf/mixing.html", context, status=422 if error else 200)
