"""Sentences of ``wetside.adapters``."""

from wetside.wording.catalog import N_

SENTENCES = {
    "adapters.paper.unknown": N_("No paper is called {paper:quoted}. Choose {choices:list}."),
    "adapters.theme.unknown": N_("No theme is called {theme:quoted}. Choose {choices:list}."),
}
