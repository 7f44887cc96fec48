"""The options of the baths: mixing, warmth, washing, fixer."""

from __future__ import annotations

from typing import Any

from wetside.cli.options.parts import command, own_rows


def add_mix(commands: Any) -> None:
    """Add `wetside mix`."""
    mix = command(commands, "mix", "mix", "Work out the parts of a working solution.", "wetside mix 1+24 600ml")
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


def add_temper(commands: Any) -> None:
    """Add `wetside temper`."""
    temper = command(
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
    own_rows(temper)


def add_wash(commands: Any) -> None:
    """Add `wetside wash`."""
    wash = command(
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


def add_fixer(commands: Any) -> None:
    """Add `wetside fixer`."""
    fixer = command(
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
