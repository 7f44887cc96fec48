"""Sentences of ``wetside.adapters``."""

from wetside.wording.catalog import N_

SENTENCES = {
    "adapters.paper.unknown": N_("No paper is called {paper:quoted}. Choose {choices:list}."),
    "adapters.attachment.missing": N_(
        "A file that belongs to this record is missing in the data folder. Bring it back from a backup."
    ),
    "adapters.attachment.damaged": N_(
        "A file that belongs to this record is not as it was written: the disk, or someone, changed it. Bring it back "
        "from a backup."
    ),
    "adapters.plan.newer": N_(
        "This plan has format {value}; this version knows up to {known}. Open it with the version that wrote it."
    ),
    "adapters.plan.unreadable": N_("This is not a plan as this program writes it: {where} cannot be read."),
    "adapters.sound.not_joined": N_("The spoken clips do not fit together. Delete the folder of clips and try again."),
    "adapters.sound.too_long": N_("That is too long: {most_s:mss} at most. Choose a shorter pause for the hands."),
    "adapters.theme.unknown": N_("No theme is called {theme:quoted}. Choose {choices:list}."),
}

PARTS = ("adapters_network",)
