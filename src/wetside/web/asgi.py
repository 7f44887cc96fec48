"""The application that the server runs."""

from __future__ import annotations

import os

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "wetside.web.settings")

from django.core.asgi import get_asgi_application

application = get_asgi_application()
