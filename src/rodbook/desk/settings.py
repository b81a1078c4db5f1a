"""Django's settings for the desk; `serve` sets the environment that they read."""

from __future__ import annotations

import os
import secrets
import warnings
from pathlib import Path
from zoneinfo import available_timezones

import tzlocal
from django.utils.csp import CSP

from rodbook.desk.platform.catalogues import languages

__all__: list[str] = []

HOME = Path(os.environ.get("RODBOOK_DESK_HOME", Path.home() / ".rodbook"))
"""Where the database, photos, key and static files live."""

SHARED = os.environ.get("RODBOOK_DESK_SHARED") == "1"
"""Whether people with accounts come in over the firm's own network."""

BEHIND_TLS = os.environ.get("RODBOOK_DESK_TLS") == "1"
"""Whether a proxy in front of the desk speaks TLS."""


def _secret_key() -> str:
    """Read the key that signs cookies; make it once, readable by its owner alone."""
    HOME.mkdir(mode=0o700, parents=True, exist_ok=True)
    path = HOME / "secret-key"
    try:
        handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    except FileExistsError:
        return path.read_text("ascii")
    with os.fdopen(handle, "w", encoding="ascii") as out:
        out.write(key := secrets.token_urlsafe(48))
    return key


def _time_zone() -> str:
    """Find the machine's own zone: `TZ` where it is set, else what the system keeps; UTC where neither can be looked up."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        try:
            name = tzlocal.get_localzone_name()
        except (LookupError, OSError, ValueError):
            return "UTC"
    return name if name in available_timezones() else "UTC"


SECRET_KEY = _secret_key()
DEBUG = False
ALLOWED_HOSTS = [h for h in os.environ.get("RODBOOK_DESK_HOSTS", "127.0.0.1,localhost").split(",") if h]
CSRF_TRUSTED_ORIGINS = [f"https://{host}" for host in ALLOWED_HOSTS] if BEHIND_TLS else []

INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.staticfiles",
    "axes",
    "django_htmx",
    "rodbook.desk.apps.DeskConfig",
]

MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "django.middleware.csp.ContentSecurityPolicyMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "rodbook.desk.keeping.trouble.Trouble",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "rodbook.desk.platform.language.Language",
    "django.middleware.common.CommonMiddleware",
    "rodbook.desk.platform.access.Limit",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "rodbook.desk.entrance.audit.Noting",
    "rodbook.desk.platform.access.Gate",
    "rodbook.desk.jobs.begin_views.AskFirst",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
    "axes.middleware.AxesMiddleware",
]

ROOT_URLCONF = "rodbook.desk.urls"
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "rodbook.desk.platform.access.who_is_asking",
                "rodbook.desk.platform.language.book_numbers",
            ],
            "builtins": ["rodbook.desk.templatetags.desk"],
        },
    }
]

DATABASES = {
    "default": {
        "ENGINE": "rodbook.desk.platform.sqlite",
        "NAME": HOME / "desk.sqlite3",
        "CONN_MAX_AGE": None,
        "OPTIONS": {
            # A transaction takes the write lock at once, so that nobody reads a head that is about to move; readers
            # outside transactions never wait. FULL: a saved revision survives a power cut.
            "transaction_mode": "IMMEDIATE",
            "timeout": 20,
            "init_command": "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; PRAGMA foreign_keys=ON; "
            "PRAGMA temp_store=MEMORY; PRAGMA cache_size=-16000; PRAGMA journal_size_limit=27103364;",
        },
        "TEST": {"NAME": os.environ.get("RODBOOK_DESK_TEST_DB", str(HOME / "test.sqlite3"))},
    }
}
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

AUTHENTICATION_BACKENDS = ["axes.backends.AxesStandaloneBackend", "django.contrib.auth.backends.ModelBackend"]
PASSWORD_HASHERS = ["rodbook.desk.entrance.passwords.OneLane"]
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": "django.contrib.auth.password_validation.MinimumLengthValidator", "OPTIONS": {"min_length": 12}},
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
    {"NAME": "django.contrib.auth.password_validation.NumericPasswordValidator"},
    {"NAME": "rodbook.desk.entrance.passwords.Guessable"},
    {"NAME": "django.contrib.auth.password_validation.UserAttributeSimilarityValidator"},
]
LOGIN_URL = "login"
LOGIN_REDIRECT_URL = "jobs"
AXES_FAILURE_LIMIT = 6
AXES_COOLOFF_TIME = 0.25  # hours
AXES_LOCKOUT_PARAMETERS = [["username", "ip_address"]]
AXES_RESET_ON_SUCCESS = True
AXES_VERBOSE = False
AXES_LOCKOUT_TEMPLATE = "desk/locked_out.html"
AXES_WHITELIST_CALLABLE = "rodbook.desk.entrance.views.is_known"
"""Names and addresses together are counted here; tries from one address, and those of known browsers, at the turnstile."""

SESSION_COOKIE_AGE = 12 * 3600 if SHARED else 30 * 24 * 3600
SESSION_SAVE_EVERY_REQUEST = SHARED
SESSION_LONGEST = 7 * 24 * 3600 if SHARED else 30 * 24 * 3600
"""However much it is used, a session ends after so long. House assumption. [s]"""
SESSION_COOKIE_SAMESITE = "Strict"
SESSION_COOKIE_NAME = "__Host-rodbook_session" if BEHIND_TLS else "rodbook_session"
"""With the prefix browsers keep it for this one host and by TLS alone (RFC 6265bis, section 4.1.3.2)."""
CSRF_COOKIE_SAMESITE = "Strict"
CSRF_COOKIE_HTTPONLY = True
CSRF_COOKIE_NAME = "__Host-rodbook_csrf" if BEHIND_TLS else "rodbook_csrf"
CSRF_FAILURE_VIEW = "rodbook.desk.platform.errors.too_old"
SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = BEHIND_TLS
SECURE_SSL_REDIRECT = BEHIND_TLS
SECURE_HSTS_SECONDS = 31_536_000 if BEHIND_TLS else 0
SECURE_HSTS_INCLUDE_SUBDOMAINS = SECURE_HSTS_PRELOAD = BEHIND_TLS
if BEHIND_TLS:
    SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https")
SECURE_REFERRER_POLICY = "same-origin"
X_FRAME_OPTIONS = "DENY"
SECURE_CSP = {
    "default-src": [CSP.NONE],
    "script-src": [CSP.SELF],
    "style-src": [CSP.SELF],
    "img-src": [CSP.SELF, "data:", "blob:"],
    "font-src": [CSP.SELF],
    "connect-src": [CSP.SELF],
    "form-action": [CSP.SELF],
    "base-uri": [CSP.NONE],
    "frame-ancestors": [CSP.NONE],
    "manifest-src": [CSP.SELF],
    "worker-src": [CSP.SELF],
    "object-src": [CSP.NONE],
}

MOST_SENT = 16 * 1024 * 1024
"""A page that sends more gets a sentence; a list or a picture may have 10 MB, of which its own page tells."""

_PICTURE_MB = os.environ.get("RODBOOK_DESK_PICTURE_MB", "")
MOST_PICTURE_BYTES = 1_000_000 * (int(_PICTURE_MB) if _PICTURE_MB.isdecimal() and len(_PICTURE_MB) < 10 else 4000)
"""Room for the pictures of all jobs: some four thousand as they are kept. House assumption. [bytes]"""

DATA_UPLOAD_MAX_MEMORY_SIZE = 12 * 1024 * 1024
FILE_UPLOAD_MAX_MEMORY_SIZE = 12 * 1024 * 1024
DATA_UPLOAD_MAX_NUMBER_FIELDS = 20_000

FILE_UPLOAD_PERMISSIONS, FILE_UPLOAD_DIRECTORY_PERMISSIONS = 0o600, 0o700
"""Rights of files that the framework writes, static ones too: the owner's alone."""

