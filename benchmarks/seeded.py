"""Archives to measure pages on: one evening, and ten years of them. Invented names, drawn with a fixed seed.

``python benchmarks/seeded.py FOLDER evening|years`` makes one; the tables are filled directly, for a service writes a
record at a time and twenty thousand of them would take an hour.
"""

from __future__ import annotations

import datetime as dt
import os
import random
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterator

SEED = 20_261_125
START = dt.datetime(2016, 11, 25, 18, 0, tzinfo=dt.UTC)
NAMES = ("Tolland 100", "Morvane 320", "Harrow Pan", "Sedge Ortho", "Linnet 50", "Brock 400")
PLACES = ("saltings", "weir", "quarry", "mill race", "chapel", "orchard", "pier", "moor gate", "kiln", "ferry steps")
SIZES = ("9x12cm", "13x18cm", "4x5in")


class Scale(NamedTuple):
    """How much an archive holds."""

    sheets: int
    runs: int
    events: int
    bottles: int
    lines: int
    waiting: int


EVENING = Scale(sheets=24, runs=3, events=60, bottles=12, lines=48, waiting=24)
MIDDLE = Scale(sheets=2_000, runs=150, events=3_000, bottles=60, lines=1_200, waiting=24)
YEARS = Scale(sheets=20_000, runs=3_000, events=200_000, bottles=150, lines=12_000, waiting=24)
SCALES = {"evening": EVENING, "middle": MIDDLE, "years": YEARS}


