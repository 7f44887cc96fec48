"""The commands, their options and their help. Each command's work is imported only when it runs."""

from __future__ import annotations

import argparse
import sys
from importlib import import_module
from typing import TYPE_CHECKING, Any

from wetside import __version__
from wetside.cli.exit_codes import ExitCode

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence


class _Help(argparse.RawDescriptionHelpFormatter):
    """Help as wide as the terminal; the library's own way to ask for that loads half an archive program."""

    def __init__(self, prog: str) -> None:
        from wetside.cli.output import text_width

        super().__init__(prog, width=text_width() - 2)


def _later(module: str) -> Callable[[argparse.Namespace], int]:
    """Run a command of a module that is imported only then."""

    def run(arguments: argparse.Namespace) -> int:
        code: int = import_module(f"wetside.cli.{module}").run(arguments)
        return code

    return run


def _command(commands: Any, name: str, module: str, summary: str, example: str) -> argparse.ArgumentParser:
    parser: argparse.ArgumentParser = commands.add_parser(
        name,
        help=summary,
        description=summary,
        epilog=f"example:\n  {example}",
        formatter_class=_Help,
        allow_abbrev=False,
    )
    parser.set_defaults(run=_later(module))
    parser.add_argument("--json", action="store_true", help="print the answer as JSON")
    return parser


def _own_rows(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--rows", metavar="DIR", help="folder with published rows of your own, read after the shipped ones"
    )


def _page_size(parser: argparse.ArgumentParser, of_what: str) -> None:
    parser.add_argument("--paper", choices=("a4", "letter"), default="a4", help=f"paper of the {of_what}")


def _flash(parser: Any, of_what: str) -> None:
    parser.add_argument("--flash", metavar="ZONE", help=f"zone of a pre-flash, such as I.5: {of_what}")
    parser.add_argument("--flash-gain", metavar="STOPS@ZONE", help="or what a zone shall gain by it, such as 0.5@III")


def _printing_names(parser: Any, processes: str) -> None:
    parser.add_argument("--number", metavar="R", help="range number of the paper, such as R110")
    parser.add_argument("--grade", help="paper grade, 0 to 6")
    parser.add_argument("--filter", help="filter of a variable paper")
    parser.add_argument("--product", metavar="PAPER", help="the paper that the filter is for, if several are known")
    parser.add_argument("--process", metavar="NAME", help=processes)


def build_parser(only: str | None = None) -> argparse.ArgumentParser:
    """All commands, or one of them where the rest would only cost time."""
    parser = argparse.ArgumentParser(
        prog="wetside",
        description="From exposed black-and-white sheets to negatives that print.",
        epilog="example:\n  wetside plan evening.toml --out sheets\n\neach command: wetside COMMAND --help",
        formatter_class=_Help,
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="version", version=f"wetside {__version__}")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND", prog="wetside")
    for name, add in COMMANDS.items():
        if only in (None, name):
            add(commands)
    return parser


