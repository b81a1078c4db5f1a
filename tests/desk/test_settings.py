"""What the desk takes from its machine."""

import os
import subprocess
import sys

import pytest


@pytest.mark.parametrize(
    ("zone", "found"),
    [
        ("Pacific/Chatham", "Pacific/Chatham"),
        (":Europe/Lisbon", "Europe/Lisbon"),
        (None, None),
        ("no such place", None),
    ],
)
def test_times_are_those_of_the_machine(tmp_path, zone, found):
    told = {k: v for k, v in os.environ.items() if k != "TZ"} | {"RODBOOK_DESK_HOME": str(tmp_path)}
    if zone:
        told["TZ"] = zone
    code = "import tzlocal; from rodbook.desk import settings; print(settings.TIME_ZONE)"
    said = subprocess.run([sys.executable, "-c", code], env=told, capture_output=True, text=True, check=True).stdout
    assert said.strip() == found if found else said.strip()


def test_without_tz_the_system_s_own_zone_is_taken(tmp_path, monkeypatch):
    from rodbook.desk import settings as ours

    monkeypatch.setattr("tzlocal.get_localzone_name", lambda: "America/Halifax")
    assert ours._time_zone() == "America/Halifax"
    monkeypatch.setattr("tzlocal.get_localzone_name", lambda: "local")
    assert ours._time_zone() == "UTC"
