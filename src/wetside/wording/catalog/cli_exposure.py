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
        "low zones fall under the line, and no development mends that."
    ),
    "cli.zones.no_flare": N_(
        "Zone I lies on the speed point, or where --ei or --speed-zone puts it. Flare in the camera lifts the low zones "
        "and is not in this table."
    ),
    "cli.filter.published": N_("Factor of {filter}: published for {film} ({source})."),
    "cli.filter.lent": N_(
        "Factor of {filter}: assumed, lent by {film} ({source}), which sees the same colours. Test it on your own film."
    ),
    "cli.models.model": N_("model"),
    "cli.models.give": N_("give"),
    "cli.models.added": N_("stops more"),
    "cli.models.source": N_("from"),
    "cli.models.used": N_("{model} (used)"),
    "cli.models.differ": N_(
        "From the shortest published model of this film to the longest it is {spread:stops_said} here: --compare shows "
        "them, --model takes another."
    ),
    "cli.models.ends": N_("A dash stands where a model ends before this time: nothing is known there."),
    "cli.models.spread": N_(
        "From the shortest to the longest that is said of this film: {spread:stops_said} as a time, {film:stops_said} as "
        "exposure of the film. Nothing is averaged: choose with --model, or test."
    ),
}
