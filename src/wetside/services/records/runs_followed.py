"""What of a booking follows when a person changes an amount: waste, film, water, and what the bottles lose.

One rule: what a person typed by hand stays as it was typed; everything else is reckoned anew from it. Nothing is cut to
size here. A difference that cannot be is refused where it is booked (:mod:`wetside.services.records.runs_sums`).
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.planning.documents.words import AfterUse, BathKind
from wetside.records import models
from wetside.services.records.runs_after import WASTE_ROLE, WHOLE_FROM_ML
from wetside.services.records.runs_topped_up import over_the_mark_ml

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping

    from wetside.services.records.runs_after import After, Row
    from wetside.services.records.runs_bath import BathBooked, Booking
    from wetside.services.records.runs_film import RunFilm

FOLLOWING = ("drawn", "returned", "ordinary", "tabular", "waste", "wasted")
"""Fields of a bath that follow the others; the bottle, and what is told lost, are a person's word alone."""
WATER = "water"
LEAST_ML = 0.05
"""What no measure shows is no difference. [ml]"""


class Said(NamedTuple):
    """A code with its parameters."""

    code: str
    params: Mapping[str, Any]


class Followed(NamedTuple):
    """A booking whose amounts fit each other; ``told`` says of each row what its bottle loses, and what is missing."""

    booking: Booking
    told: Mapping[str, tuple[Said, ...]]


def followed(after: After, booking: Booking, by_hand: Collection[str]) -> Followed:
    """Reckon anew what follows from the amounts of a booking.

    Parameters
    ----------
    after : After
        What was proposed.
    booking : Booking
        As it stands in the fields.
    by_hand : collection of str
        Names of the fields that a person typed, such as ``b4.returned``: they stay.
    """
    maker = _Follower(after, booking, frozenset(by_hand))
    baths = maker.baths()
    water_ml = booking.water_ml if WATER in maker.by_hand else maker.water_ml(baths)
    found = booking._replace(baths=tuple(baths.items()), water_ml=water_ml)
    return Followed(found, {row.name: maker.told(row, baths) for row in maker.rows})


