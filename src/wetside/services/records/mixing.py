"""Mixing from the shelf: what to measure, from which bottles, in which order; the same core as ``wetside mix``.

Nothing is booked here: see ``mixing_booked``.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.adapters.chemistry_data import load_formulas, load_water
from wetside.adapters.clock import day_of
from wetside.chemistry.cautions import cautions_of
from wetside.chemistry.formulas import mixing_order, scale_formula
from wetside.chemistry.mixing import cylinder_mark_ml, mix_volumes, warnings_of_mix
from wetside.chemistry.mixing_temperature import water_temperature_c
from wetside.errors import InputError, Place, RefusedError
from wetside.planning.documents.keys import kept_table, key
from wetside.planning.resolved import SAID_AFTER_NAMES
from wetside.records.models import Process, ProcessVersion
from wetside.services.records.bottles import WASTE, standing
from wetside.services.records.bottles_judged import SPENT, judge
from wetside.services.records.ledger import lines_of
from wetside.services.records.shelf import tables
from wetside.services.records.shelf_told import Told, all_told
from wetside.values.dilution import STOCK, Dilution
from wetside.values.names import plain_name

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable, Mapping, Sequence
    from uuid import UUID

    from wetside.chemistry.formulas import Formula, MixingOrder
    from wetside.records.models import Bottle

FORMULA = "formula:"
"""In front of a formula's key, where a liquid of the shelf could stand too."""
OCCASION = {"developer": "develop", "stop": "stop", "fixer": "fix", "wash-aid": "wash-aid", "wetting": "wetting"}


@kept_table
class MixAsk:
    """What is to be mixed."""

    what: str = key("what", "text", "Liquid of your shelf, or a formula.", example="Brackwater")
    volume_ml: float = key("volume", "volume", "Working solution wanted.", low=1.0, high=100_000.0, example="600 ml")
    second: str | None = key("second", "text", "Only for a developer of two or three parts.", default=None)
    third: str | None = key("third", "text", "Only for a developer of three parts.", default=None)
    dilution: Dilution | None = key(
        "dilution", "dilution", "Parts of concentrate and water; a formula needs none.", default=None, example="1+24"
    )
    temp_c: float = key("temp", "temperature", "What it is to have when you pour it.", default=20.0, low=5.0, high=45.0)
    concentrate_c: float | None = key(
        "concentrate_temp",
        "temperature",
        "If you took it, that of the water is reckoned.",
        default=None,
        low=1.0,
        high=45.0,
    )
    smallest_ml: float = key(
        "smallest",
        "volume",
        "Less than this is told: take a pipette, or mix more.",
        default=10.0,
        low=0.1,
        high=1000.0,
        example="10 ml",
    )


class Draw(NamedTuple):
    """A bottle that a part may come from, and how much of it. [ml]

    ``spent`` is True where it is past its end by what is known of it; such a bottle is never proposed.
    """

    bottle: Bottle
    draw_ml: float
    spent: bool


class Part(NamedTuple):
    """A liquid to measure: as reckoned and at a mark of the measure [ml], its bottles, and what is lacking. [ml]

    ``lacking_ml`` is negative where more is drawn than is wanted.
    """

    name: str
    exact_ml: float
    wanted_ml: float
    draws: tuple[Draw, ...]
    lacking_ml: float


class OrderStep(NamedTuple):
    """An ingredient of a formula in its place, and why it stands there."""

    name: str
    amount: float
    amount_high: float | None
    unit: str
    reasons: tuple[Told, ...]

    @property
    def decimals(self) -> int:
        """Decimals that a scale or a measure shows of it."""
        return 2 if self.amount < 10 else 1


class Order(NamedTuple):
    """Water to begin with [ml], how warm [C; None where nothing was read], the ingredients, and what holds for all."""

    start_low_ml: float
    start_high_ml: float
    water_low_c: float | None
    water_high_c: float | None
    steps: tuple[OrderStep, ...]
    reasons: tuple[Told, ...]


class Proposal(NamedTuple):
    """How to mix: parts and water [ml], or a formula in its order; steps and notes as codes with parameters."""

    title: str
    role: str
    dilution: Dilution
    total_ml: float
    parts: tuple[Part, ...]
    water_ml: float
    water_c: float | None
    formula: Formula | None
    order: Order | None
    steps: tuple[Told, ...]
    notes: tuple[Told, ...]
    cautions: tuple[str, ...]

    @property
    def ready(self) -> bool:
        """Whether everything is there."""
        return all(abs(part.lacking_ml) <= slack_ml(part.wanted_ml) for part in self.parts)


