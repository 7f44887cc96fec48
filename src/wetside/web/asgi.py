"""The application that the server runs."""

from __future__ import annotations

import os
import warnings

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "wetside.web.settings")

from django.core.asgi import get_asgi_application

from wetside.web.pieces import with_turns

# Files of the pages are given by a middleware that reads them in pieces, in a thread; the framework warns of it in the
# words of a programmer, in the terminal of the person who serves.
warnings.filterwarnings("ignore", message="StreamingHttpResponse must consume synchronous iterators")

application = with_turns(get_asgi_application())
