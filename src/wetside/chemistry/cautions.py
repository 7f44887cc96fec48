"""Which cautions belong to what is being done, as codes; the words stand in the catalogue.

None of them replaces the product's own safety sheet or the word of the local authority, and none says that something
is permitted anywhere.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

SAFETY_SHEET = "chemistry.caution.safety_sheet"
GLOVES = "chemistry.caution.gloves"
EYES = "chemistry.caution.eyes"
AIR = "chemistry.caution.air"
SPLASH = "chemistry.caution.splash"
ALLERGY = "chemistry.caution.allergy"
DUST = "chemistry.caution.dust"
ACID_INTO_WATER = "chemistry.caution.acid_into_water"
NEVER_BLEACH = "chemistry.caution.never_bleach"
ACID_ON_SULFITE = "chemistry.caution.acid_on_sulfite"
RINSE_MEASURES = "chemistry.caution.rinse_measures"
SILVER_BOTTLE = "chemistry.caution.silver_bottle"
ASK_AUTHORITY = "chemistry.caution.ask_authority"
LABEL = "chemistry.caution.label"
NO_FOOD = "chemistry.caution.no_food"
SPILLS = "chemistry.caution.spills"
RESIDUAL_CURRENT = "chemistry.caution.residual_current"
ON_BATTERY = "chemistry.caution.on_battery"
UNPLUG = "chemistry.caution.unplug"
HEATER = "chemistry.caution.heater"
HOT_WATER = "chemistry.caution.hot_water"

_BY_OCCASION: dict[str, tuple[str, ...]] = {
    "mix": (SAFETY_SHEET, GLOVES, EYES, AIR, DUST, RINSE_MEASURES, NO_FOOD, LABEL, SPLASH),
    "develop": (SAFETY_SHEET, GLOVES, EYES, AIR, ALLERGY, SPLASH),
    "stop": (SAFETY_SHEET, GLOVES, EYES, AIR, ACID_INTO_WATER, NEVER_BLEACH, ACID_ON_SULFITE, SPLASH),
    "fix": (SAFETY_SHEET, GLOVES, EYES, AIR, NEVER_BLEACH, ACID_ON_SULFITE, SILVER_BOTTLE, ASK_AUTHORITY),
    "wash-aid": (SAFETY_SHEET, GLOVES, EYES, ACID_ON_SULFITE),
    "wetting": (SAFETY_SHEET, GLOVES, SPILLS),
    "other": (SAFETY_SHEET, GLOVES, EYES, AIR),
    "waste": (ASK_AUTHORITY, SILVER_BOTTLE, NEVER_BLEACH, LABEL, NO_FOOD),
    "storage": (LABEL, NO_FOOD),
    "electricity": (RESIDUAL_CURRENT, ON_BATTERY, UNPLUG),
    "heat": (HEATER, HOT_WATER),
}
"""Cautions of each occasion, the one to read first in front."""

OCCASIONS = tuple(_BY_OCCASION)
"""Occasions that have cautions. Those of baths have the names of the evening file's baths; water baths have none."""


def cautions_of(occasions: Iterable[str]) -> tuple[str, ...]:
    """Codes of the cautions for what is being done, each once, in the order in which they come up.

    Parameters
    ----------
    occasions : iterable of str
        Names of :data:`OCCASIONS`; others, as that of a plain wash, bring no caution.

    Examples
    --------
    >>> cautions_of(["storage", "wash"])
    ('chemistry.caution.label', 'chemistry.caution.no_food')
    """
    return tuple(dict.fromkeys(code for occasion in occasions for code in _BY_OCCASION.get(occasion, ())))


def caution_codes() -> tuple[str, ...]:
    """Every caution there is, each once.

    Examples
    --------
    >>> "chemistry.caution.gloves" in caution_codes()
    True
    """
    return cautions_of(OCCASIONS)
