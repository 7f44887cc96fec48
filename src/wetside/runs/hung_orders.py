"""Which sheet hangs on which clip, where several devices told it: which telling stands, and which speak against it.

A telling carries the names of those that its teller had seen. It takes their place, whatever the clocks say: whoever
saw an order and tells another one corrects it. Two whose tellers had not seen the other's stand side by side; where
they differ, a person settles it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence

Name = tuple[str, int]
Order = tuple[str, ...] | None


class OrderTold(NamedTuple):
    """One telling: its fact's name, sheets by clip (None: not known), and the tellings that its teller had seen.

    ``knew`` is None in facts of the first form, which kept no such names: what was told before it, by the run's clock.
    """

    name: Name
    order: Order
    knew: frozenset[Name] | None


def standing_orders(told: Sequence[OrderTold]) -> tuple[OrderTold, ...]:
    """Tellings that no other one has replaced.

    Parameters
    ----------
    told : sequence of OrderTold
        In the order of the run's clock, without those that were taken back.

    Notes
    -----
    Two that each claim to have seen the other, which nobody can have told, leave the last of all.

    Examples
    --------
    >>> first = OrderTold(("desk", 1), ("a", "b"), frozenset())
    >>> blind = OrderTold(("phone", 1), ("b", "a"), frozenset())
    >>> [one.name[0] for one in standing_orders([first, blind])]
    ['desk', 'phone']
    >>> [one.name[0] for one in standing_orders([first, blind._replace(knew=frozenset([("desk", 1)]))])]
    ['phone']
    """
    replaced: set[Name] = set()
    before: set[Name] = set()
    for one in told:
        replaced |= (before if one.knew is None else one.knew) - {one.name}
        before.add(one.name)
    return tuple(one for one in told if one.name not in replaced) or tuple(told[-1:])


def order_that_counts(told: Sequence[OrderTold]) -> OrderTold | None:
    """The first of those that stand, by the run's clock; None where nobody told any."""
    return next(iter(standing_orders(told)), None)


def orders_otherwise(told: Sequence[OrderTold], lost: Collection[str]) -> tuple[OrderTold, ...]:
    """Tellings that stand and say otherwise than the one that counts; of those that agree, the first.

    Parameters
    ----------
    told : sequence of OrderTold
    lost : collection of str
        Sheets that hang nowhere: an order that only names one of them more says nothing else.
    """
    by_order: dict[Order, OrderTold] = {}
    for one in standing_orders(told):
        by_order.setdefault(_hung(one, lost), one)
    return tuple(by_order.values())[1:]


def speaking_against(told: Sequence[OrderTold], one: OrderTold, lost: Collection[str]) -> tuple[Name, ...]:
    """Tellings without which this one counts: all that say otherwise, but those that its teller had seen."""
    knew = frozenset() if one.knew is None else one.knew
    return tuple(
        other.name for other in told if other.name not in {*knew, one.name} and _hung(other, lost) != _hung(one, lost)
    )


def to_leave_out(told: Sequence[OrderTold], one: OrderTold, lost: Collection[str]) -> tuple[Name, ...]:
    """Tellings without which nothing says this order any more: itself, those that agree, and what they had replaced."""
    counts = order_that_counts(told)
    against = set() if counts is None else set(speaking_against(told, counts, lost))
    stood = {other.name for other in standing_orders(told)}
    gone: list[Name] = []
    back = [other.name for other in standing_orders(told) if _hung(other, lost) == _hung(one, lost)]
    while back:
        gone += back
        left = [other for other in told if other.name not in gone]
        back = [other.name for other in standing_orders(left) if other.name in against - stood]
    return tuple(gone)


def _hung(one: OrderTold, lost: Collection[str]) -> Order:
    return None if one.order is None else tuple(name for name in one.order if name not in lost)
