"""After the reel is open: which sheet hangs on which clip, by what marks it is known, and which number it gets."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any, NamedTuple

from django.db import transaction

from wetside.errors import InputError, ManyErrors, Place, RefusedError
from wetside.records import models
from wetside.records.one_writer import NEGATIVES, one_writer
from wetside.runs import commands as c
from wetside.runs.hung_orders import standing_orders
from wetside.runs.state import Status
from wetside.services.records import runs
from wetside.services.records.changes import change
from wetside.services.records.runs_numbered import hung_why, keep_numbers
from wetside.services.records.runs_sheets import sheets_of_run
from wetside.services.records.sheets_names import holder_and_side
from wetside.values.names import plain_name

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from wetside.runs.moment import Moment
    from wetside.runs.state import State

_NUMBER = re.compile(r"(?P<before>.*?)(?P<figures>[0-9]{1,9})")
LOOKED_BACK = 200
"""Numbers that the next one is worked out from, the newest: an old way of counting is forgotten. Our choice."""


class Hung(NamedTuple):
    """A sheet of a run that is to hang: its name in the run, film, the notch of its holder, and its record.

    ``alike`` is True where another sheet of the run has the same film and no other notch, so that nothing tells the
    two apart. A record that was removed gets no number as long as it is.
    """

    name: str
    film: str
    notch: str
    alike: bool
    record: models.Sheet | None


class Hanging(NamedTuple):
    """Where a run stands with its hanging.

    ``asked`` is True where the order may be told; ``order`` the sheets by clip, None where it is unknown or was not
    told yet; ``numbers`` what the clips are proposed to get, in their order, empty where no sheet has a record;
    ``seen`` how many facts of the run were known when this was asked; ``otherwise`` whether another order was told by
    somebody who had not seen this one, and nobody has settled which is right.
    """

    run: models.Run
    sheets: tuple[Hung, ...]
    lost: tuple[str, ...]
    asked: bool
    identified: bool
    order: tuple[str, ...] | None
    numbers: tuple[str, ...]
    seen: int
    otherwise: bool

    @property
    def hangs(self) -> tuple[Hung, ...]:
        """Sheets in the order of their clips, where that is known."""
        by_name = {one.name: one for one in self.sheets}
        return tuple(by_name[name] for name in self.order or () if name in by_name)


def hanging_of(run: models.Run, state: State | None = None, *, marks: bool = True) -> Hanging:
    """Sheets of a run with what they are known by, and the numbers that are next.

    Parameters
    ----------
    run : Run
    state : State, optional
        Where it stands, if that is known already.
    marks : bool
        Whether notches and numbers are wanted too.
    """
    conduct = runs.conduct_of(run)
    state = conduct.state() if state is None else state
    records = {} if run.rehearsal else sheets_of_run(run)
    sheets = _hung(state, records, _notches(records.values()) if marks else {})
    order = None if state.order is None else tuple(name for name in state.order if name in state.sheets)
    order = order if state.identified else None
    return Hanging(
        run=run,
        sheets=sheets,
        lost=state.lost,
        asked=state.status in (Status.RUNNING, Status.ENDED) and bool(sheets) and not run.rehearsal,
        identified=state.identified,
        order=order,
        numbers=_numbers(order, records, len(sheets)) if records and marks else (),
        seen=len(conduct.facts),
        otherwise=bool(state.hung_otherwise),
    )


def _hung(state: State, records: Mapping[str, models.Sheet], notches: Mapping[str, str]) -> tuple[Hung, ...]:
    script = state.script
    if script is None:
        return ()
    own = [one for one in script.sheets if one.id not in state.lost]
    marks = [(plain_name(one.film), notches.get(_holder(records.get(one.id)), "")) for one in own]
    return tuple(
        Hung(one.id, one.film, notch, marks.count((film, notch)) > 1, records.get(one.id))
        for one, (film, notch) in zip(own, marks, strict=True)
    )


def _holder(sheet: models.Sheet | None) -> str:
    named = holder_and_side(sheet.holder) if sheet is not None and sheet.holder else None
    return "" if named is None else plain_name(named[0])


def _notches(sheets: Iterable[models.Sheet]) -> dict[str, str]:
    """Notch that each holder cuts into its sheets, by the holder's name."""
    wanted = {_holder(sheet) for sheet in sheets} - {""}
    if not wanted:
        return {}
    return dict(models.Holder.kept.filter(name_key__in=wanted).exclude(notch="").values_list("name_key", "notch"))


