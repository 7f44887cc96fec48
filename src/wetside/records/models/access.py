"""Who may come in over the network: devices that are signed in, one-time codes of the telephone, attempts that failed.

Accounts themselves are the framework's own table of users. None of these tables is written into an export, and each
secret is kept as its hash alone.
"""

from __future__ import annotations

from typing import ClassVar

from django.conf import settings
from django.db import models
from django.db.models import Q

from wetside.records.models.kept import LABEL_LENGTH, Line

HASH_LENGTH = 64
"""Letters of a SHA-256 hash. [letters]"""


class SignedIn(Line):
    """A device that is signed in; ``ended_at`` is set by signing out, here or from another device."""

    exported: ClassVar[bool] = False

    account = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="devices")
    token_hash = models.CharField(max_length=HASH_LENGTH, unique=True)
    way = models.CharField(max_length=20)
    told_as = models.CharField(max_length=LABEL_LENGTH, blank=True, default="")
    made_at = models.DateTimeField()
    ended_at = models.DateTimeField(null=True, blank=True, default=None)

    class Meta:
        ordering = ("-made_at",)
        constraints = (
            models.CheckConstraint(condition=Q(way__in=["password", "telephone"]), name="signed_in_way_known"),
        )

    def __str__(self) -> str:
        return f"{self.way} {self.made_at:%Y-%m-%d %H:%M}"


class TelephoneCode(Line):
    """A one-time code that signs a telephone in as the account that asked for it."""

    exported: ClassVar[bool] = False

    account = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="telephone_codes")
    code_hash = models.CharField(max_length=HASH_LENGTH, unique=True)
    made_at = models.DateTimeField()
    ends_at = models.DateTimeField()
    used_at = models.DateTimeField(null=True, blank=True, default=None)

    class Meta:
        ordering = ("-made_at",)
        constraints = (
            models.CheckConstraint(condition=Q(ends_at__gt=models.F("made_at")), name="telephone_code_ends_later"),
        )

    def __str__(self) -> str:
        return f"{self.made_at:%Y-%m-%d %H:%M}"


class SignInAttempts(Line):
    """Attempts to sign in that failed, counted for an account's name or an address, both kept as hashes."""

    exported: ClassVar[bool] = False

    whose_hash = models.CharField(max_length=HASH_LENGTH, unique=True)
    failed = models.PositiveIntegerField()
    last_at = models.DateTimeField()
    waits_until = models.DateTimeField()

    class Meta:
        ordering = ("-last_at",)
        indexes = (models.Index(fields=["last_at"], name="attempts_by_age"),)

    def __str__(self) -> str:
        return f"{self.failed}"
