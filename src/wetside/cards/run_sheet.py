"""The run sheet of a load: all that the hands need, to be followed by wristwatch where nothing else works."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.cards.acts import ActRow, bath_names, hand_moment_s, rows_of_load, thermometer_name
from wetside.cards.count import counted
from wetside.cards.names import clean, label, short
from wetside.cards.words import clean_sentence
from wetside.errors import OutOfRangeError
from wetside.wording import decimal, manner, sentence

if TYPE_CHECKING:
    from wetside.planning.documents.plan import Load, Plan


class PlaceRow(NamedTuple):
    """A place in the vessel, the sheet that goes into it, and the clip that the sheet will hang on."""

    place: str
    sheet: str
    clip: str


class Field(NamedTuple):
    """Something to write in: what stands before and after the line."""

    before: str
    after: str


class RunSheet(NamedTuple):
    """Document of one load, ready for paper or screen; nothing in it is markup."""

    number: int
    loads: int
    evening: str
    title: str
    subtitle: tuple[str, ...]
    places: tuple[PlaceRow, ...]
    tally: str
    fields: tuple[Field, ...]
    headings: tuple[str, str, str, str]
    rows: tuple[ActRow, ...]
    band: str
    feet: tuple[tuple[str, str], ...]
    continued: str
    page: str
    language: str = "en"


def run_sheet_of_load(plan: Plan, load: Load, *, fahrenheit: bool = False) -> RunSheet:
    """Lay out a load for the darkroom wall.

    Parameters
    ----------
    plan : Plan
        The evening that the load belongs to; the clips are counted through it.
    load : Load
        One of the plan's loads.
    fahrenheit : bool
        Give temperatures in degrees F beside those in C.

    Returns
    -------
    run_sheet : RunSheet

    Raises
    ------
    OutOfRangeError
        If the load is not one of the plan's.
    """
    if all(one.number != load.number for one in plan.loads):
        raise OutOfRangeError("cards.run_sheet.no_such_load", load=load.number, loads=len(plan.loads))
    hung = sum(len(one.sheets) for one in plan.loads if one.number < load.number)
    places = tuple(
        PlaceRow(
            sentence(f"cards.place.{load.vessel_kind}", {"number": number}),
            short(sheet),
            sentence("cards.place.clip", {"number": hung + number}),
        )
        for number, sheet in enumerate(load.sheets, start=1)
    )
    rows = rows_of_load(
        load,
        [(place.place, sheet) for place, sheet in zip(places, load.sheets, strict=True)],
        (hung + 1, hung + len(load.sheets)),
    )
    return RunSheet(
        number=load.number,
        loads=len(plan.loads),
        evening=" · ".join(part for part in (short(plan.name), clean(plan.date)) if part),
        title=_title(load),
        subtitle=_subtitle(plan, load, fahrenheit=fahrenheit),
        places=places,
        tally=sentence("cards.run.count", {"sheets": counted("sheet", len(load.sheets))}),
        fields=(
            Field(sentence("cards.run.field_temp", {}), "°F" if fahrenheit or manner().us else "°C"),
            Field(sentence(f"cards.run.field_start_{_zero_moment(load)}", {}), sentence("cards.run.oclock", {})),
        ),
        headings=(
            sentence("cards.run.column_clock", {}),
            sentence("cards.run.column_act", {}),
            sentence("cards.run.column_with", {}),
            sentence("cards.run.column_done", {}),
        ),
        rows=rows,
        band=sentence("cards.run.band", {}),
        feet=_feet(load),
        continued=sentence("cards.run.continued", {}),
        page=sentence("cards.run.page", {"number": load.number, "loads": len(plan.loads)}),
    )


def _title(load: Load) -> str:
    own = load.own_times_s
    if own and max(own) - min(own) >= 1.0:
        return sentence("cards.run.title_own", {"number": load.number, "low_s": min(own), "high_s": max(own)})
    return sentence("cards.run.title", {"number": load.number, "time_s": load.time_s})


def _zero_moment(load: Load) -> str:
    if any(act.does == "enter" for act in load.schedule):
        return "enter"
    return "full" if load.clock.startswith("full") else "drop"


def _subtitle(plan: Plan, load: Load, *, fahrenheit: bool) -> tuple[str, ...]:
    films = list(dict.fromkeys(sheet.film for sheet in plan.sheets if sheet.load == load.number))
    shown_films = [short(film, 40) for film in films]
    if len(shown_films) > 3:
        shown_films = [*shown_films[:2], counted("more_film", len(films) - 2)]
    what = sentence(
        "cards.run.films",
        {
            "films": shown_films,
            "developer": short(load.developer, 40),
            "dilution": clean(load.dilution),
            "vessel": short(load.vessel, 40),
        },
    )
    temp = sentence("cards.run.temp", {"temp_c": load.temp_c})
    if fahrenheit and not manner().us:
        temp = sentence(
            "cards.run.temp_f", {"temp_c": load.temp_c, "temp": decimal(f"{load.temp_c * 1.8 + 32.0:.1f} °F")}
        )
    if abs(load.shown_temp_c - load.temp_c) >= 0.05:
        temp = f"{temp}{sentence('cards.run.temp_shown', _thermometer(load))}"
    parts = [f"{what} {temp}."]
    rule = "each" if any(act.does == "enter" for act in load.schedule) else load.clock
    parts.append(sentence(f"cards.clock.{rule}", {}))
    low_s, high_s = load.window_s
    if load.own_times_s is None:
        code = "cards.run.window" if low_s <= high_s else "cards.run.no_window"
        parts.append(sentence(code, {"low_s": low_s, "high_s": high_s}))
    outside = [
        label(sheet.id, 30) for sheet in plan.sheets if sheet.load == load.number and sheet.deviation > 1.0 + 1e-9
    ]
    if outside:
        parts.append(sentence("cards.run.outside", {"sheets": outside}))
    return tuple(parts)


def _thermometer(load: Load) -> dict[str, object]:
    return {"thermometer": thermometer_name(load), "temp_c": load.shown_temp_c}


def _feet(load: Load) -> tuple[tuple[str, str], ...]:
    """What must not wait, what to do in a power cut, and how to keep hands, eyes and drains safe."""
    names = bath_names(load)
    feet = [(sentence("cards.foot.wait_title", {}), _must_not_wait(load, names))]
    turns = load.vessel_kind in ("drum", "tubes")
    feet.append(
        (
            sentence("cards.foot.power_title", {}),
            sentence("cards.foot.power_turned" if turns else "cards.foot.power_still", {}),
        )
    )
    feet.append((sentence("cards.foot.care_title", {}), sentence("cards.foot.care", {})))
    feet.append((sentence("cards.foot.waste_title", {}), sentence("cards.foot.waste", {})))
    told = [clean_sentence(note.code, note.params) for note in load.notes]
    if told:
        feet.append((sentence("cards.foot.know_title", {}), " ".join(told)))
    return tuple(feet)


def _must_not_wait(load: Load, names: dict[str, str]) -> str:
    drains = [act for act in load.schedule if act.kind == "develop" and act.does in ("drain", "lift")]
    pours = [index for index, act in enumerate(load.schedule) if act.does in ("pour", "move")]
    last = max((i for i, act in enumerate(load.schedule) if act.kind == "develop"), default=-1)
    after = next((index for index in pours if index > last), None)
    if not drains or after is None:
        return sentence("cards.foot.wait", {})
    act = load.schedule[after]
    params = {
        "bath": clean(act.bottle) if act.bottle else names[act.key],
        "hand_s": hand_moment_s(drains[-1].clock_s if drains[-1].does == "drain" else drains[0].clock_s),
    }
    if any(one.does == "enter" for one in load.schedule):
        return sentence("cards.foot.wait_each", params)
    return sentence("cards.foot.wait_bottle" if act.bottle else "cards.foot.wait_bath", params)
