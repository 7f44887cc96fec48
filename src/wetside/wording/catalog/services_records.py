"""Sentences about keeping records: what cannot be found, and what was changed meanwhile."""

from wetside.wording.catalog import N_

SENTENCES = {
    "services.records.not_found": N_(
        "There is no such {what} any more: it was removed, or the address is wrong. Go back to the list; what was "
        "removed can be brought back there."
    ),
    "services.records.changed_meanwhile": N_(
        "{what:quoted} was changed on another page after you opened this one. Nothing of yours was written: look at "
        "what stands there now, and make your change again."
    ),
    "services.records.removed_already": N_("{what:quoted} is removed already. It can be brought back."),
    "services.records.refused": N_(
        "{what:quoted} cannot be kept so; the database says: {reason}. Nothing was written."
    ),
}
