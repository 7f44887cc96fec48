"""Sentences of ``wetside.values``."""

from wetside.wording.catalog import N_

SENTENCES = {
    "values.dilution.not_finite": N_("A part of a dilution is not a number: {value}. Write it like 1+24."),
    "values.dilution.no_agent": N_(
        "The dilution {value:quoted} has no concentrate in it. The first part must be more than 0, as in 1+24."
    ),
    "values.dilution.negative_water": N_("The water of a dilution cannot be negative ({value:plain})."),
}
