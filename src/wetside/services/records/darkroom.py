"""What holds for the whole darkroom: its name, units, decimal sign, paper and time zone."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError, available_timezones

from wetside.adapters.suggest import nearest_word
from wetside.errors import InputError, ManyErrors, OutOfRangeError, Place, UnknownNameError
from wetside.records.models import LABEL_LENGTH, Darkroom
from wetside.services.records import changes
from wetside.wording import Manner

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wetside.errors import WetsideError

CHOICES: dict[str, tuple[str, ...]] = {
    "units": ("metric", "us"),
    "decimal_sign": ("point", "comma"),
    "paper": ("a4", "letter"),
}
"""What may stand in each setting that is chosen from a few."""


def darkroom_settings() -> Darkroom:
    """Settings of the darkroom; what nobody has set stands at its default, unwritten."""
    return Darkroom.objects.filter(only=1).first() or Darkroom(revision=0)


def manner_of(settings: Darkroom) -> Manner:
    """How figures are shown in a darkroom."""
    return Manner(us=settings.units == "us", comma=settings.decimal_sign == "comma")


def zone_of(settings: Darkroom) -> ZoneInfo | None:
    """Time zone in which a darkroom's days begin; None where none is set, or none of that name is known here."""
    try:
        return ZoneInfo(settings.time_zone) if settings.time_zone else None
    except (ZoneInfoNotFoundError, ValueError):
        return None


@cache
def time_zones() -> tuple[str, ...]:
    """Names of the IANA time zone database that a clock may follow, sorted."""
    return tuple(sorted(name for name in available_timezones() if "/" in name or name == "UTC"))


def change_darkroom(typed: Mapping[str, str], revision: int | None = None) -> Darkroom:
    """Set what holds for the whole darkroom.

    Parameters
    ----------
    typed : mapping
        ``name``, ``units``, ``decimal_sign``, ``paper``, ``time_zone`` as they were typed; what is absent stays.
    revision : int, optional
        The state that the person saw; 0 where nobody had set anything.

    Raises
    ------
    ManyErrors
        With the field of each setting that cannot be so.
    ConflictError
        If it was changed on another page meanwhile.
    """
    errors: list[WetsideError] = []
    values: dict[str, str] = {}
    for name in ("name", "time_zone", *CHOICES):
        if name in typed:
            try:
                values[name] = _read(name, " ".join(typed[name].split()))
            except InputError as error:
                errors.append(error)
    if errors:
        raise ManyErrors(errors)
    now: Darkroom | None = Darkroom.objects.filter(only=1).first()
    if now is None:
        made: Darkroom = changes.make(Darkroom, values)
        return made
    changed: Darkroom = changes.change(now, values, revision=revision)
    return changed


def _read(name: str, text: str) -> str:
    if name == "name":
        return name_of(text, "name", "services.darkroom.no_name")
    if name == "time_zone":
        return _time_zone(text)
    if text not in CHOICES[name]:
        raise UnknownNameError(
            "services.darkroom.choice", place=Place(field=name), value=text[:LABEL_LENGTH], known=list(CHOICES[name])
        )
    return text


def name_of(text: str, field: str, missing: str = "") -> str:
    """Name as typed, with single blanks.

    Parameters
    ----------
    text : str
    field : str
        Named by the error.
    missing : str
        Code of the error where nothing is typed; without one nothing may be.

    Raises
    ------
    InputError
        If it is empty and must not be, too long, or holds letters that cannot be shown.
    """
    text = " ".join(text.split())
    if not text and missing:
        raise InputError(missing, place=Place(field=field))
    if len(text) > LABEL_LENGTH:
        raise OutOfRangeError("services.darkroom.long_name", place=Place(field=field), most=LABEL_LENGTH)
    if not text.isprintable():
        raise InputError("services.darkroom.odd_letters", place=Place(field=field))
    return text


def _time_zone(text: str) -> str:
    """Time zone by its name, however it is spelled; empty is the clock of UTC."""
    if not text:
        return ""
    known = {name.casefold(): name for name in time_zones()}
    found = known.get(text.replace(" ", "_").casefold())
    if found is not None:
        return found
    place = Place(field="time_zone")
    nearest = _nearest_zone(text.replace(" ", "_"))
    if nearest is None:
        raise UnknownNameError("services.darkroom.time_zone", place=place, value=text[:LABEL_LENGTH])
    raise UnknownNameError("services.darkroom.time_zone_near", place=place, value=text[:LABEL_LENGTH], nearest=nearest)


def _nearest_zone(text: str) -> str | None:
    """Zone that was most likely meant: of the continent that was named, else by its city alone."""
    continent, slash, _ = text.casefold().partition("/")
    if slash:
        near = {name: name for name in time_zones() if name.casefold().startswith(f"{continent}/")}
    else:
        cities = {name.rpartition("/")[2]: name for name in time_zones()}
        near = {city: name for city, name in cities.items() if city.casefold()[:1] == continent[:1]}
    word = nearest_word(text, near)
    return near[word] if word is not None else None
