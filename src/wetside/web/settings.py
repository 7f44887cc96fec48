"""Settings of the framework, from environment variables.

``WETSIDE_DATA``
    Folder of the darkroom's data; the platform's usual place if absent.
``WETSIDE_DATABASE``
    Address of a PostgreSQL database (``postgresql://user@host/name``); SQLite in the data folder if absent.
``WETSIDE_DEBUG``
    ``1`` shows the framework's own error pages, for developers only.
``WETSIDE_LAN``
    ``https`` or ``plain`` while the program listens on the network; set by ``wetside serve --lan`` alone.
``WETSIDE_LAN_HOSTS``
    Then the addresses and names that are served, with blanks between them.
``WETSIDE_LAN_ADDRESS``, ``WETSIDE_LAN_CERTIFICATE``
    Then the address for a telephone, and the page that hands out the certificate of the authority.
"""

from __future__ import annotations

import os
from typing import Any

from csp.constants import NONE, SELF

from wetside import __version__
from wetside.adapters.data_folder import data_folder, database_of_address, secret_of

LEAST_PASSWORD = 10
"""Letters that a password must have. [letters]"""

DATA_FOLDER = data_folder(os.environ)
DATABASE_ADDRESS = os.environ.get("WETSIDE_DATABASE", "")

CONNECTION_S = 60
"""How long a thread keeps its connection to the database. Our choice. [s]"""

CACHE_KIB = 16_000
"""What SQLite keeps of the file in memory for a connection, so that long tables are not read anew. Our choice. [KiB]"""

DEBUG = os.environ.get("WETSIDE_DEBUG") == "1"
SECRET_KEY = secret_of(DATA_FOLDER)
LAN = os.environ.get("WETSIDE_LAN", "")
"""How the network is served: ``https``, ``plain``, or not at all. Then everybody signs in, on this machine too."""
LAN_ADDRESS = os.environ.get("WETSIDE_LAN_ADDRESS", "")
LAN_CERTIFICATE = os.environ.get("WETSIDE_LAN_CERTIFICATE", "")
ENCRYPTED = LAN == "https"
ALLOWED_HOSTS = os.environ.get("WETSIDE_LAN_HOSTS", "").split() if LAN else ["127.0.0.1", "localhost", "[::1]"]
"""Only what is really served: a strange name that was made to lead here is refused."""

INSTALLED_APPS = [
    "django.contrib.contenttypes",
    "django.contrib.auth",
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.staticfiles",
    "csp",
    "django_htmx",
    "simple_history",
    "wetside.records.apps.RecordsConfig",
    "wetside.web.apps.WebConfig",
]
MIDDLEWARE = [
    "wetside.web.guard.known_host",
    "django.middleware.security.SecurityMiddleware",
    "csp.middleware.CSPMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.locale.LocaleMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
    "wetside.web.guard.signed_in",
    "wetside.web.middleware.darkroom",
    "wetside.web.middleware.mistakes",
]
ROOT_URLCONF = "wetside.web.urls"
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.messages.context_processors.messages",
                "wetside.web.context.shell",
            ],
            "builtins": ["django.templatetags.i18n", "django.templatetags.static", "wetside.web.templatetags.shown"],
        },
    }
]
FORM_RENDERER = "django.forms.renderers.DjangoTemplates"


# A connection is tried before a request uses it: a server of the database that was restarted is no fault of the page.
KEPT = {"CONN_MAX_AGE": CONNECTION_S, "CONN_HEALTH_CHECKS": True}


def _databases() -> dict[str, dict[str, Any]]:
    if DATABASE_ADDRESS:
        return {"default": database_of_address(DATABASE_ADDRESS) | KEPT}
    return {
        "default": {
            "ENGINE": "django.db.backends.sqlite3",
            "NAME": DATA_FOLDER / "darkroom.sqlite3",
            **KEPT,
            "OPTIONS": {
                # A read that becomes a write must not fail at once because another writes; and what was said to be
                # kept is on the disk when the power goes.
                "transaction_mode": "IMMEDIATE",
                "timeout": 20,
                "init_command": "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; PRAGMA foreign_keys=ON; "
                f"PRAGMA cache_size=-{CACHE_KIB};",
            },
        }
    }


