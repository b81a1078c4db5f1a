"""That no page of the desk is left out where page times are measured."""

import importlib.util
import random
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


def test_odd_input_is_the_same_by_the_same_number(monkeypatch):
    monkeypatch.setattr(sys, "path", [str(FOLDER), *sys.path])
    import odd_input

    fields = [("name", "18 mm MDF", "text"), ("price", "12.50", "text"), ("csrfmiddlewaretoken", "x", "hidden")]

    def made(number):
        draw = random.Random(f"1:{number}")
        pairs = odd_input.filled_in(draw, fields, "token")
        files = [("list", "a.csv", "text/csv", odd_input.changed_file(draw, "a.csv", b"name;price\n18 mm MDF;12.50\n"))]
        return odd_input.as_body(draw, pairs, files, plain=False), odd_input.odd_part(draw, "C1")

    assert [made(n) for n in range(50)] == [made(n) for n in range(50)]
    assert len({made(n)[0][0] for n in range(50)}) > 40, (
        "another number is another input, but for the few that stay as they are"
    )
    parser = odd_input.Forms()
    parser.feed('<form method="post" action="/a/"><input name="x" value="1"><select name="s"><option value="2">')
    assert parser.found == [("/a/", [("x", "1", "input"), ("s", "2", "option")])]
