"""What every record shares: an identity that never changes beside a label that may, its history, and a way back."""

from __future__ import annotations

import uuid
from contextlib import contextmanager
from contextvars import ContextVar
from typing import TYPE_CHECKING, Any, ClassVar

from django.db import models
from simple_history.models import HistoricalRecords

if TYPE_CHECKING:
    from collections.abc import Iterator

LABEL_LENGTH = 120
"""Letters that a name or label may have. [letters]"""
NOTE_LENGTH = 4000
"""Letters that a note may have. [letters]"""

_worker: ContextVar[str] = ContextVar("worker", default="")


@contextmanager
def written_by(name: str) -> Iterator[None]:
    """Name of whoever writes, for the history of everything that is written inside the block.

    Parameters
    ----------
    name : str
        As the person gave it; empty where nobody did.
    """
    token = _worker.set(name[:LABEL_LENGTH])
    try:
        yield
    finally:
        _worker.reset(token)


def worker() -> str:
    """Name of whoever writes now; empty where nobody gave one."""
    return _worker.get()


def _who_wrote(historical: Any) -> str | None:
    return str(historical.history_user_id) if historical.history_user_id else None


def _note_who_wrote(historical: Any, user: object) -> None:
    historical.history_user_id = str(user or "") or worker() or None


class Line(models.Model):
    """A record that is written once and never changed: a ledger's line, a check, a receipt."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)

    class Meta:
        abstract = True


class KeptManager(models.Manager[Any]):
    """Records that were not removed."""

    def get_queryset(self) -> models.QuerySet[Any]:
        """All but the removed ones."""
        return super().get_queryset().filter(removed_at=None)


class Kept(models.Model):
    """A record that lives: corrected with a history, removed with a way back.

    ``revision`` goes up with every change, so that two pages that change the same record do not overwrite each other
    unseen. ``facts`` holds what is not a column: the remaining keys of the document's type in the plain form of the
    evening file, checked by the same reader.
    """

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    made_at = models.DateTimeField(auto_now_add=True)
    changed_at = models.DateTimeField(auto_now=True)
    removed_at = models.DateTimeField(null=True, blank=True, default=None)
    revision = models.PositiveIntegerField(default=1)
    note = models.TextField(max_length=NOTE_LENGTH, blank=True, default="")
    facts = models.JSONField(default=dict, blank=True)
    demo = models.BooleanField(default=False)

    objects: ClassVar[models.Manager[Any]] = models.Manager()
    kept: ClassVar[KeptManager] = KeptManager()
    history = HistoricalRecords(
        inherit=True,
        history_user_id_field=models.CharField(max_length=LABEL_LENGTH, null=True, blank=True),
        history_user_getter=_who_wrote,
        history_user_setter=_note_who_wrote,
        history_change_reason_field=models.CharField(max_length=LABEL_LENGTH, null=True, blank=True),
    )

    class Meta:
        abstract = True
