"""Sentences of ``wetside compare`` and ``wetside take``."""

from wetside.wording.catalog import N_

SENTENCES = {
    "cli.compare.density": N_("density"),
    "cli.compare.zones": N_("zones"),
    "cli.compare.plus": N_("Plus: the other has the larger range."),
    "cli.compare.row": N_("{kind}: {one}; other: {other}."),
    "cli.compare.rests": N_("({backing})"),
    "cli.compare.too_far": N_("too far"),
    "cli.compare.words": N_("Differs too, and cannot be put in figures:"),
    "cli.compare.missing": N_("Nobody knows:"),
    "cli.take.run": N_("{title}, opened {began}"),
    "cli.take.rehearsal": N_("{title}, a rehearsal with water, opened {began}"),
    "cli.take.baths": N_("Poured: {baths:list}."),
    "cli.take.no_bath": N_("Nothing was poured."),
    "cli.take.ended": N_("How it ended: {ended}"),
    "cli.take.torn": N_("The last line was torn, {count} bytes: it was never told as taken, and is passed over."),
    "cli.take.new": N_("Not in the archive yet; {facts} facts."),
    "cli.take.more": N_("In the archive as {run:quoted}; {facts} facts are new."),
    "cli.take.load": N_("With --sheets it is {load:quoted}, which was not begun yet."),
    "cli.take.sheets": N_("With --sheets these records are tied to it by their labels: {sheets:list}."),
    "cli.take.unsure": N_(
        "More than one record fits, or its film is another: {sheets:list}. The page of the runs asks."
    ),
    "cli.take.ask": N_("Nothing was written. Take it in with --yes."),
    "cli.take.nothing_new": N_("All of this log is in the archive already. Nothing was changed."),
    "cli.take.done": N_("Taken in as {run:quoted}: {facts} facts. Its page is /runs/{key}/"),
    "cli.take.tied": N_("{tied} of its sheets are tied to it."),
}
