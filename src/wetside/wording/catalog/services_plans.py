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
    # drafts
    "services.plans.none_waits": N_("None of these sheets waits any more. Go to the sheets and pick those that wait."),
    "services.plans.too_many": N_(
        "{sheets} sheets are more than one plan takes; the most is {most}. Plan one evening's sheets at a time."
    ),
    "services.plans.busy": N_(
        "{most} plans are being reckoned already. Wait until one of them is done, and open this page again."
    ),
    "services.plans.is_frozen": N_(
        "{plan:quoted} is frozen: its choices stand as they are. Take the freezing back first, while no load has begun."
    ),
    "services.plans.frozen_stays": N_(
        "{plan:quoted} is frozen and sheets hang from it. Take the freezing back first; then it can be removed."
    ),
    "services.plans.begun": N_("A load of {plan:quoted} has begun or is developed; what happened stays."),
    "services.plans.nothing_begun": N_("No load of {plan:quoted} has begun: take the freezing back instead."),
    "services.plans.nothing_left": N_(
        "Every load of {plan:quoted} has begun or is developed; nothing is left to cancel."
    ),
    "services.plans.planned_anew": N_("These loads were planned anew in {plan:quoted}. Undo that there first."),
    "services.plans.not_cancelled": N_("Nothing of {plan:quoted} was cancelled."),
    # freezing
    "services.plans.not_as_seen": N_(
        "Something that {plan:quoted} stands on was changed after this page was shown. Nothing was frozen: look at the "
        "plan as it is now, and freeze that."
    ),
    "services.plans.takes_long": N_(
        "{plan:quoted} is still being reckoned. Nothing was frozen; open the plan again in a minute."
    ),
    "services.plans.nothing_to_freeze": N_(
        "No sheet of {plan:quoted} has a time yet, so there is nothing to freeze. The plan says what is missing."
    ),
    "services.plans.sheet_gone": N_(
        "The sheet {sheet:quoted} does not wait any more: another plan has it, or it was developed, lost or removed. "
        "Nothing was frozen."
    ),
    "services.plans.no_file": N_("There is no file called {value:quoted} here."),
    "services.plans.is_draft": N_("{plan:quoted} is not frozen."),
    "services.plans.short_stays": N_(
        "{plan:quoted} was made on the short way and has no draft to go back to. It can be removed while no load has begun."
    ),
    "services.plans.never_frozen": N_("There is no frozen state of {plan:quoted} to bring back."),
    "services.plans.no_load": N_("There is no load {load} here that could be run."),
    "services.plans.not_ready": N_("Load {load} is running, or developed already."),
    "services.plans.not_noted": N_("Load {load} was not noted by hand: there is nothing to take back."),
    # the short way
    "services.plans.which_vessel": N_(
        "{value:quoted} is no vessel of your shelf, and cannot be read as one. Write what it is, the sheets that it takes, "
        "and the liquid from the least to the most: drum 6, 300-1000 ml."
    ),
    "services.plans.wanted": N_("This is needed."),
    "services.plans.other_film": N_("The sheet {sheet:quoted} is {film}; this plan is for {wanted}."),
    "services.plans.attach_count": N_("This plan has {places} places left; {count} sheets were picked."),
    "services.plans.not_short": N_("{plan:quoted} was made of sheets; there is nothing to attach."),
    # the demo darkroom
    "services.plans.demo_there": N_("The demo darkroom is here already. Remove it first if you want it fresh."),
    "services.plans.demo_not_there": N_("There is no demo darkroom to remove."),
    "services.plans.demo_begun": N_(
        "A run of the demo darkroom is going on. End it first; then the demo can be removed."
    ),
}