def _add_plan(commands: Any) -> None:
    plan = _command(
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
    _page_size(plan, "run sheets")
    _own_rows(plan)
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


def _add_why(commands: Any) -> None:
    why = _command(
        commands,
        "why",
        "why",
        "Show the reckoning behind one sheet, line by line.",
        'wetside why evening.toml "7 left"',
    )
    why.add_argument("file", metavar="FILE", help="evening file")
    why.add_argument("sheet", metavar="SHEET", help="label or holder side of the sheet")
    _own_rows(why)


def _add_schedule(commands: Any) -> None:
    schedule = _command(
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
    _page_size(schedule, "pages")
    _own_rows(schedule)


def _add_mix(commands: Any) -> None:
    mix = _command(commands, "mix", "mix", "Work out the parts of a working solution.", "wetside mix 1+24 600ml")
    mix.add_argument(
        "dilution", metavar="DILUTION", help="parts such as 1+24 or 1+2+100, a percentage such as 4%%, or stock"
    )
    mix.add_argument("volume", metavar="VOLUME", help="how much is wanted, such as 600ml or 1.5l")
    mix.add_argument(
        "--holds",
        action="append",
        default=[],
        metavar="NAME:PERCENT",
        help="what the concentrate holds by its safety sheet, such as hydroquinone:12; may be given again",
    )
    mix.add_argument("--hardness", metavar="VALUE", help="hardness of your water, as your water company prints it")
    mix.add_argument(
        "--scale",
        choices=("mg/l", "mmol/l", "german", "french", "clark", "us-grains"),
        default="mg/l",
        help="in degrees of this scale; mg/l of calcium carbonate if left out",
    )
    mix.add_argument("--smallest", metavar="VOLUME", default="10 ml", help="smallest amount that your measure reads")


def _add_expose(commands: Any) -> None:
    expose = _command(
        commands,
        "expose",
        "expose",
        "Correct a metered time in the right order, or place a reading.",
        "wetside expose 2s --filter 4 --extension 270mm --focal 180mm --power 1.3\n"
        '  wetside expose 8s --filter yellow --sensitivity panchromatic --film "HP5 PLUS" --compare\n'
        "  wetside expose --shadow 9@3 --highlight 14@8\n  wetside expose --flash I.5",
    )
    expose.add_argument("time", nargs="?", metavar="TIME", help="metered time, such as 1/15s or 8s")
    expose.add_argument("--metered-at", metavar="F", help="aperture of the reading")
    expose.add_argument("--set-to", metavar="F", help="aperture that will be set")
    expose.add_argument(
        "--filter",
        dest="filters",
        metavar="FACTOR",
        action="append",
        help="factor of a filter, or its name, such as yellow; again for a second filter",
    )
    expose.add_argument("--light", choices=("daylight", "tungsten"), help="light of the scene, daylight if left out")
    expose.add_argument(
        "--sensitivity",
        choices=("panchromatic", "orthochromatic", "blue-sensitive"),
        help="what the film sees, for a filter by its name",
    )
    expose.add_argument(
        "--metered-through", action="store_true", help="the meter has read through the filters: nothing is added"
    )
    expose.add_argument(
        "--metered-for",
        choices=("daylight", "tungsten"),
        help="light whose exposure index is set on the meter, where the scene's is another",
    )
    expose.add_argument("--extension", metavar="LENGTH", help="bellows extension")
    expose.add_argument("--focal", metavar="LENGTH", help="focal length")
    expose.add_argument("--film", metavar="FILM", help="film whose published reciprocity is used")
    expose.add_argument(
        "--model",
        metavar="MODEL",
        choices=("own-test", "maker-table", "maker-power", "added-time", "schwarzschild", "per-doubling"),
        help="which model of the film: own-test, maker-table, maker-power, added-time, schwarzschild or per-doubling; "
        "in this order if left out, schwarzschild only where it is named",
    )
    expose.add_argument("--compare", action="store_true", help="tell what every known model of the film says")
    expose.add_argument("--power", metavar="P", help="reciprocity exponent of your own")
    expose.add_argument("--threshold", metavar="TIME", help="no correction up to this time, 1 s if left out")
    expose.add_argument("--shadow", metavar="EV@ZONE", help="shadow reading and the zone to put it on")
    expose.add_argument("--highlight", metavar="EV@ZONE", help="highlight reading and the zone that it shall print on")
    _flash(expose, "what it gives and costs")
    _own_rows(expose)


def _add_curve(commands: Any) -> None:
    curve = _command(
        commands,
        "curve",
        "curve",
        "Measure characteristic curves from readings of a step tablet.",
        "wetside curve readings.csv --svg curves.svg\n  wetside curve readings.csv --zones --aim 1.05 --flash I.5",
    )
    curve.add_argument(
        "readings",
        metavar="READINGS",
        help="CSV with columns dev_min, log_h, density; or dev_min, step, density with --tablet or --nominal",
    )
    curve.add_argument("--tablet", metavar="FILE", help="CSV with the tablet's own step and density")
    curve.add_argument("--nominal", action="store_true", help="take the tablet's steps as 0.15 each")
    curve.add_argument("--base-fog", metavar="D", help="density of unexposed film; else the lowest reading")
    curve.add_argument("--svg", metavar="FILE", help="draw the curves")
    zones = curve.add_argument_group("zones on the curves")
    zones.add_argument("--zones", action="store_true", help="tell the net density of each zone on each curve")
    zones.add_argument("--ei", help="exposure index on the meter that places the zones, for readings in lux-seconds")
    zones.add_argument("--speed-zone", metavar="ZONE", help="zone that lies on the speed point, I if left out")
    zones.add_argument("--aim", metavar="D", help="density range that is wanted, for the targets")
    zones.add_argument("--n", metavar="N", help="development that the targets are for, such as -1")
    _flash(zones, "densities before and after")


def _add_temper(commands: Any) -> None:
    temper = _command(
        commands,
        "temper",
        "temper",
        "Warmth of bottle, vessel and jacket: after pouring, while waiting, and water of a temperature.",
        "wetside temper --liquid 300ml --vessel 300g --vessel-at 17C --coefficient 0.08 --time 8:00\n"
        "  wetside temper --bottle 16C --reads 18C --after 6:00 --jacket 24C\n"
        "  wetside temper --hot 50C --cold 12C --want 24C --total 5l\n"
        "  wetside temper --bath 20l --bath-at 26C",
    )
    temper.add_argument("--want", metavar="TEMP", help="temperature that is wanted, 20 C if left out")
    pour = temper.add_argument_group("a liquid poured into a vessel")
    pour.add_argument("--liquid", metavar="VOLUME", help="liquid that is poured")
    pour.add_argument("--at", dest="liquid_temp", metavar="TEMP", help="its temperature, the wanted one if left out")
    pour.add_argument("--vessel", metavar="MASS", help="mass of the part that the liquid touches, such as 300g")
    pour.add_argument(
        "--evening",
        metavar="FILE",
        help="take mass, material, room and temperature from this evening file; --vessel is then a vessel's name",
    )
    pour.add_argument("--vessel-at", dest="vessel_temp", metavar="TEMP", help="temperature of the vessel")
    pour.add_argument("--material", help="what the vessel is made of, polypropylene if left out")
    pour.add_argument(
        "--coefficient", metavar="K", help="change of developing time for a degree, such as 0.08, to see what it does"
    )
    pour.add_argument("--developer", metavar="NAME", help="take it from this developer's published times instead")
    pour.add_argument("--time", help="developing time")
    pour.add_argument(
        "--range", dest="density_range", metavar="D", help="density range that is wanted, 1.05 if left out"
    )
    wait = temper.add_argument_group("a bottle, or the filled vessel, in its jacket")
    wait.add_argument("--bottle", metavar="TEMP", help="temperature of the bottle")
    wait.add_argument("--jacket", metavar="TEMP", help="temperature of jacket or room, held")
    wait.add_argument("--tau", metavar="TIME", help="time in which a difference falls to 37 %%")
    wait.add_argument("--reads", metavar="TEMP", help="what the bottle reads later, to learn that time")
    wait.add_argument("--after", metavar="TIME", help="how much later")
    water = temper.add_argument_group("water of a temperature")
    water.add_argument("--hot", metavar="TEMP", help="hot water")
    water.add_argument("--cold", metavar="TEMP", help="cold water")
    water.add_argument("--total", metavar="VOLUME", help="how much is wanted")
    bath = temper.add_argument_group("a bath that is too warm or too cold")
    bath.add_argument("--bath", metavar="VOLUME", help="water or solution in it: how much ice, or how long to heat")
    bath.add_argument("--bath-at", dest="bath_temp", metavar="TEMP", help="its temperature now")
    bath.add_argument("--heater", metavar="WATTS", help="power of the heater, for a bath that is too cold")
    _own_rows(temper)


def _add_wash(commands: Any) -> None:
    wash = _command(
        commands,
        "wash",
        "wash",
        "What changes of water leave in film, and what published ways ask for.",
        "wetside wash 500ml --changes 3 --each 5:00 --sheets 4 --size 4x5in --water 12C",
    )
    wash.add_argument("fill", metavar="VOLUME", help="water of each fill")
    wash.add_argument("--changes", metavar="N", help="changes of water, 3 if left out")
    wash.add_argument("--each", metavar="TIME", help="time of each, moving, 2:00 if left out")
    wash.add_argument("--sheets", metavar="N", help="how many sheets, 4 if left out")
    wash.add_argument("--size", help="their format, 4x5in if left out")
    wash.add_argument("--walls", metavar="VOLUME", help="what the drained vessel holds back, 6 ml if left out")
    wash.add_argument(
        "--thiosulfate", metavar="G/L", help="in the fixer as carried over, grams to a litre, 60 if left out"
    )
    wash.add_argument(
        "--half-time", metavar="TIME", help="in which the emulsion comes half-way to balance, if you know"
    )
    wash.add_argument("--water", metavar="TEMP", help="temperature of the wash")
    wash.add_argument("--process", metavar="TEMP", help="temperature of the other baths, 20 C if left out")
    wash.add_argument("--limit", metavar="UG", help="residue that may stay, in µg/cm², 1.4 if left out")
    wash.add_argument("--flow", metavar="VOLUME", help="running water to compare with: how much flows in a minute")
    wash.add_argument("--running", metavar="TIME", help="and for how long")
    wash.add_argument("--on-a-wall", action="store_true", help="the back of the film lies on the wall of drum or tube")
    wash.add_argument("--hardened", action="store_true", help="the fixer hardens")


def _add_fixer(commands: Any) -> None:
    fixer = _command(
        commands,
        "fixer",
        "fixer",
        "Judge a fixer by the film it has seen and by how it clears.",
        "wetside fixer 1l --film 40:9x12cm --tabular 12:9x12cm --fresh 0:40 --now 1:05",
    )
    fixer.add_argument("volume", metavar="VOLUME", help="the bath at working strength")
    fixer.add_argument("--product", help="fixer, for its maker's own capacity; else 20 units of 80 sq in to a litre")
    fixer.add_argument("--dilution", help="its dilution, 1+4 if left out")
    fixer.add_argument(
        "--film", dest="films", action="append", metavar="N:SIZE", help="film it has seen, such as 52:4x5in"
    )
    fixer.add_argument("--tabular", action="append", metavar="N:SIZE", help="tabular film it has seen")
    fixer.add_argument("--fresh", metavar="TIME", help="clearing time of a clip in the fresh bath")
    fixer.add_argument("--now", metavar="TIME", help="clearing time of the same film now")
    fixer.add_argument("--temp", help="temperature of the bath now, 20 C if left out")
    fixer.add_argument("--fresh-temp", metavar="TEMP", help="temperature of the first test, if it was another")
    fixer.add_argument("--clip-tabular", action="store_true", help="the clip is tabular film")
    fixer.add_argument("--alkaline", action="store_true", help="the fixer is alkaline")
    fixer.add_argument("--second-bath", action="store_true", help="a second bath stands behind it")
    fixer.add_argument("--promoted", metavar="N", help="how often a second bath has moved up since both were new")
    fixer.add_argument("--loads", metavar="N", help="loads that brought water into the bath, for its strength")
    fixer.add_argument("--carried", metavar="VOLUME", help="water that each brought, 17.5 ml if left out")
    fixer.add_argument("--last", metavar="N", help="sheets fixed last, since a good clearing test")


def _add_paper(commands: Any) -> None:
    paper = _command(
        commands,
        "paper",
        "paper",
        "From a step tablet printed on your paper, or from its name, to the range that negatives shall have.",
        'wetside paper 5-11 5-12 --name "own paper"\n  wetside paper --number R110\n'
        "  wetside paper --process platinum\n  wetside paper --range 1.18\n"
        "  wetside paper --strip 8s --strip 10s --strip 12.7s --strip 16s --same-from 3",
    )
    paper.add_argument(
        "steps",
        nargs="*",
        metavar="STEPS",
        help="first step that is not black and last that is not white, a print each",
    )
    paper.add_argument("--tablet", metavar="FILE", help="CSV with the tablet's own step and density; else 0.15 a step")
    paper.add_argument(
        "--for",
        dest="printing",
        choices=("graded-paper", "variable-paper", "alternative"),
        help="what was printed on, graded paper if left out",
    )
    paper.add_argument("--name", help="what the aim is called in the evening file")
    named = paper.add_argument_group("without a test")
    _printing_names(named, "printing process or enlarger of the list")
    named.add_argument(
        "--list", dest="listing", action="store_true", help="list processes, enlargers and limits, with their evidence"
    )
    paper.add_argument(
        "--range", dest="density_range", metavar="D", help="density range of a negative, to find its grade and filter"
    )
    paper.add_argument("--strip", action="append", metavar="TIME", help="whole time of each strip through clear film")
    paper.add_argument("--same-from", metavar="N", help="first strip that cannot be told from the next")
    _own_rows(paper)


def _add_run(commands: Any) -> None:
    run = _command(
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
    run.add_argument("--log", metavar="FILE", help="keep every fact there; with a run in it, go on where that is")
    run.add_argument("--no-pauses", action="store_true", help="wait nowhere, not even where waiting is safe")
    run.add_argument("--rehearsal", action="store_true", help="rehearse with water: nothing is booked")
    run.add_argument("--speed", type=float, default=1.0, metavar="N", help="let time run N times as fast, to rehearse")
    run.add_argument("--simulate", type=int, metavar="SEED", help="a simulated photographer does the run, at once")
    run.add_argument("--rows", metavar="DIR", help="folder with published rows of your own")


def _add_serve(commands: Any) -> None:
    serve = _command(
        commands, "serve", "serve", "Open the darkroom's records in the browser, on this machine only.", "wetside serve"
    )
    serve.add_argument(
        "--port", type=int, default=8017, metavar="N", help="port to listen on; 0 takes any that is free"
    )
    _add_data(serve)
    serve.add_argument("--open", action="store_true", help="open the page in your browser")


def _add_negative(commands: Any) -> None:
    negative = _command(
        commands,
        "negative",
        "negative",
        "A finished negative in hand: keep it, print softer or harder, intensify, reduce, or make it again.",
        "wetside negative --shadow 0.30 --highlight 1.20 --base-fog 0.20 --filter 2\n"
        "  wetside negative --shadow 0.12 --highlight 1.02 --grade 2 --only --fixed-and-washed\n"
        "  wetside negative --range 1.35 --aim 1.05 --for graded-paper",
    )
    read = negative.add_argument_group("the negative")
    read.add_argument("--shadow", metavar="D", help="density of the placed shadow, net unless --base-fog is given")
    read.add_argument("--highlight", metavar="D", help="density of the highlight that shall keep its detail")
    read.add_argument("--base-fog", metavar="D", help="density of the clear edge, where the others are as read")
    read.add_argument("--range", dest="density_range", metavar="D", help="its density range, where only that is known")
    read.add_argument(
        "--read-in",
        action="append",
        choices=("visual", "blue", "green", "uv", "scanner"),
        help="light of the reading, visual if left out; again where the same densities hold in a second light",
    )
    read.add_argument("--stained", action="store_true", help="the developer stains, or the negative was stained")
    read.add_argument(
        "--fixed-and-washed", action="store_true", help="it is known to be well fixed and washed: treatments need that"
    )
    read.add_argument("--repeatable", action="store_true", help="the picture can be made again")
    wanted = negative.add_argument_group("what it shall print on")
    _printing_names(wanted, "process, enlarger or scanner, as wetside paper --list has it")
    wanted.add_argument("--aim", dest="wanted", metavar="D", help="density range that is wanted")
    wanted.add_argument(
        "--for",
        dest="printing",
        choices=("graded-paper", "variable-paper", "alternative", "scanner"),
        help="what --number or --aim is for, graded paper if left out",
    )
    wanted.add_argument("--only", action="store_true", help="no other grade or filter is at hand")
    negative.add_argument(
        "--gain",
        metavar="SHARE",
        help="share that your own selenium toner adds to net densities, such as 0.12, measured before and after",
    )
    negative.add_argument("--cut", metavar="D", help="density that a cutting reducer would take, to see what it does")
    negative.add_argument("--print-time", metavar="TIME", help="print time of this negative, to see what it becomes")
    negative.add_argument(
        "--printed-at", metavar="D", help="net density that the print time was found for, if not this highlight's"
    )
    _own_rows(negative)


def _add_data(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--data", metavar="DIR", help="folder of the data; else WETSIDE_DATA, else the system's place")


def _add_check(commands: Any) -> None:
    _add_data(
        _command(commands, "check", "check", "Examine the archive and say what to do; change nothing.", "wetside check")
    )


def _add_backup(commands: Any) -> None:
    backup = _command(
        commands,
        "backup",
        "backup",
        "Make a backup of the archive and read it back; or list them, or go back to one.",
        "wetside backup\n  wetside backup --list\n  wetside backup --restore 20261125-201500-000000-start.sqlite3",
    )
    backup.add_argument("--list", action="store_true", help="list the backups that count")
    backup.add_argument("--restore", metavar="NAME", help="go back to one; the file that stands there is kept beside")
    _add_data(backup)


def _add_export(commands: Any) -> None:
    export = _command(
        commands,
        "export",
        "export",
        "Write the whole archive as plain files, to a folder or a zip.",
        "wetside export darkroom.zip",
    )
    export.add_argument("target", metavar="DIR_OR_ZIP", help="new folder, or a name that ends in .zip")
    _add_data(export)


def _add_import(commands: Any) -> None:
    taken = _command(
        commands,
        "import",
        "import_",
        "Read an export into an archive that is empty.",
        "wetside import darkroom.zip --data new-folder",
    )
    taken.add_argument("source", metavar="DIR_OR_ZIP", help="what wetside export wrote")
    _add_data(taken)


def _add_schema(commands: Any) -> None:
    schema = _command(commands, "schema", "schema", "Print the schema of a kept file.", "wetside schema evening")
    schema.add_argument("document", nargs="?", choices=("evening", "plan", "course"), help="which document")
    schema.add_argument("--write", metavar="DIR", help="write all schemas there")
    schema.add_argument("--check", metavar="DIR", help="fail if the schemas there are stale")


def _add_complete(commands: Any) -> None:
    complete = _command(
        commands,
        "complete",
        "complete",
        "Print a completion script for your shell.",
        "wetside complete bash >> ~/.bash_completion",
    )
    complete.add_argument("shell", choices=("bash", "zsh", "fish"), help="which shell")


COMMANDS: dict[str, Callable[[Any], None]] = {
    "plan": _add_plan,
    "why": _add_why,
    "schedule": _add_schedule,
    "mix": _add_mix,
    "expose": _add_expose,
    "curve": _add_curve,
    "temper": _add_temper,
    "fixer": _add_fixer,
    "wash": _add_wash,
    "paper": _add_paper,
    "run": _add_run,
    "serve": _add_serve,
    "negative": _add_negative,
    "check": _add_check,
    "backup": _add_backup,
    "export": _add_export,
    "import": _add_import,
    "schema": _add_schema,
    "complete": _add_complete,
}
"""Each command by its name, in the order of the help."""


def parse_words(words: Sequence[str]) -> argparse.Namespace:
    """Parse the command line; a mistake ends the program with code 2 and a usage line, as everywhere."""
    parser = build_parser(words[0] if words and words[0] in COMMANDS else None)
    arguments = parser.parse_args(words)
    if not hasattr(arguments, "run"):
        parser.print_help(sys.stderr)
        raise SystemExit(int(ExitCode.INPUT))
    return arguments
