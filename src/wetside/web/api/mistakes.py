"""One shape for everything that is refused: a code, a sentence, and the field where there is one."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.http import JsonResponse

from wetside.errors import ConflictError, ManyErrors, RefusedError, UnknownNameError, WetsideError
from wetside.wording import sentence

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

NOT_FOUND = frozenset(
    {"services.records.not_found", "services.plans.is_draft_here", "records.log.no_run", "services.runs_taken.gone"}
)
TOO_SOON = frozenset({"services.reading.too_soon"})
RETRY_S = 5


class InterfaceError(WetsideError):
    """A call that is refused before a service is asked.

    Parameters
    ----------
    status : int
        Of the answer.
    code : str
    headers : mapping, optional
    **params
        What the sentence needs.
    """

    def __init__(self, status: int, code: str, /, headers: Mapping[str, str] | None = None, **params: object) -> None:
        super().__init__(code, place=None, **params)
        self.status, self.headers = status, headers or {}


def answer_of(error: WetsideError) -> JsonResponse:
    """Answer that tells what is wrong, with the status that fits."""
    errors: Sequence[WetsideError] = error.errors if isinstance(error, ManyErrors) else (error,)
    told = [_told(one) for one in errors[:100]] or [_told(error)]
    answer = JsonResponse({**told[0], "more": told[1:]}, status=status_of(error))
    if isinstance(error, InterfaceError):
        for name, value in error.headers.items():
            answer[name] = value
    if answer.status_code == 429:
        answer["Retry-After"] = str(RETRY_S)
    return answer


def status_of(error: WetsideError) -> int:
    """Status of a refusal: 404 where the record is not there, 409 where it clashes, 429 too soon, 422 else."""
    if isinstance(error, InterfaceError):
        return error.status
    if isinstance(error, UnknownNameError) and error.code in NOT_FOUND:
        return 404
    if isinstance(error, RefusedError) and error.code in TOO_SOON:
        return 429
    return 409 if isinstance(error, ConflictError) and error.place is None else 422


def _told(error: WetsideError) -> dict[str, Any]:
    place = error.place
    return {
        "code": error.code,
        "sentence": sentence(error.code, error.params),
        "field": place.field if place is not None else None,
    }
