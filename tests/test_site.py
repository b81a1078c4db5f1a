"""The documentation site: built with every warning an error, its links followed, nothing fetched, found without a network."""

from __future__ import annotations

import doctest
import importlib.util
import re
import subprocess
import sys
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlsplit

import click
import pytest

from rodbook.cli.group import LateGroup

ROOT = Path(__file__).parents[1]
DOCS = ROOT / "docs"


class Page(HTMLParser):
    """What a page points to, what it loads, and what on it can be pointed to."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.links: list[str] = []
        self.loads: list[str] = []
        self.places: set[str] = set()
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        given = dict(attrs)
        self.places |= {given[name] for name in ("id", "name") if given.get(name)}
        if tag == "a" and given.get("href"):
            self.links.append(given["href"])
        if tag in ("script", "img", "iframe", "source") and given.get("src"):
            self.loads.append(given["src"])
        if tag == "link" and given.get("href"):
            self.loads.append(given["href"])


def broken(folder: Path) -> list[str]:
    """Links and loads of the pages in a folder that lead nowhere in it; what leads out of it is loaded from nowhere."""
    pages = {path.resolve(): Page(path.read_text("utf-8")) for path in folder.rglob("*.html")}
    wrong = []
    for path, page in pages.items():
        for link, is_load in [(link, False) for link in page.links] + [(load, True) for load in page.loads]:
            parts = urlsplit(link)
            if parts.scheme or parts.netloc:
                if is_load and parts.scheme != "data":
                    wrong.append(f"{path.name}: loads {link}")
                continue
            target = (path.parent / unquote(parts.path)).resolve() if parts.path else path
            fragment = unquote(parts.fragment)
            if not target.is_file() or (fragment and target in pages and fragment not in pages[target].places):
                wrong.append(f"{path.name}: {link}")
    return wrong


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    """The built site. Every warning is an error: a link that leads nowhere, a page that no list has, a docstring unread."""
    folder = tmp_path_factory.mktemp("site")
    command = [sys.executable, "-m", "sphinx", "-W", "--keep-going", "-q", "-E", "-j", "auto", "-b", "html"]
    done = subprocess.run([*command, DOCS, folder], capture_output=True, text=True, timeout=600, check=False)
    assert done.returncode == 0, done.stderr[-5000:]
    return folder


def test_every_link_leads_somewhere_and_nothing_is_fetched(site):
    assert (site / "index.html").is_file()
    assert broken(site) == []


def test_styles_fetch_nothing(site):
    for path in site.rglob("*.css"):
        addresses = re.findall(r"url\(\s*[\"']?([^\"')]+)", path.read_text("utf-8"))
        assert not [address for address in addresses if "//" in address and not address.startswith("data:")], path.name
        for address in addresses:
            assert address.startswith("data:") or (path.parent / address).is_file(), f"{path.name}: {address}"


def test_what_leads_nowhere_is_noticed(tmp_path):
    (tmp_path / "a.html").write_text('<a href="b.html#here">x</a><a href="b.html#gone">x</a><a href="c.html">x</a>')
    (tmp_path / "b.html").write_text('<p id="here"><script src="https://somewhere.invalid/x.js"></script>')
    assert sorted(broken(tmp_path)) == [
        "a.html: b.html#gone",
        "a.html: c.html",
        "b.html: loads https://somewhere.invalid/x.js",
    ]


def test_the_search_knows_pages_and_functions(site):
    index = (site / "searchindex.js").read_text("utf-8")
    assert index.startswith("Search.setIndex(")
    for word in ("packer", "kerf", "architrav"):
        assert f'"{word}"' in index or f"{word}:" in index, word
    assert "draw_layout" in index
    page = Page((site / "search.html").read_text("utf-8"))
    assert {load.split("?")[0] for load in page.loads} >= {"searchindex.js", "_static/searchtools.js"}


def test_every_function_of_the_face_is_on_its_page(site):
    import rodbook

    text = (site / "api" / "index.html").read_text("utf-8")
    for name in rodbook.__all__:
        if callable(getattr(rodbook, name)) and not isinstance(getattr(rodbook, name), type):
            assert f'id="rodbook.{name}"' in text, name


# --- what the pages say of commands and files -----------------------------------------------------------------------


def said_commands() -> list[tuple[str, list[str]]]:
    """Each command line of Rodbook in a shell block of the docs, with its page."""
    found = []
    for path in sorted([*DOCS.rglob("*.md"), ROOT / "README.md"]):
        for block in re.findall(r"```(?:sh)?\n(.*?)```", path.read_text("utf-8"), re.DOTALL):
            for line in block.replace("\\\n", " ").splitlines():
                words = line.split("  #")[0].strip()
                if re.match(r"(?:\.venv/bin/)?rodbook \w", words):
                    found.append((path.name, words.split()))
    return found


def test_commands_on_the_pages_are_there_with_their_options():
    commands = said_commands()
    assert len(commands) > 15
    group = LateGroup()
    for page, (_, name, *words) in commands:
        command = group.get_command(click.Context(group), name)
        assert command is not None, f"{page}: there is no `rodbook {name}`"
        options = {option for parameter in command.params for option in parameter.opts}
        for word in words:
            if word.startswith("--"):
                assert word.split("=")[0] in options, f"{page}: `rodbook {name}` has no {word}"


@pytest.mark.parametrize("path", [ROOT / "README.md", ROOT / "CONTRIBUTING.md"], ids=lambda path: path.name)
def test_files_that_the_front_pages_point_to_are_there(path):
    text = path.read_text("utf-8")
    targets = re.findall(r"\]\(([^)\s]+)\)", text) + re.findall(r'src="([^"]+)"', text)
    for target in targets:
        if not urlsplit(target).scheme:
            assert (ROOT / target.split("#")[0]).exists(), target


def test_every_page_of_a_task_is_in_the_list_on_the_first_page():
    first = (DOCS / "index.md").read_text("utf-8")
    for path in (DOCS / "tasks").glob("*.md"):
        assert f"tasks/{path.stem}" in first, path.name


def test_references_of_docstrings_become_lists():
    spec = importlib.util.spec_from_file_location("references", DOCS / "_ext" / "references.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    assert doctest.testmod(module) == (0, 1)
