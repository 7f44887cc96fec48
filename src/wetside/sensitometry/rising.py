"""The nearest set that never falls."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence


def rising_fit(values: Sequence[float]) -> tuple[float, ...]:
    """Never falling sequence with the least sum of squared differences from a given one.

    Parameters
    ----------
    values : sequence of float
        Finite. [density]

    Returns
    -------
    fit : tuple of float
        A set that rises comes back as it is. [density]

    Notes
    -----
    Neighbours that fall are pooled into their mean, and the pool again with its neighbours, until none falls.

    References
    ----------
    .. [1] ayer-1955, pooling adjacent violators.

    Examples
    --------
    >>> rising_fit((1.0, 3.0, 2.0, 4.0))
    (1.0, 2.5, 2.5, 4.0)
    """
    pools: list[tuple[float, int]] = []
    for value in values:
        mean, count = float(value), 1
        while pools and pools[-1][0] > mean:
            before, size = pools.pop()
            mean = (before * size + mean * count) / (size + count)
            count += size
        pools.append((mean, count))
    return tuple(mean for mean, count in pools for _ in range(count))