STATIC_URL = "static/"
STATIC_ROOT = HOME / "static"
STATICFILES_DIRS = [("fonts", Path(__file__).parent.parent / "papers" / "fonts")]
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    "staticfiles": {"BACKEND": "whitenoise.storage.CompressedManifestStaticFilesStorage"},
}

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "filters": {"room": {"()": "rodbook.desk.keeping.logs.RoomForFaults"}},
    "formatters": {"line": {"format": "{asctime} {levelname} {name}: {message}", "style": "{"}},
    "handlers": {
        "file": {
            "class": "logging.handlers.RotatingFileHandler",
            "filename": HOME / "desk.log",
            "maxBytes": 1_000_000,
            "backupCount": 2,
            "delay": True,
            "formatter": "line",
            "filters": ["room"],
        }
    },
    "root": {"handlers": ["file"], "level": "WARNING"},
}
"""Faults of the desk itself go into a file in its home, never onto a page."""

LANGUAGE_CODE = "en-gb"
LANGUAGES = [("en-gb", "English"), *((name, name) for name in languages())]
LOCALE_PATHS = [HOME / "locale"]
DESK_LANGUAGE = os.environ.get("RODBOOK_DESK_LANGUAGE", "")
"""Language of every page; nothing leaves it to the way in which the firm's book writes numbers."""
USE_I18N = True
USE_TZ = True
TIME_ZONE = _time_zone()
