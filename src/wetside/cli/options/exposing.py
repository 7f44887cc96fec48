"""The options of exposing and measuring."""

from __future__ import annotations

from typing import Any

from wetside.cli.options.parts import command, flash, own_rows


def add_expose(commands: Any) -> None:
    """Add `wetside expose`."""
    expose = command(
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
    flash(expose, "what it gives and costs")
    own_rows(expose)


def add_curve(commands: Any) -> None:
    """Add `wetside curve`."""
    curve = command(
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
    flash(zones, "densities before and after")
