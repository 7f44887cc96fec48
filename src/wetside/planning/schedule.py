"""The acts of a load, each anchored to an earlier act, so that a late hand moves what follows and nothing else."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.planning.documents.plan import Act
from wetside.planning.documents.words import BathKind, VesselKind
from wetside.planning.resolved import baths_of, developing_shares
from wetside.values.conditions import ClockRule

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wetside.planning.documents.evening import Bath, Process, Vessel
    from wetside.planning.ways import Moment

OWN_TIME_KINDS = frozenset({VesselKind.TUBES, VesselKind.TRAY, VesselKind.HANGERS})
"""Vessels in which each sheet has its own time."""


def gives_own_times(process: Process, vessel: Vessel) -> bool:
    """Whether each sheet has its own time: in trays, tubes and hangers, where one developing bath decides it.

    Through several developing baths the sheets go together, so that none lies in the air while another still soaks.
    """
    developing = sum(1 for bath in baths_of(process) if bath.does is BathKind.DEVELOP)
    return vessel.kind in OWN_TIME_KINDS and developing == 1


FROM_FULL = frozenset({ClockRule.FULL_TO_DRAIN, ClockRule.FULL_TO_DRAINED})
TO_DRAINED = frozenset({ClockRule.FULL_TO_DRAINED, ClockRule.POUR_TO_DRAINED})


class PourParts(NamedTuple):
    """Volumes of the developer of a load. [ml]"""

    volume_ml: float
    concentrate_ml: float
    water_ml: float


class SheetTime(NamedTuple):
    """A sheet and its own time, for vessels that allow one. [s]"""

    id: str
    time_s: float


def schedule_of_load(
    process: Process,
    vessel: Vessel,
    time_s: float,
    pour: PourParts,
    temp_c: float,
    reads_high_c: float,
    own_times: Sequence[SheetTime] | None = None,
    moments: Sequence[Moment] = (),
) -> tuple[Act, ...]:
    """Acts of a load, from the first pour to hanging.

    Parameters
    ----------
    process : Process
    vessel : Vessel
    time_s : float
        Planned developing time, by the process's clock rule. [s]
    pour : PourParts
        Developer.
    temp_c : float
        True temperature of the developer. [C]
    reads_high_c : float
        What the thermometer shows too much. [C]
    own_times : sequence of SheetTime, optional
        For trays, tubes and hangers: each sheet's own time.
    moments : sequence of Moment
        Agitations and looks inside the first developing bath.

    Returns
    -------
    acts : tuple of Act
        In the order of the hands. ``clock_s`` is 0 at the start of the first developing time. Equal loads of an evening
        share one tuple.
    """
    own = None if own_times is None else tuple(own_times)
    return _schedule(process, vessel, time_s, pour, temp_c, reads_high_c, own, tuple(moments))


@lru_cache(maxsize=64)
def _schedule(
    process: Process,
    vessel: Vessel,
    time_s: float,
    pour: PourParts,
    temp_c: float,
    reads_high_c: float,
    own_times: tuple[SheetTime, ...] | None,
    moments: tuple[Moment, ...],
) -> tuple[Act, ...]:
    """Work out the acts once for loads that are equal."""
    builder = _Builder(process, vessel, temp_c, reads_high_c, pour, moments)
    baths = baths_of(process)
    shares = developing_shares(baths)
    developing = [index for index, bath in enumerate(baths) if bath.does is BathKind.DEVELOP]
    for index, bath in enumerate(baths):
        is_developing = bath.does is BathKind.DEVELOP
        span_s = bath.time_s if bath.time_s is not None else shares.get(index, 0.0) * time_s
        inside = developing[0] <= index <= developing[-1]
        may_wait = not developing[0] < index <= developing[-1] + 1
        if is_developing and own_times is not None:
            builder.add_own_times(bath, list(own_times), waits=may_wait)
        else:
            builder.add(bath, span_s, developing=is_developing, waits=may_wait, drain_waits=not inside)
    return builder.finished()


class _Builder:
    """Collects acts while it walks through the baths; times are relative until the first developing clock is known."""

    def __init__(
        self,
        process: Process,
        vessel: Vessel,
        temp_c: float,
        reads_high_c: float,
        pour: PourParts,
        moments: Sequence[Moment],
    ) -> None:
        self.process, self.vessel, self.temp_c, self.reads_high_c, self.pour = (
            process,
            vessel,
            temp_c,
            reads_high_c,
            pour,
        )
        self.moments: Sequence[Moment] = moments
        self.acts: list[dict[str, Any]] = []
        self.now_s = 0.0
        self.anchor, self.anchor_s = "start", 0.0
        self.zero_s: float | None = None
        self.count = 0

    def _act(self, key: str, does: str, bath: Bath, at_s: float, **more: object) -> None:
        temp_c = bath.temp_c if bath.temp_c is not None else self.temp_c
        self.acts.append(
            {
                "key": key,
                "does": does,
                "anchor": self.anchor,
                "offset_s": at_s - self.anchor_s,
                "clock_s": at_s,
                "bath": bath.name or "",
                "kind": bath.does.value,
                "bottle": bath.bottle,
                "temp_c": temp_c,
                "shown_temp_c": temp_c + self.reads_high_c,
                "after": bath.after.value,
                "out_of_vessel": bath.out_of_vessel,
                **more,
            }
        )
        self.anchor, self.anchor_s = key, at_s

    def _volumes(self, bath: Bath, developing: bool) -> dict[str, object]:
        if developing:
            return {
                "volume_ml": self.pour.volume_ml,
                "concentrate_ml": self.pour.concentrate_ml,
                "water_ml": self.pour.water_ml,
            }
        return {"volume_ml": bath.volume_ml if bath.volume_ml is not None else self.pour.volume_ml}

    def add(self, bath: Bath, span_s: float, *, developing: bool, waits: bool, drain_waits: bool) -> None:
        """One bath, as many times as it has changes."""
        for change in range(1, bath.changes + 1):
            self.count += 1
            number = self.count
            rule = self.process.clock
            pour_at = self.now_s
            self._act(
                f"{number}.pour",
                "move" if bath.out_of_vessel else "pour",
                bath,
                pour_at,
                waits=waits,
                duration_s=span_s,
                changes=change if bath.changes > 1 else 1,
                **self._volumes(bath, developing),
            )
            full_at = pour_at + (0.0 if bath.out_of_vessel else self.vessel.pour_s)
            clock_at = full_at
            if developing:
                if self.zero_s is None:
                    self.zero_s = full_at if rule in FROM_FULL else pour_at
                clock_at = full_at if rule in FROM_FULL else pour_at
                self._act(f"{number}.full", "full", bath, full_at, waits=False, duration_s=span_s)
                if rule not in FROM_FULL:
                    self.anchor, self.anchor_s = f"{number}.pour", pour_at
                self._add_moments(bath, number, clock_at)
            else:
                self.anchor, self.anchor_s = f"{number}.pour", pour_at
            drain_at = clock_at + span_s - (self.vessel.drain_s if developing and rule in TO_DRAINED else 0.0)
            if bath.out_of_vessel:
                self.now_s = drain_at
                continue
            self._act(
                f"{number}.drain",
                "drain",
                bath,
                drain_at,
                waits=drain_waits,
                duration_s=self.vessel.drain_s,
                changes=change if bath.changes > 1 else 1,
            )
            self.now_s = drain_at + self.vessel.drain_s

    def _add_moments(self, bath: Bath, number: int, clock_at: float) -> None:
        """Acts inside a developing time, each anchored to the clock's start; the drain is anchored there as well."""
        anchor, anchor_s = self.anchor, self.anchor_s
        for place, moment in enumerate(self.moments, start=1):
            self.anchor, self.anchor_s = anchor, anchor_s
            self._act(
                f"{number}.{moment.does}.{place}",
                moment.does,
                bath,
                clock_at + moment.at_s,
                waits=False,
                duration_s=moment.lasts_s,
            )
        self.anchor, self.anchor_s = anchor, anchor_s
        self.moments = ()

    def add_own_times(self, bath: Bath, sheets: list[SheetTime], *, waits: bool) -> None:
        """Sheets go in one by one, the longest first, and come out one by one, so that each has exactly its own time.

        The next sheet enters ``spacing`` later, and later still by the difference of the two times, so that no two come
        out closer than ``spacing``.
        """
        self.count += 1
        number = self.count
        self._act(
            f"{number}.pour",
            "pour",
            bath,
            self.now_s,
            waits=waits,
            duration_s=max(one.time_s for one in sheets),
            **self._volumes(bath, developing=True),
        )
        entered_s = self.now_s + self.vessel.pour_s
        if self.zero_s is None:
            self.zero_s = entered_s
        first_s = entered_s
        pour_key, pour_s = self.anchor, self.anchor_s
        found: list[tuple[float, str, str, str, float, dict[str, object]]] = []
        previous: SheetTime | None = None
        for place, one in enumerate(sorted(sheets, key=lambda one: (-one.time_s, one.id)), start=1):
            if previous is not None:
                entered_s += self.vessel.spacing_s + previous.time_s - one.time_s
            goes_in, comes_out = f"{number}.in.{place}", f"{number}.out.{place}"
            told: dict[str, object] = {"sheet": one.id, "duration_s": one.time_s}
            found.append((entered_s, goes_in, "enter", pour_key, pour_s, told))
            found.append((entered_s + one.time_s, comes_out, "lift", goes_in, entered_s, {"sheet": one.id}))
            previous = one
        for place, moment in enumerate(self.moments, start=1):
            key, told = f"{number}.{moment.does}.{place}", {"duration_s": moment.lasts_s}
            found.append((first_s + moment.at_s, key, moment.does, f"{number}.in.1", first_s, told))
        self.moments = ()
        for at_s, key, does, self.anchor, self.anchor_s, more in sorted(found, key=lambda one: one[0]):
            self._act(key, does, bath, at_s, waits=False, **more)
        last_out = max((one for one in found if one[2] == "lift"), key=lambda one: one[0])
        self.anchor, self.anchor_s = last_out[1], last_out[0]
        self.now_s = last_out[0]

    def finished(self) -> tuple[Act, ...]:
        """All acts, with the clock at zero where development begins, and hanging at the end."""
        zero_s = self.zero_s or 0.0
        last = self.acts[-1]
        self.acts.append(
            {
                "key": "hang",
                "does": "hang",
                "anchor": last["key"],
                "offset_s": self.now_s - last["clock_s"],
                "clock_s": self.now_s,
                "bath": "",
                "kind": BathKind.OTHER.value,
            }
        )
        for act in self.acts:
            act["clock_s"] -= zero_s
        return tuple(Act(**act) for act in self.acts)
