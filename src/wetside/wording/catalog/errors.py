"""Sentences of ``wetside.errors``."""

from wetside.wording.catalog import N_

SENTENCES = {"errors.many": N_("{count} things need to be put right.")}
