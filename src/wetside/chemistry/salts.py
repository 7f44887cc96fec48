"""Salts and their water of crystallisation: masses of compounds, and what to weigh of the salt at hand.

The tables come from the caller (``wetside.adapters.chemistry_data``).
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.chemistry.limits import check_amount_ml, check_not_negative, check_positive
from wetside.errors import AmbiguousError, OutOfRangeError, RefusedError, UnknownNameError, UnreadableError

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from wetside.values.evidence import Source


class Salt(NamedTuple):
    """A substance that is weighed: what works in it, how often a formula unit holds that, and the ion beside it."""

    name: str
    formula: str
    mass_g_mol: float
    active: str
    actives: float
    partner: str


class SaltRule(NamedTuple):
    """A factor as a book prints it."""

    asks: str
    have: str
    printed: float
    source: Source


class RuleBeside(NamedTuple):
    """A printed factor, and by how much it weighs out more than the computed one."""

    rule: SaltRule
    more_percent: float


class Substitute(NamedTuple):
    """What to weigh of the salt at hand, with notes as codes and parameters."""

    amount_g: float
    factor: float
    notes: tuple[tuple[str, dict[str, object]], ...]


def formula_mass_g_mol(formula: str, weights: Mapping[str, float]) -> float:
    """Mass of a mole of a compound. [g/mol]

    Parameters
    ----------
    formula : str
        Elements with counts, brackets, and water after a point: ``Na2S2O3.5H2O``, ``K2CO3.1.5H2O``, ``(NH4)2S2O3``.
    weights : mapping of str to float
        Standard atomic weights by symbol. [g/mol]

    Raises
    ------
    UnreadableError
        If the text is no formula.
    UnknownNameError
        If an element is not in the table.

    References
    ----------
    .. [1] iupac-weights

    Examples
    --------
    >>> weights = {"H": 1.008, "C": 12.011, "O": 15.999, "Na": 22.990}
    >>> round(formula_mass_g_mol("Na2CO3.H2O", weights), 3)
    124.003
    """
    import re

    mass = 0.0
    # A point before a count and a symbol, or before a symbol, separates; "1.5H2O" after it is one count.
    first, *waters = re.split(r"\.(?=[A-Z(]|\d+(?:\.\d+)?[A-Z(])", formula.replace(" ", ""), maxsplit=1)
    for part in (first, *waters):
        found = re.fullmatch(r"(\d+(?:\.\d+)?)?([A-Z(].*)", part)
        if not found:
            raise UnreadableError("chemistry.salt.formula", value=formula)
        mass += float(found[1] or 1) * _group_mass(found[2], formula, weights)
    return mass


def _group_mass(text: str, formula: str, weights: Mapping[str, float]) -> float:
    """Mass of a group without a count in front; brackets are worked off on a stack."""
    import re

    sums, position = [0.0], 0
    token = re.compile(r"(?P<element>[A-Z][a-z]?)(?P<count>\d*)|(?P<open>\()|\)(?P<times>\d*)")
    while position < len(text):
        found = token.match(text, position)
        if not found:
            raise UnreadableError("chemistry.salt.formula", value=formula)
        position = found.end()
        if found["open"]:
            sums.append(0.0)
        elif found["element"]:
            if found["element"] not in weights:
                raise UnknownNameError("chemistry.salt.element", value=found["element"], known=sorted(weights))
            sums[-1] += weights[found["element"]] * int(found["count"] or 1)
        elif len(sums) > 1:
            inner = sums.pop()
            sums[-1] += inner * int(found["times"] or 1)
        else:
            raise UnreadableError("chemistry.salt.formula", value=formula)
    if len(sums) > 1 or not sums[0]:
        raise UnreadableError("chemistry.salt.formula", value=formula)
    return sums[0]


def find_salt(salts: Mapping[str, Salt], name: str) -> Salt:
    """Find a substance by its name, or by a part of it that leaves no doubt.

    Parameters
    ----------
    salts : mapping of str to Salt
        By name.
    name : str
        In any case of letters; a bare ``borax`` leaves open which hydrate is meant.

    Raises
    ------
    AmbiguousError
        If several substances have all the words.
    UnknownNameError
        If none has.

    Examples
    --------
    >>> dry = Salt("sodium carbonate anhydrous", "Na2CO3", 105.988, "carbonate", 1, "sodium")
    >>> find_salt({dry.name: dry}, "Carbonate, anhydrous").formula
    'Na2CO3'
    """
    from wetside.values.names import plain_name

    typed = plain_name(name.replace(",", " "))
    if typed in salts:
        return salts[typed]
    words = set(typed.split())
    fitting = sorted(known for known in salts if words and words <= set(plain_name(known).split()))
    if len(fitting) == 1:
        return salts[fitting[0]]
    if fitting:
        raise AmbiguousError("chemistry.salt.which", value=name, choices=fitting)
    raise UnknownNameError("chemistry.salt.unknown", value=name, known=sorted(salts))


def salt_factor(asks: Salt, have: Salt) -> float:
    """Factor from the weight that a formula asks for to that of the salt at hand. [1]

    Parameters
    ----------
    asks : Salt
        Salt that the formula names.
    have : Salt
        Salt at hand, with the same working part.

    Raises
    ------
    RefusedError
        If the two do not work by the same part.

    Notes
    -----
    ``(mass of have / its working parts) / (mass of asks / its working parts)``: as many moles of the part that works.

    References
    ----------
    .. [1] iupac-weights; anchell-2008, p. 329-330, for most of the factors in two decimals.

    Examples
    --------
    >>> crystals = Salt("sodium sulfite heptahydrate", "Na2SO3.7H2O", 252.142, "sulfite", 1, "sodium")
    >>> round(salt_factor(crystals, Salt("sodium sulfite anhydrous", "Na2SO3", 126.037, "sulfite", 1, "sodium")), 3)
    0.5
    """
    if asks.active != have.active:
        raise RefusedError("chemistry.salt.other_active", asks=asks.name, have=have.name)
    return (have.mass_g_mol / have.actives) / (asks.mass_g_mol / asks.actives)


def salt_substitute(asked_g: float, asks: Salt, have: Salt) -> Substitute:
    """What to weigh of the salt at hand for an amount that a formula asks of another. [g]

    Parameters
    ----------
    asked_g : float
        Weight in the formula. [g]
    asks, have : Salt

    Returns
    -------
    substitute : Substitute
        With the note ``chemistry.salt_note.other_partner`` where the ion beside the working part differs (potassium for
        sodium): equal moles, which need not behave alike.

    Raises
    ------
    OutOfRangeError
        If the amount is negative or not finite.
    RefusedError
        If the two do not work by the same part.

    Examples
    --------
    >>> crystals = Salt("sodium carbonate decahydrate", "Na2CO3.10H2O", 286.138, "carbonate", 1, "sodium")
    >>> dry = Salt("sodium carbonate anhydrous", "Na2CO3", 105.988, "carbonate", 1, "sodium")
    >>> round(salt_substitute(100.0, crystals, dry).amount_g, 1)
    37.0
    """
    check_not_negative("asked_g", asked_g)
    factor = salt_factor(asks, have)
    notes: list[tuple[str, dict[str, object]]] = []
    if asks.partner != have.partner:
        notes.append(("chemistry.salt_note.other_partner", {"asks": asks.name, "have": have.name}))
    return Substitute(asked_g * factor, factor, tuple(notes))


def rules_beside(factor: float, asks: Salt, have: Salt, rules: Iterable[SaltRule]) -> tuple[RuleBeside, ...]:
    """Printed factors for the same exchange, each with what it would weigh out too much. [%]

    Parameters
    ----------
    factor : float
        Of :func:`salt_factor`. [1]
    asks, have : Salt
    rules : iterable of SaltRule

    Raises
    ------
    OutOfRangeError
        If the factor is not positive.

    Notes
    -----
    Old books disagree with each other by up to 12 % on soda crystals: 2.5 and 2.8 for
    2.70.

    References
    ----------
    .. [1] henley-formulas-3; wellington-handbook, p. 160.

    Examples
    --------
    >>> from wetside.values.evidence import Source
    >>> crystals = Salt("sodium carbonate decahydrate", "Na2CO3.10H2O", 286.138, "carbonate", 1, "sodium")
    >>> dry = Salt("sodium carbonate anhydrous", "Na2CO3", 105.988, "carbonate", 1, "sodium")
    >>> rule = SaltRule(dry.name, crystals.name, 2.5, Source("henley-formulas-3"))
    >>> round(rules_beside(salt_factor(dry, crystals), dry, crystals, [rule])[0].more_percent, 1)
    -7.4
    """
    check_positive("factor", factor)
    return tuple(
        RuleBeside(rule, (rule.printed / factor - 1.0) * 100.0)
        for rule in rules
        if (rule.asks, rule.have) == (asks.name, have.name)
    )


def percent_solution_g(percent: float, total_ml: float) -> float:
    """Weight of a solid that is made up with water to a solution of some percent. [g]

    Parameters
    ----------
    percent : float
        Grams in 100 ml of finished solution; more than 0, at most 100. [%]
    total_ml : float
        Finished solution. [ml]

    Raises
    ------
    OutOfRangeError
        If the percentage is not in this range, or the total out of range.

    Notes
    -----
    The solid is dissolved in less water and made up to the volume; it is not added to the volume.

    References
    ----------
    .. [1] us-army-ss0513, lesson 1; wellington-handbook, p. 134.

    Examples
    --------
    >>> percent_solution_g(10.0, 250.0)
    25.0
    """
    check_positive("percent", percent)
    if percent > 100:
        raise OutOfRangeError("chemistry.percent.over_hundred", value=percent)
    check_amount_ml(total_ml)
    return percent / 100.0 * total_ml
