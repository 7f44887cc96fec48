"""Words of a document's choices as a person reads them inside a line."""

from __future__ import annotations

from django import template

from wetside.web.forms.entry import words_of

register = template.Library()


@register.filter
def words(value: object) -> str:
    """Choice in small letters and without hyphens: ``full to drain``.

    Examples
    --------
    >>> words("full-to-drain")
    'full to drain'
    """
    return words_of(str(value)).lower()
