"""What a sheet's words stand for: its film, process, aim, twin, lot and holder side, looked up in the archive."""

from __future__ import annotations

import datetime as dt
import re
from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.adapters.clock import today
from wetside.adapters.suggest import nearest_word
from wetside.errors import InputError, ManyErrors, OutOfRangeError, Place, UnknownNameError, WetsideError
from wetside.records.models import Aim, Film, FilmLot, HolderSide, Process, Sheet, SheetState
from wetside.services.records.changes import make
from wetside.values.names import plain_name

if TYPE_CHECKING:
    from wetside.planning.documents.evening import Sheet as SheetDocument

SIDE_WORDS = {"l": "left", "r": "right", "links": "left", "rechts": "right"}
"""Short words of holder sides, and the words they stand for."""

_SIDE = re.compile(r"(?P<holder>.*?\S)\s*(?P<side>left|right|l|r|a|b|links|rechts)", re.IGNORECASE)

UNDEVELOPED = (SheetState.WAITING, SheetState.PLANNED)
"""States in which a sheet still waits."""


FIRST_DAY = dt.date(1880, 1, 1)
"""Before it no sheet of film was exposed that still waits for its developer: a slip of the pen. Our choice."""

SURE_DAY = dt.date(2026, 1, 1)
"""Day that is past whatever a machine's clock says: it is older than this program."""
AHEAD = dt.timedelta(days=3653)
"""So far ahead of the clock a day may lie: ten years, so that a slip in the century is told. Our choice."""


class Named(NamedTuple):
    """Records that a sheet refers to; None where it names none."""

    film: Film
    process: Process | None
    aim: Aim | None
    twin: Sheet | None
    lot: FilmLot | None


def holder_and_side(text: str) -> tuple[str, str] | None:
    """Holder and side of a text such as ``3 left``, ``4R`` or ``7A``; None where it names no side.

    Examples
    --------
    >>> holder_and_side("3 left"), holder_and_side("4R"), holder_and_side("7a"), holder_and_side("larch")
    (('3', 'left'), ('4', 'right'), ('7', 'A'), None)
    """
    found = _SIDE.fullmatch(" ".join(text.split()))
    if found is None or (not found["holder"][-1].isdigit() and not found[0][len(found["holder"])].isspace()):
        return None
    word = found["side"].casefold()
    return found["holder"], SIDE_WORDS.get(word, word.upper() if len(word) == 1 else word)


def side_of(text: str) -> HolderSide | None:
    """Holder side that a sheet's text means, where such a holder is kept."""
    named = holder_and_side(text)
    if named is None:
        return None
    sides = HolderSide.kept.filter(holder__name_key=plain_name(named[0]), holder__removed_at=None)
    found: HolderSide | None = next((one for one in sides if plain_name(one.side) == plain_name(named[1])), None)
    return found


def named_by(document: SheetDocument, *, lot: str = "", make_film: bool = False, itself: Sheet | None = None) -> Named:
    """Look up every name of a sheet.

    Parameters
    ----------
    document : Sheet
        As the reader returns it.
    lot : str
        Number of the film's lot; empty where none is said.
    make_film : bool
        Whether a film that is not known is made, with just its name.
    itself : Sheet, optional
        The sheet's own record: it is not its own twin.

    Raises
    ------
    WetsideError
        All names that nothing answers to, each with its field.
    """
    errors: list[WetsideError] = []
    film = film_of(document.film, errors, make_film=make_film)
    process = _by_name(Process, "process", document.process, errors)
    aim = _by_name(Aim, "aim", document.aim, errors)
    twin = _twin(document.twin, itself, errors)
    found_lot = _lot(film, lot, errors)
    if document.in_holder is not None:
        film_of(document.in_holder, errors, field="in_holder", make_film=make_film)
    if not (document.label or document.holder):
        errors.append(InputError("services.sheets.no_label", place=Place(field="holder")))
    wrong_day = day_mistake(document.exposed)
    if wrong_day is not None:
        errors.append(wrong_day)
    if errors or film is None:
        raise errors[0] if len(errors) == 1 else ManyErrors(errors)
    return Named(film, process, aim, twin, found_lot)


def day_mistake(exposed: dt.date | None) -> WetsideError | None:
    """What is wrong with the day of an exposure; a clock that was set back keeps nobody from entering a sheet."""
    last = max(today(), SURE_DAY) + AHEAD
    if exposed is None or FIRST_DAY <= exposed <= last:
        return None
    return OutOfRangeError(
        "services.sheets.day_out_of_range",
        place=Place(field="exposed"),
        value=exposed.isoformat(),
        first=FIRST_DAY.isoformat(),
    )


def film_of(name: str, errors: list[WetsideError], *, field: str = "film", make_film: bool = False) -> Film | None:
    """Film by its name; what is wrong is added to ``errors``."""
    if not name:
        errors.append(InputError("services.sheets.no_film", place=Place(field=field)))
        return None
    found: Film | None = Film.kept.filter(name_key=plain_name(name)).first()
    if found is not None:
        return found
    if make_film:
        return make(Film, {"name": name}, why="made with a sheet")
    errors.append(unknown_film(name, film_names(), field))
    return None


def unknown_film(name: str, known: list[str], field: str = "film") -> UnknownNameError:
    """The error of a film that nobody knows."""
    nearest = nearest_word(name, known)
    if nearest is None:
        return UnknownNameError("services.sheets.film_unknown", place=Place(field=field), value=name, nearest=None)
    return UnknownNameError("services.sheets.film_unknown_near", place=Place(field=field), value=name, nearest=nearest)


def film_names() -> list[str]:
    """Names of all films, in their order."""
    return list(Film.kept.values_list("name", flat=True))


def _by_name(kind: Any, field: str, name: str | None, errors: list[WetsideError]) -> Any:
    if not name:
        return None
    found = kind.kept.filter(name_key=plain_name(name)).first()
    if found is None:
        errors.append(unknown_name(field, name, list(kind.kept.values_list("name", flat=True))))
    return found


def unknown_name(field: str, name: str, known: list[str]) -> UnknownNameError:
    """The error of a process or an aim that nobody knows."""
    return UnknownNameError(
        "services.sheets.name_unknown",
        place=Place(field=field),
        what=field,
        value=name,
        nearest=nearest_word(name, known),
        known=known[:12] or ["none yet"],
    )


def _twin(name: str | None, itself: Sheet | None, errors: list[WetsideError]) -> Sheet | None:
    if not name:
        return None
    sheets = Sheet.kept.filter(label_key=plain_name(name))
    if itself is not None:
        sheets = sheets.exclude(pk=itself.pk)
    # A label may have been used before: the sheet that waits is meant.
    found: Sheet | None = sheets.filter(state__in=UNDEVELOPED).first() or sheets.order_by("-made_at").first()
    if found is None:
        errors.append(UnknownNameError("services.sheets.twin_unknown", place=Place(field="twin"), value=name))
    return found


def _lot(film: Film | None, number: str, errors: list[WetsideError]) -> FilmLot | None:
    if not number or film is None:
        return None
    lot = lot_of(film, number)
    if lot is None:
        errors.append(
            UnknownNameError("services.sheets.lot_unknown", place=Place(field="lot"), value=number[:80], film=film.name)
        )
    return lot


def lot_of(film: Film, number: str) -> FilmLot | None:
    """Lot of a film by its number; None where it is not kept."""
    for lot in FilmLot.kept.filter(film=film):
        if plain_name(lot.number) == plain_name(number):
            found: FilmLot = lot
            return found
    return None
