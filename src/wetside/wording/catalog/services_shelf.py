"""Sentences about the shelf: ledgers, what is near its end, mixing, vessels, instruments."""

from wetside.wording.catalog import N_

SENTENCES = {
    # the ledger
    "services.ledger.count_first": N_(
        "Nobody has said yet how much is in bottle {mark:quoted}. Count it first; a good guess will do."
    ),
    "services.ledger.not_enough": N_(
        "There are {left_ml:ml} in bottle {mark:quoted}, not {amount_ml:ml}. Draw less, or count what is left and book that "
        "first."
    ),
    "services.ledger.undo_of_undo": N_("This line undoes another. To have that back, enter it again."),
    "services.ledger.undone_already": N_("Line {number} of bottle {mark:quoted} is undone already."),
    "services.ledger.built_upon": N_(
        "Later lines of bottle {mark:quoted} build upon line {number}: without it {short_ml:ml} would be lacking. Undo those "
        "first, or count what is left."
    ),
}
