"""Sentences of ``wetside.units``."""

from wetside.wording.catalog import N_

SENTENCES = {
    "units.text.wanted": N_("{value:quoted} must be text in quotation marks. Write it like {example}."),
    "units.text.empty": N_("Nothing stands here. Write it like {example}."),
    "units.text.too_long": N_("{value:quoted} is too long to be read ({length} characters). Write it like {example}."),
    "units.number.unreadable": N_("{value:quoted} is not a number that can be read. Write it like {example}."),
    "units.number.thousands": N_(
        "{value:quoted} has marks between thousands. Write the number without them; one comma or point is the decimal "
        "mark, as in {example}."
    ),
    "units.number.two_readings": N_(
        "{value:quoted} has two readings, because its mark may part thousands or decimals. Write one of {choices:list}."
    ),
    "units.number.fraction_of_zero": N_("{value:quoted} divides by zero. Write it like {example}."),
    "units.number.not_finite": N_("{value:quoted} is not a finite number. Write it like {example}."),
    "units.unit.missing": N_("{value:quoted} has no unit. Add one of {allowed:list}, as in {example}."),
    "units.unit.unknown": N_(
        "{unit:quoted} in {value:quoted} is not a unit known here. Allowed are {allowed:list}; write it like {example}."
    ),
    "units.unit.unknown_near": N_(
        "{unit:quoted} in {value:quoted} is not a unit known here; the nearest is {nearest}. Allowed are "
        "{allowed:list}; write it like {example}."
    ),
    "units.unit.two_meanings": N_(
        "{unit:quoted} in {value:quoted} may mean {choices:list}, which differ in size. Write the one that you mean."
    ),
    "units.quantity.out_of_range": N_(
        "{value:quoted} lies outside what is allowed, {low} to {high}. Write it like {example}."
    ),
    "units.duration.unreadable": N_(
        "{value:quoted} is not a time that can be read. Write minutes and seconds with a colon, as in {example}, or a "
        "number with its unit, as in 90 s."
    ),
    "units.duration.bare": N_(
        "{value:quoted} is a time without a unit. Write minutes and seconds with a colon, or add the unit: it may mean "
        "{choices:list}."
    ),
    "units.duration.sixty": N_(
        "{value:quoted} has 60 or more behind a colon, where at most 59 may stand. Write it like {example}."
    ),
    "units.duration.span_reversed": N_(
        "{value:quoted} ends before it begins. Write the shorter time first, as in {example}."
    ),
    "units.aperture.unreadable": N_("{value:quoted} is not an f-number. Write it like {example}."),
    "units.aperture.out_of_range": N_(
        "{value:quoted} lies outside f/{low:plain} to f/{high:plain}. Write it like {example}."
    ),
    "units.size.unreadable": N_(
        "{value:quoted} is not a sheet format. Write its two sides and their unit, like {example} or 4x5in."
    ),
    "units.size.two_units": N_("{value:quoted} mixes two units. Write both sides in one, like {example}."),
    "units.size.bare": N_("{value:quoted} may be inches or centimetres. Write one of {choices:list}."),
    "units.size.out_of_range": N_(
        "{value:quoted} has a side outside {low_mm:mm} to {high_mm:mm}. Write it like {example}."
    ),
    "units.agent.unreadable": N_(
        "{value:quoted} does not say how much developer goes to how much film. Write it like {example}, or 62.5 ml per "
        "unit (80 square inches), or 20 ml per 8x10in."
    ),
    "units.agent.area": N_(
        "{area:quoted} in {value:quoted} is not an area of film. Write cm2, in2, unit (80 square inches) or a format, "
        "as in {example}."
    ),
    "units.agent.out_of_range": N_(
        "{value:quoted} is outside {low:plain} to {high:plain} ml to a square centimetre of film. Write it like "
        "{example}."
    ),
}