def _numbers(order: tuple[str, ...] | None, records: Mapping[str, models.Sheet], count: int) -> tuple[str, ...]:
    """Numbers by clip: those that the sheets have, and the next ones for the others."""
    if order is None:
        return next_numbers(count)
    having = [records[name].negative if name in records else "" for name in order]
    fresh = iter(next_numbers(having.count("")))
    return tuple(number or next(fresh) for number in having)


def next_numbers(count: int) -> tuple[str, ...]:
    """Numbers that follow the one that was given last, in the darkroom's own way of counting; from 1 where none was.

    The figures at the end count on, with as many places as before; what stands before them stays.
    """
    # A number is given by a change, so the newest stand among the last entries of the history.
    written = models.Sheet.history.order_by("-history_id").values_list("id", "negative")[: 2 * LOOKED_BACK]
    numbered = {key for key, negative in written if negative}
    given = models.Sheet.kept.exclude(negative="").order_by("-developed_at", "-changed_at")
    if numbered:
        given = given.filter(pk__in=numbered)
    return numbers_after(list(given.values_list("negative", flat=True)[:LOOKED_BACK]), count)


def numbers_after(given: Sequence[str], count: int) -> tuple[str, ...]:
    """Numbers that follow.

    Parameters
    ----------
    given : sequence of str
        The newest first; what ends in no figure is passed over.
    count : int

    Examples
    --------
    >>> numbers_after(["B 019", "B 021", "sleeve 4"], 2), numbers_after(["", "box"], 2)
    (('B 022', 'B 023'), ('1', '2'))
    """
    known = [found for text in given if (found := _NUMBER.fullmatch(text.strip()))]
    if not known:
        return tuple(str(number) for number in range(1, count + 1))
    before, figures = known[0]["before"], len(known[0]["figures"])
    last = max(int(one["figures"]) for one in known if one["before"] == before)
    return tuple(f"{before}{number:0{figures}d}" for number in range(last + 1, last + count + 1))


def hang(
    run: models.Run, order: Sequence[str] | None, numbers: Sequence[str], now: Moment, *, seen: int | None = None
) -> Hanging:
    """Keep which sheet hangs on which clip, and give the negatives their numbers.

    Whoever had seen the order that counts corrects it. Where another page told one meanwhile, and this one says
    otherwise, that one counts on and both are kept, until a person settles it; the numbers follow.

    Parameters
    ----------
    run : Run
    order : sequence of str or None
        Sheets by clip, empty text where nothing was chosen; None where the order is not known, and then no sheet gets a
        number, because nobody knows whose it would be.
    numbers : sequence of str
        By clip; an empty one gives none.
    now : Moment
    seen : int, optional
        How many facts of the run the person had seen; all that there are if absent.

    Raises
    ------
    WetsideError
        With the clip's field where a sheet is missing or named twice; or if the run takes no order yet.
    """
    before = hanging_of(run)
    if not before.asked:
        raise RefusedError("services.run_after.nothing_hangs")
    told = None if order is None else _checked(order, before)
    records = {one.name: one.record for one in before.sheets}
    if told is not None:
        _check_numbers(told, records, numbers)
        removed = {name for name, record in records.items() if record is not None and record.removed_at is not None}
    knew = _known(run, before.seen if seen is None else seen)
    if _says_more(runs.standing(run).state, told, knew):
        decision = runs.command(run, c.Identify(told, knew), now)
        if decision.refusal is not None:
            params: dict[str, Any] = dict(decision.refusal.params)
            raise RefusedError(decision.refusal.code, **params)
    after = hanging_of(run)
    if told is not None:
        own = {name: record for name, record in records.items() if name not in removed}
        _number(run, told, own, numbers, counts=after.order == told)
    return hanging_of(run)


