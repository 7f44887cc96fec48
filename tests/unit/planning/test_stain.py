"""A stained negative is planned only from readings in a light that its printing sees."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from wetside.errors import RefusedError
from wetside.planning.basis import require_no_stain_unseen
from wetside.planning.documents.words import Channel, Printing


def asked(printing, channel, *, stains=True):
    """Ask for one developer, printing and light."""
    developer = SimpleNamespace(name="Brackwater", stains=stains)
    resolved = SimpleNamespace(developer=developer, film=SimpleNamespace(name="Tolland 100"))
    require_no_stain_unseen(resolved, SimpleNamespace(printing=printing, channel=channel))


@pytest.mark.parametrize(
    ("printing", "channel"),
    [
        (Printing.GRADED, Channel.VISUAL),
        (Printing.GRADED, Channel.UV),
        (Printing.VARIABLE, Channel.VISUAL),
        (Printing.ALTERNATIVE, Channel.BLUE),
    ],
)
def test_a_light_that_the_printing_does_not_see_is_refused(printing, channel):
    """The stain that prints is not in such readings."""
    with pytest.raises(RefusedError) as refused:
        asked(printing, channel)
    assert refused.value.code == "planning.stain_unseen"
    asked(printing, channel, stains=False)


@pytest.mark.parametrize(
    ("printing", "channel"),
    [
        (Printing.GRADED, Channel.BLUE),
        (Printing.VARIABLE, Channel.GREEN),
        (Printing.ALTERNATIVE, Channel.UV),
        (Printing.SCANNER, Channel.VISUAL),
    ],
)
def test_a_light_that_the_printing_sees_may_plan(printing, channel):
    """So may a scanner's own."""
    asked(printing, channel)
