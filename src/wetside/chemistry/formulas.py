"""Formulas by weight: scaled to a volume, and put in the order in which they are dissolved.

Formulas come from the caller (``wetside.adapters.chemistry_data``), each read in a source. What their ingredients can
do to a person is told by hazard data, not here.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.chemistry.limits import check_amount_ml, check_positive
from wetside.chemistry.mixing import SMALLEST_MEASURE_ML
from wetside.errors import OutOfRangeError, UnknownNameError

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wetside.values.evidence import Source

SMALLEST_WEIGHED_G = 1.0
"""Least weight that a scale with steps of 0.1 g shows to 5 %. Our choice, a default that a caller can change. [g]"""

START_WATER = (0.5, 0.75)
"""Share of the final volume to begin with (us-navy-photography-1). [1]"""

DEVELOPER_WATER_C = (32.0, 52.0)
"""Water to dissolve a developer in, 90 to 125 F (us-navy-photography-1). [C]"""

FIXER_WATER_C = 27.0
"""Fixer is not mixed much above this, 80 F (us-navy-photography-1). [C]"""

HYPO_WATER_C = 32.0
"""Crystalline hypo chills its water, which therefore begins at this or more (anchell-2008, p. 268). [C]"""

PINCH_G = (1.0, 2.0)
"""The most sulfite that may go in before metol. [g]"""

_DEVELOPER_ORDER = ("metol", "sulfite", "acid", "agent", "alkali", "buffer", "restrainer")
_BATH_ORDER = ("hypo-solution", "hypo", "salt", "sulfite", "acid", "buffer", "alkali", "hardener")
ROLES = tuple(dict.fromkeys((*_DEVELOPER_ORDER, *_BATH_ORDER)))
"""What an ingredient can be in the order of mixing."""

KINDS = ("developer", "stop", "fixer")
"""What a formula can be."""


class Ingredient(NamedTuple):
    """One line of a formula: amount in g or ml, its upper end where the source gives a range, its role in the order."""

    name: str
    amount: float
    unit: str
    role: str
    amount_high: float | None = None
    unsaid: bool = False


class Formula(NamedTuple):
    """A formula as read: amounts for a volume of finished solution."""

    key: str
    kind: str
    ingredients: tuple[Ingredient, ...]
    made_up_to_ml: float
    source: Source
    use: str = ""
    note: str = ""


class ScaledFormula(NamedTuple):
    """A formula for another volume, with notes as codes and parameters."""

    ingredients: tuple[Ingredient, ...]
    total_ml: float
    notes: tuple[tuple[str, dict[str, object]], ...]


class MixingStep(NamedTuple):
    """An ingredient in its place, and why it stands there, as codes with parameters."""

    ingredient: Ingredient
    reasons: tuple[tuple[str, dict[str, float]], ...]


class MixingOrder(NamedTuple):
    """Water to begin with [ml], how warm [C; None where nothing was read], and what goes in one after the other."""

    start_low_ml: float
    start_high_ml: float
    water_low_c: float | None
    water_high_c: float | None
    steps: tuple[MixingStep, ...]
    reasons: tuple[tuple[str, dict[str, float]], ...]


def find_formula(formulas: Mapping[str, Formula], key: str) -> Formula:
    """Find the formula of a key.

    Parameters
    ----------
    formulas : mapping of str to Formula
    key : str

    Raises
    ------
    UnknownNameError
        If there is none; the known keys stand in it.

    Examples
    --------
    >>> from wetside.values.evidence import Source
    >>> bath = Formula("citric-stop", "stop", (Ingredient("citric acid", 15.0, "g", "acid"),), 1000.0, Source("own"))
    >>> find_formula({"citric-stop": bath}, "citric-stop").made_up_to_ml
    1000.0
    """
    if key not in formulas:
        raise UnknownNameError("chemistry.formula.unknown", value=key, known=sorted(formulas))
    return formulas[key]


def scale_formula(
    formula: Formula,
    total_ml: float,
    *,
    smallest_g: float = SMALLEST_WEIGHED_G,
    smallest_ml: float = SMALLEST_MEASURE_ML,
) -> ScaledFormula:
    """Formula for another volume of finished solution. [g, ml]

    Parameters
    ----------
    formula : Formula
    total_ml : float
        Finished solution wanted. [ml]
    smallest_g : float, optional
        Least weight that the scale shows well enough. [g]
    smallest_ml : float, optional
        Least volume that the measure shows well enough. [ml]

    Returns
    -------
    scaled : ScaledFormula
        Notes: ``chemistry.formula_note.small_weight`` and ``.small_volume`` with the total at which the amount can be
        measured; ``.range`` where the source gives one; ``.unsaid`` where it does not say which hydrate is meant.

    Raises
    ------
    OutOfRangeError
        If the total or an amount is out of range.

    Notes
    -----
    ``amount * total / made_up_to``: weights go with the volume.

    Examples
    --------
    >>> from wetside.values.evidence import Source
    >>> parts = (Ingredient("sodium sulfite anhydrous", 100.0, "g", "sulfite"), Ingredient("metol", 2.0, "g", "metol"))
    >>> scaled = scale_formula(Formula("own", "developer", parts, 1000.0, Source("own")), 300.0)
    >>> scaled.ingredients[0].amount, scaled.notes[0][0], scaled.notes[0][1]["total_ml"]
    (30.0, 'chemistry.formula_note.small_weight', 500.0)
    """
    check_amount_ml(total_ml)
    check_positive("made_up_to_ml", formula.made_up_to_ml)
    check_positive("smallest_g", smallest_g)
    check_positive("smallest_ml", smallest_ml)
    scale = total_ml / formula.made_up_to_ml
    scaled: list[Ingredient] = []
    notes: list[tuple[str, dict[str, object]]] = []
    for part in formula.ingredients:
        check_positive("amount", part.amount)
        amount = part.amount * scale
        high = None if part.amount_high is None else part.amount_high * scale
        scaled.append(part._replace(amount=amount, amount_high=high))
        smallest = smallest_ml if part.unit == "ml" else smallest_g
        if amount < smallest * (1 - 1e-9):
            code = "chemistry.formula_note.small_volume" if part.unit == "ml" else "chemistry.formula_note.small_weight"
            enough_ml = total_ml * smallest / amount
            params = {"name": part.name, "amount": amount, "smallest": smallest, "total_ml": enough_ml}
            notes.append((code, params))
        if high is not None:
            notes.append(
                (
                    "chemistry.formula_note.range",
                    {"name": part.name, "low": amount, "high": high, "unit": part.unit},
                )
            )
        if part.unsaid:
            notes.append(("chemistry.formula_note.unsaid", {"name": part.name}))
    return ScaledFormula(tuple(scaled), total_ml, tuple(notes))


def mixing_order(formula: Formula, total_ml: float | None = None) -> MixingOrder:
    """Put the ingredients in the order in which they are dissolved, each with its reasons.

    Parameters
    ----------
    formula : Formula
    total_ml : float, optional
        Finished solution; the formula's own if absent. [ml]

    Returns
    -------
    order : MixingOrder
        Reasons of the whole, then of each step, as ``chemistry.order.`` codes.

    Raises
    ------
    OutOfRangeError
        If the total is out of range, or a role or the kind is unknown.

    Notes
    -----
    Metol goes in before the sulfite, for it does not dissolve in a strong solution of it; other agents after it, for it
    keeps them from the air; alkali last. In a fixer the sulfite stands between hypo and acid, which on plain hypo would
    throw sulfur, and alum comes after both.

    References
    ----------
    .. [1] us-navy-photography-1: shares and temperatures of the water, each item dissolved before the next.
    .. [2] hammond-chemicals: metol and sulfite. studio-light-1916: acid with sulfite before alum or hypo.

    Examples
    --------
    >>> from wetside.values.evidence import Source
    >>> parts = (Ingredient("sodium sulfite anhydrous", 100.0, "g", "sulfite"), Ingredient("metol", 2.0, "g", "metol"))
    >>> order = mixing_order(Formula("own", "developer", parts, 1000.0, Source("own")))
    >>> [(step.ingredient.name, [code for code, _ in step.reasons]) for step in order.steps]
    ... # doctest: +NORMALIZE_WHITESPACE
    [('metol', ['chemistry.order.metol_first', 'chemistry.order.pinch']),
     ('sodium sulfite anhydrous', ['chemistry.order.sulfite_after_metol'])]
    """
    scaled = scale_formula(formula, formula.made_up_to_ml if total_ml is None else total_ml)
    if formula.kind not in KINDS:
        raise OutOfRangeError("chemistry.formula.kind", value=formula.kind, known=KINDS)
    places = _DEVELOPER_ORDER if formula.kind == "developer" else _BATH_ORDER
    for part in scaled.ingredients:
        if part.role not in places:
            raise OutOfRangeError("chemistry.formula.role", value=part.role, name=part.name, known=places)
    ordered = sorted(scaled.ingredients, key=lambda part: places.index(part.role))
    roles = {part.role for part in ordered}
    # The reason for sulfite before an agent or an acid is not one where the formula has none.
    steps = tuple(MixingStep(part, _reasons(part.role, roles, formula.kind)) for part in ordered)
    low_c, high_c = _water(formula.kind, roles)
    whole: list[tuple[str, dict[str, float]]] = [("chemistry.order.one_by_one", {}), ("chemistry.order.make_up", {})]
    if "acid" in roles:
        whole.append(("chemistry.caution.acid_into_water", {}))
    start_low, start_high = (share * scaled.total_ml for share in START_WATER)
    return MixingOrder(start_low, start_high, low_c, high_c, steps, tuple(whole))


def _water(kind: str, roles: set[str]) -> tuple[float | None, float | None]:
    """How warm the water is to begin with; crystalline hypo outranks the limit of fixers, for it chills the water."""
    if kind == "developer":
        return DEVELOPER_WATER_C
    if "hypo" in roles:
        return HYPO_WATER_C, None
    return (None, FIXER_WATER_C) if kind == "fixer" else (None, None)


def _reasons(role: str, roles: set[str], kind: str) -> tuple[tuple[str, dict[str, float]], ...]:
    """Why an ingredient stands where it stands."""
    low_g, high_g = PINCH_G
    sulfite = "sulfite" in roles
    if role == "metol":
        pinch = ("chemistry.order.pinch", {"low_g": low_g, "high_g": high_g})
        return (("chemistry.order.metol_first", {}), pinch) if sulfite else ()
    if role == "hypo":
        return (("chemistry.order.hypo_chills", {"warm_c": HYPO_WATER_C, "fixer_c": FIXER_WATER_C}),)
    code = {
        ("developer", "sulfite"): "chemistry.order.sulfite_after_metol" if "metol" in roles else None,
        ("developer", "agent"): "chemistry.order.agent_after_sulfite" if sulfite else None,
        ("developer", "alkali"): "chemistry.order.alkali_last" if roles & {"metol", "agent"} else None,
        ("developer", "restrainer"): "chemistry.order.restrainer_end",
        ("fixer", "sulfite"): "chemistry.order.sulfite_before_acid" if "acid" in roles else None,
        ("fixer", "acid"): "chemistry.order.acid_after_sulfite" if sulfite else None,
        ("fixer", "hardener"): "chemistry.order.alum_after_acid" if "acid" in roles else None,
    }.get((kind, role))
    return () if code is None else ((code, {}),)
