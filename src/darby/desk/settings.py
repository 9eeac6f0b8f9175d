"""Django's settings of the desk. The folder comes by DARBY_DESK_DATA; with DARBY_DESK_TLS=1 it is served by https.

No cache, no mail, no media folder, no second data base: sessions, photographs and counts of attempts are rows.
"""

from __future__ import annotations

import os
import secrets
from pathlib import Path

from darby.desk.home import named

_home = named()
TLS = os.environ.get("DARBY_DESK_TLS") == "1"

DEBUG = False
SECRET_KEY = _home.secret if _home is not None else secrets.token_urlsafe(64)
ALLOWED_HOSTS = ["localhost", "127.0.0.1", "[::1]", *filter(None, os.environ.get("DARBY_DESK_HOSTS", "").split(","))]

INSTALLED_APPS = [
    "django.contrib.contenttypes",
    "django.contrib.auth",
    "django.contrib.sessions",
    "django.contrib.staticfiles",
    "django_htmx",
    "darby.desk.kept",
]
MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "darby.desk.headers.Headers",
    "darby.desk.headers.Shorter",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
    "darby.desk.doors.Doors",
    "darby.desk.uploads.refusing.Refusing",
    "django.middleware.csrf.CsrfViewMiddleware",
]
ROOT_URLCONF = "darby.desk.urls"
WSGI_APPLICATION = None
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [Path(__file__).parent / "templates", Path(__file__).parent / "stages"],
        "OPTIONS": {
            "context_processors": ["django.template.context_processors.request", "darby.desk.speaking.spoken"],
            "builtins": ["darby.desk.templatetags.desk"],
        },
    }
]

DATABASES = {
    "default": {
        "ENGINE": "django.db.backends.sqlite3",
        "NAME": _home.base if _home is not None else ":memory:",
        "OPTIONS": {
            "transaction_mode": "IMMEDIATE",
            "timeout": 20,
            "init_command": "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; PRAGMA foreign_keys=ON;",
        },
    }
}
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"
CACHES = {"default": {"BACKEND": "django.core.cache.backends.dummy.DummyCache"}}

AUTH_USER_MODEL = "kept.Person"
AUTHENTICATION_BACKENDS = ["django.contrib.auth.backends.ModelBackend"]
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": "django.contrib.auth.password_validation.MinimumLengthValidator", "OPTIONS": {"min_length": 12}},
    {"NAME": "darby.desk.passwords.NotTooLong"},
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
]
LOGIN_URL = "sign-in"

SESSION_COOKIE_NAME = "__Host-desk" if TLS else "desk"
SESSION_COOKIE_AGE = 60 * 60 * 24 * 30
SESSION_COOKIE_HTTPONLY = True
SESSION_COOKIE_SAMESITE = "Lax"
SESSION_COOKIE_SECURE = TLS
CSRF_COOKIE_NAME = "__Host-desk-form" if TLS else "desk-form"
CSRF_COOKIE_HTTPONLY = True
CSRF_COOKIE_SAMESITE = "Lax"
CSRF_COOKIE_SECURE = TLS
CSRF_FAILURE_VIEW = "darby.desk.views.doors.form_too_old"

SECURE_SSL_REDIRECT = TLS
SECURE_HSTS_SECONDS = 60 * 60 * 24 * 365 if TLS else 0
SECURE_HSTS_INCLUDE_SUBDOMAINS = TLS
SECURE_HSTS_PRELOAD = TLS
SECURE_CONTENT_TYPE_NOSNIFF = True
SECURE_REFERRER_POLICY = "same-origin"
SECURE_CROSS_ORIGIN_OPENER_POLICY = "same-origin"
X_FRAME_OPTIONS = "DENY"
DATA_UPLOAD_MAX_MEMORY_SIZE = 4 * 2**20
FILE_UPLOAD_MAX_MEMORY_SIZE = 20 * 2**20

STATIC_URL = "/static/"
STATICFILES_DIRS = [Path(__file__).parent / "static"]
STATICFILES_FINDERS = [
    "django.contrib.staticfiles.finders.FileSystemFinder",
    "django.contrib.staticfiles.finders.AppDirectoriesFinder",
]
WHITENOISE_USE_FINDERS = True
WHITENOISE_MAX_AGE = 0

USE_TZ = True
TIME_ZONE = "UTC"
USE_I18N = False
LANGUAGE_CODE = "en-us"

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "handlers": {"console": {"class": "logging.StreamHandler"}, "nowhere": {"class": "logging.NullHandler"}},
    "root": {"handlers": ["console"], "level": "WARNING"},
    "loggers": {
        "django.request": {"handlers": ["console"], "level": "ERROR", "propagate": False},
        "django.security.DisallowedHost": {
            "handlers": ["nowhere"],
            "propagate": False,
        },  # whoever knocks would fill the log
    },
}
