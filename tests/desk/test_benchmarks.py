"""That no page of the desk is left out where page times are measured."""

import importlib.util
import sys
from pathlib import Path

from rodbook.desk.urls import urlpatterns

FOLDER = Path(__file__).parents[2] / "benchmarks"


def test_every_page_is_timed_or_it_is_said_why_not(monkeypatch):
    monkeypatch.setattr(sys, "path", [str(FOLDER), *sys.path])
    spec = importlib.util.spec_from_file_location("desk_time", FOLDER / "desk_time.py")
    desk_time = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(desk_time)
    said = {*desk_time.PAGES, *(name for names in desk_time.NOT_TIMED.values() for name in names)}
    known = {pattern.name for pattern in urlpatterns}
    assert not known - said, "put these among PAGES or NOT_TIMED of benchmarks/desk_time.py"
    assert not said - known, "these are no longer on the site map; take them out of benchmarks/desk_time.py"
