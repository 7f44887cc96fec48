"""Sentences of ``wetside.services`` about the spoken loading order."""

from wetside.wording.catalog import N_

SENTENCES = {
    "services.loading.no_voice": N_(
        "No voice is installed where the program runs, so nothing can be spoken. Install espeak-ng, or print the order."
    ),
    "services.loading.nothing": N_("This run names no sheets, so there is no order to load them in."),
    "services.loading.failed": N_("The voice did not speak all of the order in time. Print it, or try again."),
    "services.loading.pause": N_(
        "{value:quoted} is no pause for the hands. Type whole seconds, {low_s:plain} to {high_s:plain}."
    ),
}