DATABASES = _databases()

USE_TZ = True
TIME_ZONE = "UTC"
LANGUAGE_CODE = "en"
LANGUAGES = [("en", "English")]
# With one language nothing has to be looked up; a tenth of a page's time went into finding nothing.
USE_I18N = len(LANGUAGES) > 1

STATIC_URL = "static/"
WHITENOISE_USE_FINDERS = True
WHITENOISE_AUTOREFRESH = False
WHITENOISE_MAX_AGE = 0 if DEBUG else 3600

SESSION_ENGINE = "django.contrib.sessions.backends.signed_cookies"
SESSION_COOKIE_HTTPONLY = True
SESSION_COOKIE_SAMESITE = "Lax"
CSRF_COOKIE_SAMESITE = "Lax"
# Cookies know no ports: with this prefix the page on plain HTTP beside it can neither read nor set them.
SESSION_COOKIE_NAME = "__Host-wetside" if ENCRYPTED else "sessionid"
CSRF_COOKIE_NAME = "__Host-wetside-form" if ENCRYPTED else "csrftoken"
SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = ENCRYPTED
SESSION_COOKIE_AGE = 30 * 86_400
AUTH_PASSWORD_VALIDATORS = [
    {
        "NAME": "django.contrib.auth.password_validation.MinimumLengthValidator",
        "OPTIONS": {"min_length": LEAST_PASSWORD},
    },
    *(
        {"NAME": f"django.contrib.auth.password_validation.{name}Validator"}
        for name in ("UserAttributeSimilarity", "CommonPassword", "NumericPassword")
    ),
]
LOGIN_URL = "sign-in"
MESSAGE_STORAGE = "django.contrib.messages.storage.cookie.CookieStorage"

SECURE_CONTENT_TYPE_NOSNIFF = True
SECURE_REFERRER_POLICY = "same-origin"
SECURE_CROSS_ORIGIN_OPENER_POLICY = "same-origin"
X_FRAME_OPTIONS = "DENY"
# Loopback has no transport to encrypt, and over plain HTTP in the network a cookie for HTTPS would keep everybody out.
SILENCED_SYSTEM_CHECKS = [
    "security.W004",  # holds for all ports of a name: it would shut the page that hands out the certificate
    "security.W008",  # the port of the pages speaks HTTPS alone: nothing to redirect
    *(
        []
        if ENCRYPTED
        else [
            "security.W012",  # cookies over loopback
            "security.W016",  # the same, for the form token
        ]
    ),
]

CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": [NONE],
        "script-src": [SELF],
        "style-src": [SELF],
        "img-src": [SELF, "data:"],
        "font-src": [SELF],
        "connect-src": [SELF],
        "media-src": [SELF],
        "manifest-src": [SELF],
        "worker-src": [SELF],
        "form-action": [SELF],
        "base-uri": [NONE],
        "frame-ancestors": [NONE],
    }
}

DATA_UPLOAD_MAX_MEMORY_SIZE = 2_000_000
FILE_UPLOAD_MAX_MEMORY_SIZE = 2_000_000
DATA_UPLOAD_MAX_NUMBER_FIELDS = 4000
DATA_UPLOAD_MAX_NUMBER_FILES = 4

SIMPLE_HISTORY_REVERT_DISABLED = True
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"
TOOL = f"wetside {__version__}"

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "handlers": {"console": {"class": "logging.StreamHandler"}},
    "root": {"handlers": ["console"], "level": "WARNING"},
    # Mistakes of what was typed are told on the page, in our words; the terminal is for what the server did wrong.
    "filters": {"database": {"()": "wetside.web.failures.DatabaseAway"}},
    "loggers": {"django.request": {"level": "ERROR", "filters": ["database"]}},
}