def fill(scale: Scale) -> None:
    """Fill an open, empty archive."""
    from django.db import transaction

    from wetside.records import models

    chance = random.Random(SEED)
    span_s = 86_400 if scale is EVENING else 3650 * 86_400

    def moment(share: float) -> dt.datetime:
        return START + dt.timedelta(seconds=share * span_s)

    def keyed(name: str) -> dict[str, Any]:
        return {"name": name, "name_key": name.casefold()}

    with transaction.atomic():
        films = [models.Film.objects.create(**keyed(name), ei=80.0 + 40 * rank) for rank, name in enumerate(NAMES)]
        models.Developer.objects.create(**keyed("Brackwater"))
        aim = models.Aim.objects.create(**keyed("middle grade"), printing="graded-paper", density_range=1.05)
        vessel = {"kind": "drum", "min_ml": 300.0, "max_ml": 1000.0, "facts": {"places": 6}}
        models.Vessel.objects.create(**keyed("long drum"), **vessel)
        processes = []
        for rank in range(4):
            process = models.Process.objects.create(**keyed(f"drum, strength {rank + 1}"), newest=rank + 1)
            processes.append(process)
            for number in range(1, rank + 2):
                models.ProcessVersion.objects.create(
                    process=process,
                    version=number,
                    developer="Brackwater",
                    dilution=f"1+{10 + rank * 4 + number}",
                    temp_c=20.0,
                    clock="full-to-drain",
                )
        for film in films:
            film.facts = {
                "times": [
                    {"developer": "Brackwater", "dilution": f"1+{10 + rank * 4 + rank + 1}", "time": "8:00"}
                    for rank in range(4)
                ]
            }
            film.save()
        models.Instrument.objects.create(**keyed("glass rod"), kind="thermometer", reads_high=0.4)
        _bottles(models, scale, chance, moment)
        sheets = [
            models.Sheet(
                label=(label := f"{PLACES[number % len(PLACES)]} {number + 1}"),
                label_key=label,
                film=films[number % len(films)],
                size=SIZES[number // 7 % len(SIZES)],
                process=processes[number % len(processes)],
                aim=aim,
                n=float(chance.choice((-1, 0, 0, 0, 1))),
                exposed=moment(number / scale.sheets).date(),
                state="waiting" if number >= scale.sheets - scale.waiting else "developed",
                facts={"shadow": {"ev": 9, "zone": 3}},
            )
            for number in range(scale.sheets)
        ]
        models.Sheet.objects.bulk_create(sheets, batch_size=500)
        _histories(models, sheets)
        _plans(models, scale, sheets, moment)


def _histories(models: Any, sheets: list[Any]) -> None:
    history = models.Sheet.history.model
    columns = [field.attname for field in models.Sheet._meta.concrete_fields]  # noqa: SLF001
    history.objects.bulk_create(
        (
            history(
                **{name: getattr(sheet, name) for name in columns},
                history_date=START,
                history_type="+",
                history_user_id="Ines",
            )
            for sheet in sheets
        ),
        batch_size=500,
    )


def _bottles(models: Any, scale: Scale, chance: random.Random, moment: Any) -> None:
    each = scale.lines // scale.bottles
    for number in range(scale.bottles):
        shelved = number >= scale.bottles - 12
        mark = f"{'DSFWT'[number % 5]}{number + 1}"
        role = ("developer", "stop", "fixer", "wetting", "toner")[number % 5]
        lines = [
            models.BottleLine(
                number=rank + 1,
                at=moment((number + rank / each) / scale.bottles),
                kind="filled" if rank == 0 else "film" if film else "drawn",
                change_ml=5000.0 if rank == 0 else 0.0 if film else -float(chance.randrange(5, 40)),
                area_units=0.25 if film else 0.0,
                film_class="ordinary" if film else "",
            )
            for rank in range(each)
            for film in (role == "fixer" and rank % 2 == 1,)
        ]
        bottle = models.Bottle.objects.create(
            mark=mark,
            mark_key=mark.casefold(),
            holds=("Brackwater", "Stop", "Fixer", "Wetting agent", "Toner")[number % 5],
            role=role,
            left_ml=sum(line.change_ml for line in lines),
            seen_units=sum(line.area_units for line in lines),
            mixed=moment(number / scale.bottles).date(),
            emptied_at=None if shelved else moment((number + 1) / scale.bottles),
        )
        for line in lines:
            line.bottle = bottle
        models.BottleLine.objects.bulk_create(lines, batch_size=500)


def _plans(models: Any, scale: Scale, sheets: list[Any], moment: Any) -> None:
    plans = max(1, scale.runs // 3)
    each = max(1, (scale.sheets - scale.waiting) // plans)
    per_run = scale.events // scale.runs
    places, events = [], []
    for number in range(plans):
        at = moment(number / plans)
        plan = models.Plan.objects.create(
            name=f"evening {number + 1}", date=at.date(), frozen_at=at, evening="format = 1\n", document={"format": 1}
        )
        mine = sheets[number * each : (number + 1) * each] if scale.sheets > scale.waiting else []
        places += [
            models.PlanSheet(plan=plan, sheet=sheet, rank=rank + 1, load=rank % 3 + 1)
            for rank, sheet in enumerate(mine)
        ]
        for load in range(1, 4):
            run = models.Run.objects.create(plan=plan, load=load, name=f"load {load}", state="ended")
            events += list(_events(models, run, per_run, at + dt.timedelta(hours=load)))
    models.PlanSheet.objects.bulk_create(places, batch_size=500)
    models.RunEvent.objects.bulk_create(events, batch_size=500)


def _events(models: Any, run: Any, count: int, at: dt.datetime) -> Iterator[Any]:
    for number in range(1, count + 1):
        yield models.RunEvent(
            run=run,
            seq=number,
            kind="act.done",
            version=1,
            at_utc=at + dt.timedelta(seconds=20 * number),
            boot_s=1000.0 + 20 * number,
            boot_id="seeded",
            device="bench",
            device_number=number,
            data={"act": f"a{number}"},
        )


def main() -> int:
    """Make an archive in a folder."""
    folder, scale = Path(sys.argv[1]), SCALES[sys.argv[2]]
    os.environ["WETSIDE_DATA"] = str(folder)
    from wetside.web.serve import open_darkroom

    open_darkroom()
    fill(scale)
    return 0


if __name__ == "__main__":
    sys.exit(main())
