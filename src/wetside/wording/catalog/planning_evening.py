"""Further sentences of ``wetside.planning``."""

from wetside.wording.catalog import N_  # noqa: F401 (its sentences come)

SENTENCES: dict[str, str] = {}
