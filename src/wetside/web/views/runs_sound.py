"""What a run's page hears: the list of its clips, rendered before the start, and each of them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.conf import settings
from django.http import HttpResponse, JsonResponse
from django.urls import reverse
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_safe

from wetside.services.records import runs as service
from wetside.services.run_clips import clip_path, clips_of_run

if TYPE_CHECKING:
    from uuid import UUID

    from django.http import HttpRequest


@never_cache
@require_safe
def clips(request: HttpRequest, key: UUID) -> HttpResponse:
    """Clips by the names of their cues; rendered now, where they are not there yet."""
    del request
    run = service.find_run(key)
    found = clips_of_run(service.standing(run).state, settings.DATA_FOLDER)
    return JsonResponse(
        {
            "voice": found.voice,
            "missing": found.missing,
            "clips": {
                name: {"address": reverse("run_clip", args=[clip.name]), "lasts_s": clip.lasts_s}
                for name, clip in found.clips.items()
            },
        }
    )


@require_safe
def clip(request: HttpRequest, name: str) -> HttpResponse:
    """One clip; its name is of its content, so that it never changes."""
    del request
    answer = HttpResponse(clip_path(settings.DATA_FOLDER, name).read_bytes(), content_type="audio/wav")
    answer["Cache-Control"] = "private, max-age=31536000, immutable"
    return answer
