"""Every text of the desk can be translated: a made-up language puts each in brackets, and what stands outside is found."""

import ast
import json
import re
from html.parser import HTMLParser
from pathlib import Path

import pytest
from babel.messages.mofile import write_mo
from django.urls import get_resolver, reverse
from django.utils import translation
from django.utils.translation import trans_real

import rodbook
from rodbook.desk.models import Folder
from rodbook.desk.platform import catalogues, store
from rodbook.desk.platform.job_page import date_now, job_page
from rodbook.desk.platform.language import chosen
from rodbook.desk.platform.planning import EFFORT, Work, content_key, dates_key, planner
from rodbook.plan import make_plan
from rodbook.plan.schedule.dates import plan_dates, wanted_by

WEEKDAYS = "Monday|Tuesday|Wednesday|Thursday|Friday|Saturday|Sunday"
MONTHS = "January|February|March|April|May|June|July|August|September|October|November|December"
ATTRIBUTES = ("aria-label", "alt", "title", "placeholder")
SILENT = ("script", "style", "template")
NOT_PAGES = {
    "enter",
    "health",
    "worker",
    "manifest",
    "outbox",
    "along",
    "job-file",
    "paper",
    "papers-pack",
    "photo",
    "logout",
    "dates-file",
    "all-dates-file",
}

EXCEPTIONS = (
    "rodbook",
    "jpeg",
    "png",
    "webp",
    "zip",
    "csv",
    "pdf",  # names
    "january|february|march|april|may|june|july|august|september|october|november|december|novembro",
    "jan|feb|mar|apr|jun|jul|aug|aŭg|a|sep|oct|okt|nov|dec",  # months, which Django translates itself
    "this desk",
    "begun from .*",
    "all of it invented",
    "its prices are invented",
    "put your own in",  # kept in revisions
    "(minutes|eur|hours)? ?per .*",
    "(eur|it costs|costs)? ?(less|more|the same) than (all on site|bought cut|bought finished and bored|cut on site)( .*)?",
    "crew days? more|crew days? which .*",  # why a kind is made or bought, put together by the core
    "eur more and take",  # units of rates, put together by the core
    "(least of )?height at (left|middle|right)",  # readings in workings
    "the answer turns when (boards|the workshop s charges) (rise|fall) by",  # put together by the core
    "mm (left|right|low|high)",
    "all four (plumb|level|straight)",  # where a place is and what is assumed of it, put together by the core
    "hung (left|right)",
    "front of",
    "level section of size",
    "(hinge|closing|meeting)( side)?( and .*)?",  # drawings of the papers
    "if .* delivers to",
    "the merchant it is taken to be monday to friday without the public holidays of .*",  # suppliers' days, by the core
    "s late",  # of "working day{s} late"
    # what a late delivery moves, and what orders hold: sentences of the core with days in them
    "(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec) (holds in|to (mon|tue|wed|thu|fri|sat|sun))",
    "(by|from|on|one on) (mon|tue|wed|thu|fri|sat|sun)",
    "(january|february|march|april|may|june|july|august|september|october|november|december) (which holds in|on)",
)
"""What stays as it is, each with its reason. What the core says (workings, faults, names of parts) is English throughout."""


def test_the_template_of_texts_is_as_the_pages_are():
    assert catalogues.TEMPLATE.read_text("utf-8") == catalogues.template_text(), "run `make messages`"


def test_compiled_catalogues_are_found(tmp_path):
    catalogues.compile_into(tmp_path)
    assert sorted(p.parent.parent.name for p in tmp_path.rglob("django.mo")) == catalogues.languages()


def _forget():
    """Have Django look anew at which languages there are."""
    for name in ("get_supported_language_variant", "get_languages", "check_for_language", "translation_catalog_exists"):
        if hasattr(found := getattr(trans_real, name, None), "cache_clear"):
            found.cache_clear()


@pytest.fixture
def bracketed(tmp_path, settings, inside):
    """The desk in a language that puts every text in brackets."""
    catalog = catalogues.collected()
    catalog.locale = "eo"
    for message in list(catalog):
        if isinstance(message.id, tuple):
            message.string = tuple(f"⟦{text}⟧" for text in message.id)
        elif message.id:
            message.string = f"⟦{message.id}⟧"
    target = tmp_path / "eo" / "LC_MESSAGES" / "django.mo"
    target.parent.mkdir(parents=True)
    with target.open("wb") as out:
        write_mo(out, catalog)
    settings.LOCALE_PATHS = [tmp_path]
    settings.LANGUAGES = [("en-gb", "English"), ("eo", "brackets")]
    settings.DESK_LANGUAGE = "eo"
    kept = trans_real._translations
    trans_real._translations = {}
    _forget()
    yield inside
    trans_real._translations = kept
    _forget()
    translation.activate("en-gb")


class _Texts(HTMLParser):
    """What is seen or heard of a page."""

    def __init__(self):
        super().__init__()
        self.found, self.silent, self.command, self.goes_on = [], 0, False, False

    def handle_starttag(self, tag, attrs):
        self.command = tag == "code"
        self.goes_on = self.command and self.goes_on
        self.silent += tag in SILENT
        values = dict(attrs)
        self.found += [values[name] for name in ATTRIBUTES if values.get(name)]
        if values.get("data-words", "").startswith("{"):
            self.found += json.loads(values["data-words"]).values()

    def handle_endtag(self, tag):
        self.silent -= tag in SILENT
        self.goes_on = tag == "code"
        self.command = False

    def handle_data(self, data):
        if self.silent or not data.strip() or self.command:
            return  # what is typed into a terminal is no text, and stands inside the one around it
        if self.goes_on and self.found:
            self.found[-1] += f" ; {data.strip()}"
        else:
            self.found.append(data.strip())


