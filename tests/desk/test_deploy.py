"""Django's own checks of a desk that is shared behind TLS, and the settings that a shared desk must have."""

import json
import os
import subprocess
import sys

import pytest


def _run(home, *arguments, tls="1", shared="1"):
    environment = os.environ | {
        "DJANGO_SETTINGS_MODULE": "rodbook.desk.settings",
        "RODBOOK_DESK_HOME": str(home),
        "RODBOOK_DESK_SHARED": shared,
        "RODBOOK_DESK_TLS": tls,
        "RODBOOK_DESK_HOSTS": "desk.example",
    }
    (home / "static").mkdir(exist_ok=True)
    return subprocess.run([sys.executable, *arguments], env=environment, capture_output=True, text=True, timeout=120)


def test_a_shared_desk_behind_tls_passes_every_deployment_check(tmp_path):
    done = _run(tmp_path, "-m", "django", "check", "--deploy", "--fail-level", "WARNING")
    assert done.returncode == 0, done.stderr
    assert "no issues (0 silenced)" in done.stdout


def test_the_check_can_fail(tmp_path):
    done = _run(tmp_path, "-m", "django", "check", "--deploy", "--fail-level", "WARNING", tls="0")
    assert done.returncode != 0
    assert "security.W" in done.stderr


@pytest.mark.parametrize("shared", ["0", "1"])
def test_sessions_of_a_shared_desk_end_the_same_day(tmp_path, shared):
    code = (
        "import json, django; django.setup(); from django.conf import settings as s;"
        "print(json.dumps([s.SESSION_COOKIE_AGE, s.SESSION_SAVE_EVERY_REQUEST, s.SESSION_COOKIE_SECURE, s.DEBUG]))"
    )
    age, renewed, secure, debug = json.loads(_run(tmp_path, "-c", code, shared=shared).stdout)
    assert (age <= 24 * 3600) == (shared == "1")
    assert renewed == (shared == "1")
    assert secure
    assert not debug


def test_cookies_behind_tls_are_bound_to_the_host_and_closed_to_scripts(tmp_path):
    code = (
        "import json, django; django.setup(); from django.conf import settings as s;"
        "print(json.dumps([[s.SESSION_COOKIE_NAME, s.CSRF_COOKIE_NAME], [s.SESSION_COOKIE_PATH, s.SESSION_COOKIE_DOMAIN],"
        " [s.SESSION_COOKIE_SECURE, s.CSRF_COOKIE_SECURE, s.SESSION_COOKIE_HTTPONLY], s.SECURE_HSTS_SECONDS >= 15724800]))"
    )
    names, bound, closed, strict = json.loads(_run(tmp_path, "-c", code).stdout)
    assert all(name.startswith("__Host-") for name in names)
    assert bound == ["/", None]
    assert closed == [True, True, True]
    assert strict
    names, _, closed, strict = json.loads(_run(tmp_path, "-c", code, tls="0").stdout)
    assert not any(name.startswith("__Host-") for name in names)  # a browser keeps such a name by TLS alone
    assert closed == [False, False, True]
    assert not strict
