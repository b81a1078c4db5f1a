"""That no page of the desk is left out where page times are measured."""

import importlib.util
import sys
from pathlib import Path

from django.urls import reverse

from rodbook.desk.urls import urlpatterns

FOLDER = Path(__file__).parents[2] / "benchmarks"


def _only_posted_to(browser, pattern, pk):
    """Whether an address is not there to be looked at."""
    given = {name: pk if name == "pk" else 1 for name in pattern.pattern.converters}
    return browser.get(reverse(pattern.name, kwargs=given)).status_code == 405


def test_every_page_is_timed_or_it_is_said_why_not(inside, store_job, monkeypatch):
    monkeypatch.setattr(sys, "path", [str(FOLDER), *sys.path])
    spec = importlib.util.spec_from_file_location("desk_time", FOLDER / "desk_time.py")
    desk_time = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(desk_time)
    said = {*desk_time.PAGES, *(name for names in desk_time.NOT_TIMED.values() for name in names)}
    pages = {p.name for p in urlpatterns if p.name in said or not _only_posted_to(inside, p, store_job)}
    assert sorted(pages - said) == [], "put these among PAGES or NOT_TIMED of benchmarks/desk_time.py"
    assert sorted(said - pages) == [], "these are no longer on the site map; take them out of benchmarks/desk_time.py"
