"""The options of an evening: plan it, ask why, lay it out, run it."""

from __future__ import annotations

from typing import Any

from wetside.cli.options.parts import command, data_folder, own_rows, page_size


def add_plan(commands: Any) -> None:
    """Add `wetside plan`."""
    plan = command(
        commands,
        "plan",
        "plan",
        "Put the sheets of an evening into the fewest loads.",
        "wetside plan evening.toml --out sheets\n"
        '  wetside plan --film "Tolland 100" --developer Brackwater --dilution 1+14 --time 7:30 \\\n'
        "    --count 12 --size 9x12cm --vessel drum:6,300-1000ml",
    )
    plan.add_argument("file", nargs="?", metavar="FILE", help="evening file; leave it out and answer by options")
    plan.add_argument(
        "--out",
        metavar="DIR",
        help="write a run sheet for each load there (PDF, HTML, PNG), the plan as HTML and JSON, and windows.svg",
    )
    page_size(plan, "run sheets")
    own_rows(plan)
    plain = plan.add_argument_group("the plain evening, without a file")
    plain.add_argument("--film", help="film on the sheets")
    plain.add_argument("--ei", help="exposure index that picks the published row")
    plain.add_argument("--developer", help="developer")
    plain.add_argument("--dilution", help="dilution such as 1+14, or stock")
    plain.add_argument(
        "--time", help="bare time such as 7:30, as it holds in your vessel; else a published row is taken"
    )
    plain.add_argument("--temp", help="temperature, 20 C if left out")
    plain.add_argument("--count", dest="number", help="how many sheets")
    plain.add_argument("--size", help="format such as 9x12cm or 4x5in")
    plain.add_argument("--vessel", help="kind, places and limits, such as drum:6,300-1000ml")


def add_why(commands: Any) -> None:
    """Add `wetside why`."""
    why = command(
        commands,
        "why",
        "why",
        "Show the reckoning behind one sheet, line by line.",
        'wetside why evening.toml "7 left"',
    )
    why.add_argument("file", metavar="FILE", help="evening file")
    why.add_argument("sheet", metavar="SHEET", help="label or holder side of the sheet")
    own_rows(why)


def add_schedule(commands: Any) -> None:
    """Add `wetside schedule`."""
    schedule = command(
        commands,
        "schedule",
        "schedule",
        "Lay out the whole evening: what comes when, what to mix, when it ends.",
        "wetside schedule evening.toml --out sheets",
    )
    schedule.add_argument("file", metavar="FILE", help="evening file")
    schedule.add_argument(
        "--out",
        metavar="DIR",
        help="write the evening, the safety page and the house page there (PDF, HTML), and course.json",
    )
    page_size(schedule, "pages")
    own_rows(schedule)


def add_run(commands: Any) -> None:
    """Add `wetside run`."""
    run = command(
        commands,
        "run",
        "run",
        "Steer one load live, from the first pour to hanging; a run in a log goes on by itself.",
        'wetside run --film "Tolland 100" --developer Brackwater --time 7:30\n'
        "  wetside run --plan sheets/plan.json --load 1 --log load-1.log",
    )
    planned = run.add_argument_group("a load of a plan")
    planned.add_argument("--plan", metavar="FILE", help="plan.json, as wetside plan --out writes it")
    planned.add_argument("--load", metavar="N", help="number of the load, 1 if left out")
    quick = run.add_argument_group("at once, without a plan")
    quick.add_argument("--film", help="film in the drum")
    quick.add_argument("--developer", help="developer")
    quick.add_argument("--time", help="developing time from full to drain, such as 7:30")
    quick.add_argument("--temp", help="true temperature, 20 C if left out")
    quick.add_argument(
        "--vessel", metavar="NAME", help="vessel of your archive: its pour and drain hold, and the run teaches it"
    )
    data_folder(quick)
    run.add_argument("--log", metavar="FILE", help="keep every fact there; with a run in it, go on where that is")
    run.add_argument("--no-pauses", action="store_true", help="wait nowhere, not even where waiting is safe")
    run.add_argument("--rehearsal", action="store_true", help="rehearse with water: nothing is booked")
    run.add_argument("--speed", type=float, default=1.0, metavar="N", help="let time run N times as fast, to rehearse")
    run.add_argument("--simulate", type=int, metavar="SEED", help="a simulated photographer does the run, at once")
    run.add_argument("--rows", metavar="DIR", help="folder with published rows of your own")
