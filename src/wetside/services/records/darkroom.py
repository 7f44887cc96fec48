"""What holds for the whole darkroom: its name, units, paper and time zone."""

from __future__ import annotations

from wetside.records.models import Darkroom


def darkroom_settings() -> Darkroom:
    """Settings of the darkroom; what nobody has set stands at its default, unwritten."""
    return Darkroom.objects.filter(only=1).first() or Darkroom()