def slack_ml(amount_ml: float) -> float:
    """Difference that a measure does not show: half a mark. [ml]"""
    return cylinder_mark_ml(amount_ml) / 2.0 + 1e-6


def at_a_mark_ml(amount_ml: float) -> float:
    """Amount at the nearest mark of the smallest usual measure that holds it. [ml]

    Examples
    --------
    >>> at_a_mark_ml(31.25), at_a_mark_ml(6.07)
    (31.0, 6.0)
    """
    mark = cylinder_mark_ml(amount_ml)
    return round(max(1, math.floor(amount_ml / mark + 0.5)) * mark, 3)


class Choices(NamedTuple):
    """What can be mixed: liquids on the shelf, formulas, and processes with the developer and dilution they ask for."""

    liquids: tuple[str, ...]
    formulas: tuple[tuple[str, str], ...]
    processes: tuple[tuple[str, str, str, float], ...]


def choices() -> Choices:
    """What can be mixed from this shelf."""
    liquids: dict[str, str] = {}
    for bottle in standing().exclude(role__startswith=WASTE):
        liquids.setdefault(plain_name(bottle.holds), bottle.holds)
    formulas = tuple((FORMULA + one.key, one.key.replace("-", " ")) for one in load_formulas().values())
    names = {one.pk: one.name for one in Process.kept.all()[:100]}
    newest: dict[Any, ProcessVersion] = {}
    for version in ProcessVersion.objects.filter(process__in=list(names)).order_by("version"):
        newest[version.process_id] = version
    processes = tuple(
        (names[key], version.developer, version.dilution, version.temp_c)
        for key, version in newest.items()
        if version.dilution and version.dilution != "stock"
    )
    return Choices(tuple(liquids.values()), formulas, tuple(sorted(processes)))


def propose(ask: MixAsk, today: dt.date, chosen: Mapping[UUID, float] | None = None) -> Proposal:
    """How to mix what is asked for.

    Parameters
    ----------
    ask : MixAsk
    today : date
        For what is spent.
    chosen : mapping, optional
        What the user draws from each bottle instead of the proposal. [ml]

    Raises
    ------
    WetsideError
        Where nothing of that name stands on the shelf, or the dilution does not fit.
    """
    if ask.what.startswith(FORMULA):
        return _of_formula(ask)
    dilution = ask.dilution
    if dilution is None:
        raise InputError("services.mixing.dilution_needed", place=Place(field="dilution"), what=ask.what)
    names = _liquids(ask, dilution)
    mix = mix_volumes(dilution, ask.volume_ml)
    stock = _stock(names, today)
    parts = tuple(
        _part(name, exact, found, chosen) for name, exact, found in zip(names, mix.concentrates_ml, stock, strict=True)
    )
    wanted = math.fsum(part.wanted_ml for part in parts)
    water_ml = max(0.0, round(ask.volume_ml - wanted, 3))
    role = stock[0][0][0].role
    return Proposal(
        title=f"{' + '.join(found[0][0].holds for found in stock)} {dilution.text}",
        role=role,
        dilution=dilution,
        total_ml=ask.volume_ml,
        parts=parts,
        water_ml=water_ml,
        water_c=_water_c(ask, wanted, water_ml),
        formula=None,
        order=None,
        steps=_steps(role, parts, water_ml, ask.volume_ml),
        notes=all_told(warnings_of_mix(mix, ask.smallest_ml)),
        cautions=cautions_of(["mix", OCCASION.get(role, "other")]),
    )


def _liquids(ask: MixAsk, dilution: Dilution) -> list[str]:
    """Names of the concentrates, as many as the dilution has parts."""
    parts = len(dilution.agents)
    given = (("what", ask.what), ("second", ask.second), ("third", ask.third))
    if parts > len(given):
        raise InputError("services.mixing.many_liquids", place=Place(field="dilution"), dilution=dilution.text)
    names: list[str] = []
    for number, (field, name) in enumerate(given, 1):
        if not name and number <= parts:
            code = "services.mixing.two_liquids" if number == 2 else "services.mixing.three_liquids"
            raise InputError(code, place=Place(field=field), dilution=dilution.text)
        if not name:
            continue
        if number > parts:
            code = "services.mixing.one_liquid" if parts == 1 else "services.mixing.no_third"
            raise InputError(code, place=Place(field=field), dilution=dilution.text)
        if plain_name(name) in map(plain_name, names):
            raise InputError("services.mixing.same_twice", place=Place(field=field), what=name)
        names.append(name)
    return names