def _outside(text):
    """What of a text stands in no bracket."""
    before = None
    while before != text:
        before, text = text, re.sub(r"⟦[^⟦⟧]*⟧", " ", text)
    return text


def _strings(value):
    if isinstance(value, dict):
        return [s for key, v in value.items() for s in (key, *_strings(v))]
    if isinstance(value, list):
        return [s for v in value for s in _strings(v)]
    return [value] if isinstance(value, str) else []


def _addresses(pk):
    arguments = {"pk": pk, "number": 1, "mark": "C1"}
    for pattern in get_resolver().url_patterns:
        needs = set(pattern.pattern.converters)
        if pattern.name and pattern.name not in NOT_PAGES and needs <= set(arguments):
            yield reverse(pattern.name, kwargs={k: arguments[k] for k in needs})


def _said_by_the_core():
    """Every text in the code below the desk, to tell its words (workings, names of parts, papers) from the desk's own."""
    found = []
    package = Path(rodbook.__file__).parent
    for path in sorted(package.rglob("*.py")):
        if "desk" not in path.relative_to(package).parts:
            tree = ast.parse(path.read_text("utf-8"))
            found += [n.value for n in ast.walk(tree) if isinstance(n, ast.Constant) and isinstance(n.value, str)]
    return re.sub(r"[^a-z]+", " ", "\n".join(found).lower())


def _runs(text):
    """Words of a text that follow one another, without figures, signs, and marks such as C3 or 3-door-left."""
    text = re.sub(r"\b([A-Z]{1,3}\d+|\d+-[a-z]+(-(left|right))?)\b", ";", text)
    for run in re.split(r"[^A-Za-z '’-]+", text):
        words = re.sub(r"[^a-z]+", " ", run.lower()).split()
        if any(len(word) > 1 for word in words):
            yield words


def _is_core(words, core):
    """Whether the core says this: a sentence of its, or one put together of pieces of two words or more."""
    pieces, at = 0, 0
    while at < len(words):
        ends = [end for end in range(len(words), at, -1) if f" {' '.join(words[at:end])} " in core]
        if not ends:
            return False
        pieces, at = pieces + 1, ends[0]
    return pieces <= max(1, len(words) // 2)


def _left_over(client, pk):
    page = job_page(pk)
    plan, asked = make_plan(page.job, page.book, outlook=True), wanted_by(page.book, [page.job], today=date_now())
    for key, work in (
        (content_key(page.job, page.book), {"plan": plan}),
        (
            dates_key([page.job], page.book, asked),
            {"programme": plan_dates((plan,), asked, effort=EFFORT), "dates": True},
        ),
    ):
        planner._works[key] = Work(key, "done", **work)
    assert job_page(pk).dates.programme
    documents = [store.head(Folder.objects.get(pk=pk)).document, store.book_now()[1].document]
    strings = sorted({s for d in documents for s in _strings(d)}, key=len, reverse=True)
    whole, longer = {s.strip().lower() for s in strings}, [s for s in strings if " " in s.strip()]
    core = f" {_said_by_the_core()} "
    found = {}
    for address in _addresses(pk):
        reply = client.get(address)
        if reply.status_code != 200 or not reply["Content-Type"].startswith("text/html"):
            continue
        parser = _Texts()
        parser.feed(reply.content.decode())
        for text in parser.found:
            rest = _outside(text)
            for known in longer:
                rest = rest.replace(known, ";")
            for words in _runs(rest):
                run = " ".join(words)
                if run not in whole and not _is_core(words, core) and not any(re.fullmatch(e, run) for e in EXCEPTIONS):
                    found.setdefault(run, (address, text))
    return found


def test_no_text_of_the_desk_is_left_unmarked(bracketed, store_job):
    assert _left_over(bracketed, store_job) == {}


def test_the_search_finds_what_is_unmarked():
    core = f" {_said_by_the_core()} "
    page = _Texts()
    page.feed(
        '<p aria-label="Keep it on this phone">⟦Saved as revision ⟦2⟧.⟧ Fetch the ladder</p><script>let words;</script>'
    )
    runs = [words for text in page.found for words in _runs(_outside(text))]
    assert runs == [["keep", "it", "on", "this", "phone"], ["fetch", "the", "ladder"]]
    assert not any(_is_core(words, core) for words in runs)
    assert _is_core(["opening", "width"], core)


@pytest.mark.parametrize(
    ("wish", "locale", "found"),
    [
        ("", "de_AT", "de"),
        ("", "en", "en-gb"),
        ("", "fr", "en-gb"),
        ("de", "en", "de"),
        ("xx", "en", "en-gb"),
    ],
)
def test_the_language_is_the_desks_or_the_books_or_english(db, settings, wish, locale, found):
    settings.LANGUAGES = [("en-gb", "English"), ("de", "de")]
    settings.DESK_LANGUAGE = wish
    folder, revision, book = store.book_now()
    store.save(folder, revision.number, lambda _: book.model_copy(update={"locale": locale}), who="Ann")
    _forget()
    try:
        assert chosen() == found
    finally:
        _forget()


def test_no_marked_text_has_a_filter_in_it_where_the_template_drops_it():
    """In a marked text only plain names are filled in; one with a filter would come out empty."""
    folder = Path(rodbook.__file__).parent / "desk" / "templates"
    wrong = [
        (path.name, found[0])
        for path in sorted(folder.rglob("*.html"))
        for found in re.finditer(
            r"{% blocktranslate.*?%}.*?{% endblocktranslate %}", path.read_text("utf-8"), re.DOTALL
        )
        if re.search(r"{{[^}]*[|.]", found[0].partition("%}")[2])
    ]
    assert wrong == []
