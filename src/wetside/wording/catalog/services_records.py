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
    # the darkroom itself
    "services.darkroom.no_name": N_("The darkroom needs a name; any will do."),
    "services.darkroom.long_name": N_("That is too long: a name has at most {most} letters."),
    "services.darkroom.odd_letters": N_("A name has letters, digits and signs that can be read; type it again."),
    "services.darkroom.choice": N_("{value:quoted} cannot be chosen here. Choose {known:list}."),
    "services.darkroom.time_zone": N_(
        "There is no time zone {value:quoted}. Name it by continent and city, such as Europe/Berlin, or leave it empty "
        "for UTC."
    ),
    "services.darkroom.time_zone_near": N_("There is no time zone {value:quoted}. Did you mean {nearest}?"),
}
