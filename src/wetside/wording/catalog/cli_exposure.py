"""Sentences of ``wetside expose`` and of the zones of ``wetside curve``."""

from wetside.wording.catalog import N_

SENTENCES: dict[str, str] = {
    "cli.flash.how": N_(
        "Flash on Zone {zone}: meter an even, unsharp, pale surface that fills the picture, and give {stops:mixed} stops "
        "less than the meter says, before or after the picture."
    ),
    "cli.flash.zone": N_("zone"),
    "cli.flash.lies_on": N_("lies on"),
    "cli.flash.gains": N_("gains"),
    "cli.flash.step": N_("step from below"),
    "cli.flash.costs": N_(
        "Gains and steps in stops; without a flash each step is 1. What the shadow gains in density it loses in "
        "separation, and where the lens brought no light there is grey and no detail. Try it on a spare sheet. With readings, "
        "wetside curve --zones --flash tells densities."
    ),
    "cli.zones.title": N_("Net density of each zone, by developing time; stops are from what the meter reads:"),
    "cli.zones.stops": N_("stops"),
    "cli.zones.target": N_("target"),
    "cli.zones.minutes": N_("developed"),
    "cli.zones.range": N_("range I to {zone}"),
    "cli.zones.off": N_("off"),
    "cli.zones.flashed": N_("Net density before and after a flash on Zone {zone}; gains in stops:"),
    "cli.zones.not_read": N_("A dash stands where the readings do not reach, or a target would lie under base + fog."),
    "cli.zones.aimed": N_(
        "Targets lie on a straight line from net 0.10 on Zone I to Zone {zone}, which shall print as VIII. Film has a toe: "
        "low zones fall under the line, and need no mending by development."
    ),
    "cli.zones.no_flare": N_(
        "Zone I lies on the speed point, or where --ei or --speed-zone puts it. Flare in the camera lifts the low zones "
        "and is not in this table."
    ),
}
