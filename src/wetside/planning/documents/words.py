"""The words that the kept files allow, one meaning each."""

from __future__ import annotations

from enum import StrEnum


class BathKind(StrEnum):
    """What a bath of a process does."""

    PRESOAK = "presoak"
    DEVELOP = "develop"
    STOP = "stop"
    FIX = "fix"
    WASH = "wash"
    WASH_AID = "wash-aid"
    WETTING = "wetting"
    OTHER = "other"


class VesselKind(StrEnum):
    """What holds the sheets; a drum gives all of them one time, the others each its own."""

    DRUM = "drum"
    TUBES = "tubes"
    TRAY = "tray"
    HANGERS = "hangers"


class Material(StrEnum):
    """What the part of a vessel that the liquid touches is made of; each has a specific heat with a source."""

    POLYPROPYLENE = "polypropylene"
    ABS = "abs"
    POLYCARBONATE = "polycarbonate"
    ACRYLIC = "acrylic"
    LOW_DENSITY_POLYETHYLENE = "low-density-polyethylene"
    HIGH_DENSITY_POLYETHYLENE = "high-density-polyethylene"
    RIGID_PVC = "rigid-pvc"
    POLYSTYRENE = "polystyrene"
    STAINLESS_STEEL = "stainless-steel"


class Printing(StrEnum):
    """What an aim is for."""

    GRADED = "graded-paper"
    VARIABLE = "variable-paper"
    ALTERNATIVE = "alternative"
    SCANNER = "scanner"


class Channel(StrEnum):
    """The light that densities are measured in."""

    VISUAL = "visual"
    BLUE = "blue"
    GREEN = "green"
    UV = "uv"


class Mishap(StrEnum):
    """What went wrong at the camera, each of which becomes a stop error on the film."""

    BELLOWS_FORGOTTEN = "bellows-forgotten"
    FILTER_FORGOTTEN = "filter-forgotten"
    RECIPROCITY_FORGOTTEN = "reciprocity-forgotten"
    RECIPROCITY_FIRST = "reciprocity-first"
    """Reciprocity was corrected before filter and bellows instead of after them."""
    WRONG_RATING = "wrong-rating"
    WRONG_FILM = "wrong-film"
    DOUBLE_EXPOSURE = "double-exposure"


class Importance(StrEnum):
    """How much would be lost with the sheet."""

    TEST = "test"
    ORDINARY = "ordinary"
    IRREPLACEABLE = "irreplaceable"


class FixClass(StrEnum):
    """How a film takes to the fixer: tabular films clear slower and use it up sooner."""

    ORDINARY = "ordinary"
    TABULAR = "tabular"


class AfterUse(StrEnum):
    """Where a bath goes when it is drained."""

    BACK = "back"
    WASTE = "waste"
