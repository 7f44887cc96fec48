"""One module of sentences for each package that writes codes; each holds ``SENTENCES``, code to text.

A package with many keeps further modules, named in ``PARTS`` of its own.

A text takes its parameters by name with a format of the house (``{time_s:mss}``; see ``wetside.wording.shown``). Texts
are marked for translation with ``N_``, which the extractor of the standard library looks for.
"""


def N_(text: str) -> str:  # noqa: N802 (the extractor's own name)
    """Mark a text for translation; it is translated when it is said."""
    return text
