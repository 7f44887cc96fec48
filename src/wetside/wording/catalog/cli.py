"""Sentences of ``wetside.cli``."""

from wetside.wording.catalog import N_

SENTENCES = {
    "cli.no_such_sheet": N_("No sheet is called {label:quoted}. The evening has {known:quoted_list}."),
    "cli.serve.ready": N_("The darkroom is open at {address} (on this machine only). Ctrl-C closes it."),
    "cli.schema_which": N_("Say which schema: evening or plan."),
    "cli.file_and_options": N_(
        "An evening file and {options:list} say the same things twice. Write them into the file, or leave the file out."
    ),
}

PARTS = ("cli_bench", "cli_exposure", "cli_run")
