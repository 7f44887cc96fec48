"""Tokens of programs: kept as a hash, never as they are."""

from __future__ import annotations

import uuid
from typing import ClassVar

from django.db import models
from django.db.models import Q

from wetside.records.models.kept import LABEL_LENGTH


class TokenScope(models.TextChoices):
    """What the holder of a token may do."""

    READ = "read"
    WRITE = "write"
    READINGS = "readings"


class Token(models.Model):
    """A program's way in: its name, what it may do, the SHA-256 of its secret, and when it was last used.

    ``begins`` are the first letters of the secret, by which its owner knows it again. A revoked one stays, so that the
    list tells what was there.
    """

    exported: ClassVar[bool] = False
    """Not part of an export: whoever reads a copy of the archive gets no way in, and a copy lets nobody in."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    name = models.CharField(max_length=LABEL_LENGTH)
    name_key = models.CharField(max_length=LABEL_LENGTH, editable=False)
    scope = models.CharField(max_length=20, choices=TokenScope.choices)
    begins = models.CharField(max_length=12)
    sha256 = models.CharField(max_length=64, unique=True)
    made_at = models.DateTimeField()
    used_at = models.DateTimeField(null=True, blank=True)
    revoked_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ("made_at", "id")
        constraints = (
            models.UniqueConstraint(fields=["name_key"], condition=Q(revoked_at=None), name="token_name_once"),
            models.CheckConstraint(condition=~Q(name=""), name="token_has_name"),
            models.CheckConstraint(condition=Q(scope__in=[s.value for s in TokenScope]), name="token_scope_known"),
            models.CheckConstraint(condition=Q(sha256__regex=r"^[0-9a-f]{64}$"), name="token_hash_is_one"),
        )

    def __str__(self) -> str:
        return self.name
