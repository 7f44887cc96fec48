"""Archives to measure pages on: one evening, and ten years of them. Invented names, drawn with a fixed seed.

``python benchmarks/seeded.py FOLDER evening|years`` makes one; the tables are filled directly, for a service writes a
record at a time and twenty thousand of them would take an hour. Every run has the facts of one that was really
conducted, every plan the evening and the document of one that was really planned. Beside them stands the furnished
darkroom of the tests, with runs that were booked, hung and looked at; ``pages.json`` names its pages.
"""

from __future__ import annotations

import datetime as dt
import json
import os
import random
import sys
from functools import cache
from importlib.resources import as_file, files
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterator

SEED = 20_261_125
START = dt.datetime(2016, 11, 25, 18, 0, tzinfo=dt.UTC)
NAMES = ("Rushmere 100", "Ottermoor 320", "Harrow Pan", "Sedge Ortho", "Linnet 50", "Brock 400")
PLACES = ("saltings", "weir", "quarry", "mill race", "chapel", "orchard", "pier", "moor gate", "kiln", "ferry steps")
VESSEL = "old drum"
ROOT = Path(__file__).resolve().parent.parent
SIZES = ("9x12cm", "13x18cm", "4x5in")


class Scale(NamedTuple):
    """How much an archive holds."""

    sheets: int
    runs: int
    events: int
    bottles: int
    lines: int
    waiting: int


EVENING = Scale(sheets=36, runs=3, events=60, bottles=12, lines=48, waiting=24)
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
        models.Vessel.objects.create(**keyed(VESSEL), **vessel)
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
                developed_at=None
                if number >= scale.sheets - scale.waiting
                else moment(number / scale.sheets) + dt.timedelta(days=2),
                negative="" if number >= scale.sheets - scale.waiting else f"{number + 1:05d}",
                facts={"shadow": {"ev": 9, "zone": 3}},
            )
            for number in range(scale.sheets)
        ]
        models.Sheet.objects.bulk_create(sheets, batch_size=500)
        _histories(models, sheets, moment)
        _plans(models, scale, sheets, moment)


def _histories(models: Any, sheets: list[Any], moment: Any) -> None:
    """Each sheet was made, and those that are developed were changed when they became so."""
    history = models.Sheet.history.model
    columns = [field.attname for field in models.Sheet._meta.concrete_fields]  # noqa: SLF001
    entries = []
    for number, sheet in enumerate(sheets):
        values = {name: getattr(sheet, name) for name in columns}
        made = values | {"state": "waiting", "developed_at": None, "negative": ""}
        entries.append((moment(number / len(sheets)), "+", made))
        if sheet.developed_at is not None:
            entries.append((sheet.developed_at, "~", values))
    entries.sort(key=lambda one: one[0])
    rows = (
        history(**values, history_date=at, history_type=kind, history_user_id="Ines") for at, kind, values in entries
    )
    history.objects.bulk_create(rows, batch_size=500)


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
    evening, document = planned_evening()
    places, events = [], []
    for number in range(plans):
        at = moment(number / plans)
        plan = models.Plan.objects.create(
            name=f"evening {number + 1}", date=at.date(), frozen_at=at, evening=evening, document=document
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


@cache
def planned_evening() -> tuple[str, Any]:
    """Evening file and plan of the demo: what a frozen plan holds."""
    from wetside.adapters.evening_file import read_evening
    from wetside.adapters.evening_writer import plain_values, write_evening
    from wetside.adapters.plain_document import json_text, plain_value
    from wetside.planning.evening_plan import plan_evening
    from wetside.services.library import load_library

    with as_file(files("wetside.data") / "demo") as folder:
        evening = read_evening(folder / "evening.toml")
    plan = plan_evening(evening, load_library(), today=START.date(), tool="seeded", inputs=plain_values(evening))
    return write_evening(evening), json.loads(json_text(plain_value(plan)))


@cache
def facts_of_run() -> tuple[Any, ...]:
    """Facts of a load that was developed, with one reading of the jacket last."""
    from tests.fixtures.run_sample import desk, planned

    from wetside.runs import commands
    from wetside.runs.events import Where

    conducted = desk(planned(480.0, dark=False)._replace(vessel=VESSEL))
    for seconds, act in ((200.0, "2.full"), (680.0, "2.drain"), (702.0, "3.pour"), (714.0, "3.full"), (3000.0, "hang")):
        conducted.tell(seconds, act)
    conducted.do(3010.0, commands.Reading(20.2, Where.JACKET, 2000.0))
    return tuple(conducted.conduct.facts)


def _events(models: Any, run: Any, count: int, at: dt.datetime) -> Iterator[Any]:
    """The facts of a run, then as many readings of its jacket as are wanted."""
    told = facts_of_run()
    for number in range(1, count + 1):
        fact = told[min(number, len(told)) - 1]
        seconds = fact.boot_s - told[0].boot_s + max(0, number - len(told))
        yield models.RunEvent(
            run=run,
            seq=number,
            kind=fact.kind,
            version=fact.version,
            at_utc=at + dt.timedelta(seconds=seconds),
            boot_s=1000.0 + seconds,
            boot_id="seeded",
            device="bench",
            device_number=number,
            data=fact.data,
        )


def furnished() -> dict[str, str]:
    """Furnish the darkroom of the tests beside what is there; addresses of the whole site by their names."""
    from tests.fixtures.full_darkroom import furnish, named_addresses

    from wetside.records import models
    from wetside.services.records import plans_frozen, short_way

    for module in (plans_frozen, short_way):  # what is printed is no page's work
        module.keep_files = lambda *_: ()  # type: ignore[attr-defined]
    room = furnish()
    old = models.Vessel.kept.get(name=VESSEL)
    return {**named_addresses(room), "vessel of all other runs": f"/shelf/vessels/{old.pk}/"}


def main() -> int:
    """Make an archive in a folder."""
    folder, scale = Path(sys.argv[1]), SCALES[sys.argv[2]]
    os.environ["WETSIDE_DATA"] = str(folder)
    from wetside.web.serve import open_darkroom

    open_darkroom()
    fill(scale)
    (folder / "pages.json").write_text(json.dumps(furnished()), encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.path.insert(0, str(ROOT))
    sys.exit(main())
