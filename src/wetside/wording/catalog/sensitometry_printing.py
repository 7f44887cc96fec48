"""Further sentences of ``wetside.sensitometry``."""

from wetside.wording.catalog import N_  # noqa: F401 (its sentences come)

SENTENCES: dict[str, str] = {}
