"""Sentences of ``wetside.services`` about spoken clips."""

from wetside.wording.catalog import N_

SENTENCES = {
    "services.clips.try_out": N_("This is how I sound."),
    "services.clips.none": N_("There is no clip {value:quoted}. Load the page anew."),
}
