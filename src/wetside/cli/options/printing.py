"""The options of what a negative is for: paper, and the finished negative."""

from __future__ import annotations

from typing import Any

from wetside.cli.options.parts import command, own_rows, printing_names


def add_paper(commands: Any) -> None:
    """Add `wetside paper`."""
    paper = command(
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
    printing_names(named, "printing process or enlarger of the list")
    named.add_argument(
        "--list", dest="listing", action="store_true", help="list processes, enlargers and limits, with their evidence"
    )
    paper.add_argument(
        "--range", dest="density_range", metavar="D", help="density range of a negative, to find its grade and filter"
    )
    paper.add_argument("--strip", action="append", metavar="TIME", help="whole time of each strip through clear film")
    paper.add_argument("--same-from", metavar="N", help="first strip that cannot be told from the next")
    own_rows(paper)


def add_negative(commands: Any) -> None:
    """Add `wetside negative`."""
    negative = command(
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
    printing_names(wanted, "process, enlarger or scanner, as wetside paper --list has it")
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
    own_rows(negative)