def _says_more(state: State, told: tuple[str, ...] | None, knew: Sequence[tuple[str, int]]) -> bool:
    """Whether an order is news: nobody's that stands, or said by somebody who has seen all of several that stand."""
    stand = standing_orders(state.orders)
    if told not in [one.order and tuple(name for name in one.order if name not in state.lost) for one in stand]:
        return True
    return bool(state.hung_otherwise) and {one.name for one in stand} <= set(knew)


def _known(run: models.Run, seen: int) -> tuple[tuple[str, int], ...]:
    """Tellings of the order that a person had seen who had seen so many facts."""
    conduct = runs.conduct_of(run)
    state = conduct.state()
    names = {fact.name for fact in conduct.facts[:seen]}
    return tuple(one.name for one in state.orders if one.name in names)


def _checked(order: Sequence[str], hanging: Hanging) -> tuple[str, ...]:
    names = [one.name for one in hanging.sheets]
    errors: list[InputError] = []
    for clip, name in enumerate(order, 1):
        place = Place(field=f"clip.{clip}")
        if name in hanging.lost:
            errors.append(InputError("services.run_after.clip_lost", place=place, sheet=name, clip=clip))
        elif name not in names:
            errors.append(InputError("services.run_after.clip_empty", place=place, clip=clip))
        elif name in order[: clip - 1]:
            errors.append(InputError("services.run_after.clip_twice", place=place, sheet=name))
    if errors:
        raise errors[0] if len(errors) == 1 else ManyErrors(errors)
    if len(order) != len(names):
        raise InputError("services.run_after.clips", place=Place(field="clip.1"), count=len(names))
    return tuple(order)


def _check_numbers(order: Sequence[str], records: Mapping[str, models.Sheet | None], numbers: Sequence[str]) -> None:
    """Refuse what is no number of a negative before anything is written, and a number that would name two."""
    errors: list[InputError] = []
    own = [record.pk for record in records.values() if record is not None]
    asked = [number for one in numbers if (number := one.strip()) and number.isprintable()]
    others = models.Sheet.kept.filter(negative__in=asked).exclude(pk__in=own)
    taken = {sheet.negative: str(sheet) for sheet in others}
    clip_of: dict[str, int] = {}
    for clip, (name, typed) in enumerate(zip(order, numbers, strict=False), 1):
        number, place = typed.strip(), Place(field=f"number.{clip}")
        if len(number) > models.LABEL_LENGTH or not number.isprintable():
            errors.append(InputError("services.runs.long_name", place=place, most=models.LABEL_LENGTH))
        elif not number or (record := records.get(name)) is None:
            continue
        elif record.removed_at is not None:
            errors.append(InputError("services.run_after.sheet_removed", place=place, sheet=str(record)))
        elif number in clip_of:
            errors.append(
                InputError("services.run_after.number_twice", place=place, number=number, clip=clip_of[number])
            )
        elif number in taken:
            errors.append(
                InputError("services.run_after.number_taken", place=place, number=number, sheet=taken[number])
            )
        clip_of.setdefault(number, clip)
    if errors:
        raise errors[0] if len(errors) == 1 else ManyErrors(errors)


def _number(
    run: models.Run,
    order: Sequence[str],
    records: Mapping[str, models.Sheet | None],
    numbers: Sequence[str],
    *,
    counts: bool,
) -> None:
    """Give the numbers, and keep them with the run by clip; only that where another order counts."""
    wanted = dict(zip(order, numbers, strict=False))
    with transaction.atomic():
        # The run first, then the numbers: whoever settles an order takes them in the same turn.
        run = models.Run.objects.select_for_update(of=("self",)).select_related("plan").get(pk=run.pk)
        if any(records.get(name) is not None and number.strip() for name, number in wanted.items()):
            keep_numbers(run, order, numbers)
        if not counts:
            return
        # Two pages that hang two runs count on from the same number: the second waits here, and then sees the first's.
        one_writer(NEGATIVES)
        _check_numbers(order, records, numbers)
        own = {sheet.pk for sheet in sheets_of_run(run).values()}
        for name, number in wanted.items():
            record = records.get(name)
            if record is None or record.pk not in own:  # untied in this very moment: it is not this run's to number
                continue
            if number.strip() and number.strip() != record.negative:
                change(record, {"negative": number.strip()}, why=hung_why(run))