class _Follower:
    """Walks through the rows: what tops up a bath before the bath itself, which has to leave room for it."""

    def __init__(self, after: After, booking: Booking, by_hand: frozenset[str]) -> None:
        self.given = dict(booking.baths)
        self.rows = [row for row in after.rows if row.name in self.given]
        self.by_hand, self.due, self.after = by_hand, after.due, after
        self.by_key = {str(one.pk): one for one in (*after.bottles, *after.waste)}
        self.waste = sorted(after.waste, key=lambda one: one.mark_key)
        self.film: RunFilm = after.film.with_said(booking.film)

    def baths(self) -> dict[str, BathBooked]:
        tops = {row.tops: self._drawn(row, self.given[row.name]) for row in self.rows if row.tops}
        found: dict[str, BathBooked] = {}
        for row in self.rows:
            given = self.given[row.name]
            if given.bottle and self._bottle(given) is None:
                found[row.name] = given  # it left the shelf meanwhile: that is told where it is booked
            elif row.tops:
                found[row.name] = tops[row.tops]
            elif row.part > 1:
                found[row.name] = self._drawn(row, self.given[row.name])
            else:
                found[row.name] = self._bath(row, tops.get(row.name))
        return found

    def _typed(self, row: Row, field: str) -> bool:
        return f"{row.name}.{field}" in self.by_hand

    def _bottle(self, bath: BathBooked) -> models.Bottle | None:
        return self.by_key.get(bath.bottle or "")

    def _drawn(self, row: Row, bath: BathBooked) -> BathBooked:
        if self._typed(row, "drawn"):
            return bath
        bottle = self._bottle(bath)
        if bottle is None or (row.bottle is not None and bottle.pk == row.bottle.pk):
            return replace(bath, drawn_ml=0.0 if bottle is None else row.drawn_ml)
        if bottle.left_ml is None:
            return replace(bath, drawn_ml=0.0)
        if row.tops:
            return replace(bath, drawn_ml=round((self.due.add_ml if self.due else None) or 0.0, 1))
        from_part = row.part_ml is not None and bottle.form != models.BottleForm.WORKING
        wanted_ml = row.part_ml if from_part else row.volume_ml
        return replace(bath, drawn_ml=round(max(0.0, (wanted_ml or 0.0) - row.mixed_ml), 1))

    def _bath(self, row: Row, topped: BathBooked | None) -> BathBooked:
        bath = self._drawn(row, self.given[row.name])
        bottle = self._bottle(bath)
        over_ml = self._over_ml(bath, bottle, topped)
        if not self._typed(row, "returned"):
            bath = replace(bath, returned_ml=self._back_ml(row, bath, bottle, over_ml))
        bath = self._with_film(row, bath, bottle)
        due_ml = self._waste_ml(row, bath, bottle, over_ml)
        if not self._typed(row, "waste"):
            told = self._typed(row, "wasted") and bath.waste_ml > 0
            vessel = self._vessel(row) if due_ml > 0 or told else row.waste
            bath = replace(bath, waste=None if vessel is None else str(vessel.pk))
        if not self._typed(row, "wasted"):
            bath = replace(bath, waste_ml=due_ml if bath.waste else 0.0)
        return bath

    def _over_ml(self, bath: BathBooked, bottle: models.Bottle | None, topped: BathBooked | None) -> float:
        """Used developer that has no room below the mark once its replenisher is in. [ml]"""
        if topped is None or self.due is None or bottle is None or bottle.left_ml is None or not bath.drawn_ml:
            return 0.0
        return min(over_the_mark_ml(self.due, bottle.left_ml, topped.drawn_ml), bath.drawn_ml)

    def _back_ml(self, row: Row, bath: BathBooked, bottle: models.Bottle | None, over_ml: float) -> float:
        if row.after != AfterUse.BACK.value or bottle is None:
            return 0.0
        if self._typed(row, "wasted") and bath.waste_ml > 0:
            return max(0.0, round(bath.drawn_ml - bath.lost_ml - bath.waste_ml, 1))
        back_ml = bath.drawn_ml - bath.lost_ml - over_ml
        if over_ml > 0:
            back_ml = round(back_ml, 0 if back_ml >= WHOLE_FROM_ML else 1)
        return max(0.0, round(back_ml, 1))

    def _with_film(self, row: Row, bath: BathBooked, bottle: models.Bottle | None) -> BathBooked:
        """Film counts on a bottle that the bath goes back to; of one that is gone nothing is left to count it on."""
        back = row.after == AfterUse.BACK.value
        unknown_yet = back and not bath.drawn_ml and not self._typed(row, "returned")
        counts = bottle is not None and (unknown_yet or (bath.returned_ml > 0 and (back or not dilutes(row, bottle))))
        ordinary, tabular = self.film.units(row.kind) if counts else (0.0, 0.0)
        return replace(
            bath,
            ordinary=bath.ordinary if self._typed(row, "ordinary") else ordinary,
            tabular=bath.tabular if self._typed(row, "tabular") else tabular,
        )

    def _poured_ml(self, row: Row, bath: BathBooked, bottle: models.Bottle | None) -> float:
        """What was in the vessel: as the run has it, or as somebody says that it was drawn. [ml]"""
        if mixed_unknown(row, bottle):
            return 0.0
        drawn_ml = bath.drawn_ml + row.mixed_ml
        as_told = bottle is not None and not dilutes(row, bottle) and self._typed(row, "drawn")
        if as_told or row.volume_ml is None:
            return drawn_ml
        return row.volume_ml

    def _missing_ml(self, row: Row, bath: BathBooked, bottle: models.Bottle | None) -> float:
        """What neither came back nor is told lost: of what a bottle gave, or of what was poured for one use. [ml]"""
        if row.after == AfterUse.BACK.value:
            return round(bath.drawn_ml - bath.returned_ml - bath.lost_ml, 1)
        back_ml = 0.0 if dilutes(row, bottle) else bath.returned_ml
        return round(self._poured_ml(row, bath, bottle) - back_ml - bath.lost_ml, 1)

    def _waste_ml(self, row: Row, bath: BathBooked, bottle: models.Bottle | None, over_ml: float) -> float:
        """What is for the waste vessel: what did not come back, as far as film and walls do not keep it. [ml]"""
        if row.kind not in WASTE_ROLE:
            return 0.0
        missing_ml = self._missing_ml(row, bath, bottle)
        if row.after == AfterUse.BACK.value:
            least_ml = LEAST_ML if over_ml > 0 else self.film.kept_back_ml
            return missing_ml if bottle is not None and missing_ml > least_ml else 0.0
        return missing_ml if row.after == AfterUse.WASTE.value and missing_ml > LEAST_ML else 0.0

    def _vessel(self, row: Row) -> models.Bottle | None:
        if row.waste is not None:
            return row.waste
        return next((one for one in self.waste if one.role == WASTE_ROLE.get(row.kind)), None)

    def water_ml(self, baths: Mapping[str, BathBooked]) -> float:
        """Water from the tap: more concentrate in the same bath is less water. [ml]

        Where more was drawn than the bath was, nobody knows what it became, and the water stays as it was.
        """
        more_ml = drawn_ml = room_ml = 0.0
        for row in self.rows:
            bath = baths[row.name]
            if row.part_ml is None or not dilutes(row, self._bottle(bath)):
                continue
            own_ml = bath.drawn_ml + row.mixed_ml if self._typed(row, "drawn") else row.part_ml
            more_ml += own_ml - row.part_ml
            drawn_ml += own_ml
            room_ml += (row.volume_ml or 0.0) if row.part == 1 else 0.0
        return self.after.water_ml - (round(more_ml, 1) if drawn_ml <= room_ml else 0.0)

    def told(self, row: Row, baths: Mapping[str, BathBooked]) -> tuple[Said, ...]:
        """What the bottle of a row loses and holds afterwards, and what did not come back."""
        bath = baths[row.name]
        bottle = self._bottle(bath)
        found: list[Said] = []
        loses_ml = round(bath.drawn_ml - bath.returned_ml, 1)
        if bottle is not None and bottle.left_ml is not None and (bath.drawn_ml or bath.returned_ml):
            left_ml = round(bottle.left_ml + self._gains_ml(bath.bottle, baths), 1)
            code = "services.run_after.loses" if loses_ml > 0 else "services.run_after.loses_nothing"
            if left_ml < 0:
                code = "services.run_after.loses_too_much"
            found.append(Said(code, {"mark": bottle.mark, "loses_ml": loses_ml, "left_ml": left_ml}))
        if row.tops or row.part > 1 or bottle is None or row.kind not in WASTE_ROLE:
            return tuple(found)
        missing_ml = round(self._missing_ml(row, bath, bottle) - bath.waste_ml, 1)
        if row.after == AfterUse.BACK.value and missing_ml > LEAST_ML and bath.waste is None:
            most_ml = self.film.kept_back_ml
            kept = missing_ml <= most_ml
            code = "services.run_after.kept_back" if kept else "services.run_after.not_accounted"
            found.append(Said(code, {"missing_ml": missing_ml, "most_ml": most_ml}))
        return tuple(found)

    def _gains_ml(self, key: str | None, baths: Mapping[str, BathBooked]) -> float:
        """What all rows together change in a bottle; less than nothing where it loses. [ml]"""
        total_ml = 0.0
        for row in self.rows:
            bath = baths[row.name]
            if bath.bottle == key:
                total_ml += bath.returned_ml - bath.drawn_ml
            if row.tops and row.tops in baths and baths[row.tops].bottle == key:
                total_ml += bath.drawn_ml
        return total_ml


def dilutes(row: Row, bottle: models.Bottle | None) -> bool:
    """Whether a bath is mixed for one use, with water, from what its bottle holds."""
    if row.part_ml is None or row.after == AfterUse.BACK.value or row.part_ml >= (row.volume_ml or 0.0):
        return False
    return bottle is None or bottle.form != models.BottleForm.WORKING


def mixed_unknown(row: Row, bottle: models.Bottle | None) -> bool:
    """Whether nobody knows how much a bath was: a run at once tells no volumes, and its bottle holds a concentrate."""
    if row.volume_ml is not None or bottle is None:
        return False
    form = models.BottleForm.WORKING if row.kind is BathKind.DEVELOP else models.BottleForm.CONCENTRATE
    return (bottle.form == form) is (row.kind is not BathKind.DEVELOP)
