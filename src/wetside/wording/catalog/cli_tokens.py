"""Sentences of ``wetside token``."""

from wetside.wording.catalog import N_

SENTENCES = {
    "cli.token.name": N_('Name the program: wetside token {doing} "probe by the sink".'),
    "cli.token.name_not": N_("A list takes no name: wetside token list."),
    "cli.token.scope": N_("Say what it may: --scope read, --scope write or --scope readings."),
    "cli.token.scope_not": N_("--scope is for token add; token {doing} takes none."),
    "cli.token.made": N_(
        "The token of {name:quoted}, shown this once; the program sends it as Authorization: Bearer TOKEN"
    ),
    "cli.token.removed": N_("{name:quoted} gets in no more, for good."),
    "cli.token.none": N_("No token lets a program in."),
}