def _stock(names: Sequence[str], today: dt.date) -> list[list[tuple[Bottle, bool]]]:
    """Bottles of each liquid, the oldest first, each with whether it is spent."""
    wanted = [plain_name(name) for name in names]
    on_shelf = [one for one in standing().exclude(role__startswith=WASTE) if _names(one) & set(wanted)]
    ledgers = lines_of((one.pk for one in on_shelf), dated=False)
    found = []
    for name, shown in zip(wanted, names, strict=True):
        # A process names the product; a bottle may say more, such as that it holds the concentrate of it.
        own = [one for one in on_shelf if plain_name(one.holds) == name] or [
            one for one in on_shelf if name in _names(one) and one.form != "working"
        ]
        if not own:
            raise InputError("services.mixing.not_on_shelf", place=Place(field="what"), what=shown)
        own.sort(key=_age)
        found.append([(one, judge(one, ledgers[one.pk], tables(), today).state == SPENT) for one in own])
    return found


def _names(bottle: Bottle) -> set[str]:
    names = {plain_name(name) for name in (bottle.holds, bottle.product) if name}
    return names | {name.removesuffix(f" {word}") for name in names for word in SAID_AFTER_NAMES}


def _age(bottle: Bottle) -> tuple[str, str]:
    """Day on which a bottle's liquid began to age; without one, the day on which it was entered."""
    day = bottle.opened or bottle.mixed or day_of(bottle.made_at)
    return day.isoformat(), bottle.mark_key


def _part(
    name: str, exact_ml: float, stock: Iterable[tuple[Bottle, bool]], chosen: Mapping[UUID, float] | None
) -> Part:
    wanted = at_a_mark_ml(exact_ml)
    open_ml = wanted
    draws = []
    for bottle, spent in stock:
        proposed = 0.0 if spent else round(min(bottle.left_ml or 0.0, open_ml), 3)
        draw = proposed if chosen is None else chosen.get(bottle.pk, 0.0)
        open_ml = round(open_ml - draw, 3)
        draws.append(Draw(bottle, draw, spent))
    return Part(name, exact_ml, wanted, tuple(draws), open_ml)


def _water_c(ask: MixAsk, concentrate_ml: float, water_ml: float) -> float | None:
    """Temperature of the water that brings the mix to its temperature; None without one of the bottle. [C]"""
    if ask.concentrate_c is None or water_ml <= 0.1:
        return None
    try:
        return water_temperature_c(concentrate_ml, ask.concentrate_c, water_ml, ask.temp_c, load_water())
    except RefusedError as error:
        raise error.at(Place(field="concentrate_temp")) from None


def _steps(role: str, parts: Sequence[Part], water_ml: float, total_ml: float) -> tuple[Told, ...]:
    """Order of mixing of liquids: most of the water, the concentrates in their order, the rest of the water."""
    amounts = [{"name": part.name, "volume_ml": part.wanted_ml} for part in parts]
    if water_ml <= 0:
        return all_told(("services.mixing.pour", params) for params in amounts)
    first_ml = max(10.0, math.floor(water_ml * 0.75 / 10.0) * 10.0) if water_ml >= 20.0 else water_ml
    code = "services.mixing.acid_in" if role == "stop" else "services.mixing.pour_in"
    return (
        Told("services.mixing.water_first", {"volume_ml": first_ml}),
        *all_told((code, params) for params in amounts),
        Told("services.mixing.make_up", {"total_ml": total_ml}),
    )


def _of_formula(ask: MixAsk) -> Proposal:
    wanted = ask.what.removeprefix(FORMULA)
    formula = load_formulas().get(wanted)
    if formula is None:
        raise InputError("services.mixing.no_formula", place=Place(field="what"), what=wanted)
    scaled = scale_formula(formula, ask.volume_ml, smallest_ml=ask.smallest_ml)
    return Proposal(
        title=wanted.replace("-", " "),
        role=formula.kind,
        dilution=STOCK,
        total_ml=ask.volume_ml,
        parts=(),
        water_ml=0.0,
        water_c=None,
        formula=formula,
        order=_order(mixing_order(formula, ask.volume_ml)),
        steps=(),
        notes=all_told(scaled.notes),
        cautions=cautions_of(["mix", OCCASION.get(formula.kind, "other")]),
    )


def _order(order: MixingOrder) -> Order:
    steps = tuple(
        OrderStep(
            step.ingredient.name,
            step.ingredient.amount,
            step.ingredient.amount_high,
            step.ingredient.unit,
            all_told(step.reasons),
        )
        for step in order.steps
    )
    return Order(
        order.start_low_ml,
        order.start_high_ml,
        order.water_low_c,
        order.water_high_c,
        steps,
        all_told(order.reasons),
    )
