"""Sentences about plans of the records: evenings in and out, freezing, the short way, the demo darkroom."""

from wetside.wording.catalog import N_

SENTENCES = {
    # evenings
    "services.plans.no_sheets": N_("This plan has no sheets yet. Pick the ones that you want to develop."),
    "services.plans.one_evening": N_(
        "One evening file (evening.toml) is wanted here, with the tables that it names; {count} were given."
    ),
    "services.plans.too_long": N_("This has {length} letters; the records keep {most}. Shorten it in the file."),
    "services.plans.choose": N_(
        "The records know this under the same name and say something else ({keys:list}). Choose which of the two holds."
    ),
}
