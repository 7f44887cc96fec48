"""Items of the outbox about holders and lots of film: from what was typed to the work, and what the page is told.

The pages without scripts do the same work through the same functions.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any
from uuid import UUID

from wetside.cards.count import counted
from wetside.errors import InputError
from wetside.services.records import films, holders
from wetside.units import whole_number
from wetside.wording import sentence

if TYPE_CHECKING:
    from wetside.services.records.outbox import Fields


def take_holders(fields: Fields) -> dict[str, Any]:
    """Make holders of a span, with their sides."""
    made = holders.make_holders(
        fields.text("holders"),
        size=fields.text("size"),
        sides=str(fields.get("sides", "left, right")).split(","),
        notch=fields.text("notch"),
    )
    return {
        "said": sentence("services.holders.made", {"holders": counted("holder", len(made))}),
        "address": "/holders/",
    }


def take_holder(fields: Fields) -> dict[str, Any]:
    """Correct a holder's name, size, notch and note."""
    holder = holders.change_holder(
        holders.holder_by_key(_identity(fields, "id")),
        name=fields.text("name"),
        size=fields.text("size"),
        notch=fields.text("notch"),
        note=fields.text("note"),
        revision=revision_of(fields),
    )
    return {
        "said": sentence("services.holders.kept", {"what": holder.name}),
        "id": str(holder.pk),
        "revision": holder.revision,
        "address": "/holders/",
    }


def take_lot(fields: Fields) -> dict[str, Any]:
    """Keep a new lot of a film that is named."""
    lot = holders.keep_lot(
        fields.text("film"),
        fields.text("number"),
        size=fields.text("size"),
        expires=fields.text("expires"),
        bought=fields.text("bought"),
        make_film=fields.text("make_film") == "on",
    )
    said = sentence("services.holders.lot_kept", {"film": lot.film.name, "number": lot.number})
    return {"said": said, "id": str(lot.pk), "address": "/holders/lots/"}


def take_film_lot(fields: Fields) -> dict[str, Any]:
    """Add a lot to a film, or correct one of its lots."""
    film = films.find_film(_identity(fields, "of"))
    lot = films.find_lot(_identity(fields, "id")) if fields.text("id") else None
    answers = films.LotAnswers(*(fields.text(name) for name in films.LotAnswers._fields))
    saved = films.save_lot(film, answers, lot, revision=revision_of(fields))
    return {
        "said": sentence("services.holders.lot_kept", {"film": film.name, "number": saved.number}),
        "id": str(saved.pk),
        "revision": saved.revision,
        "address": f"/films/{film.pk}/",
    }


def revision_of(fields: Fields) -> int | None:
    """State of the record that the page was made from; None where the page did not say."""
    return whole_number(fields.text("revision"))


def _identity(fields: Fields, name: str) -> UUID:
    try:
        return UUID(fields.text(name))
    except ValueError:
        raise InputError("services.sheets.no_identity") from None
