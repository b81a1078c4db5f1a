"""A real desk in a process of its own, and a real Chromium in front of it."""

import os
import re
import shutil
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright

FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
SIZES = {
    "phone": {
        "viewport": {"width": 390, "height": 844},
        "device_scale_factor": 2,
        "is_mobile": True,
        "has_touch": True,
    },
    "laptop": {"viewport": {"width": 1280, "height": 800}},
}


def _chromium() -> str:
    for name in (os.environ.get("CHROMIUM", ""), "chromium", "chromium-browser"):
        if name and (found := shutil.which(name)):
            return found
    raise AssertionError("no Chromium was found; `make browser` installs it or says what is missing")


@pytest.fixture(scope="session")
def link(tmp_path_factory) -> Iterator[str]:
    """The one-time link of a desk that runs for the whole session."""
    home = tmp_path_factory.mktemp("desk")
    log = home / "said"
    with log.open("w") as out:
        process = subprocess.Popen(
            [sys.executable, "-m", "rodbook", "desk", "--home", str(home), "--port", "0"], stdout=out, stderr=out
        )
    try:
        yield _said_link(log, process)
    finally:
        process.terminate()
        process.wait(timeout=20)


def _said_link(log: Path, process: subprocess.Popen[bytes]) -> str:
    for _ in range(600):
        found = re.search(r"http://\S+/enter/\S+", log.read_text("utf-8"))
        if found:
            return found[0]
        assert process.poll() is None, log.read_text("utf-8")
        time.sleep(0.1)
    raise AssertionError("the desk did not start: " + log.read_text("utf-8"))


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=_chromium(), args=FLAGS)
        yield browser
        browser.close()


@pytest.fixture(scope="session")
def state(browser, link) -> dict:
    """Cookies of somebody who came in with the link."""
    context = browser.new_context()
    page = context.new_page()
    page.goto(link)
    page.get_by_role("button", name="Begin with the sample’s firm").click()
    kept = {"state": context.storage_state(), "base": re.match(r"http://[^/]+", link)[0]}
    context.close()
    return kept


@pytest.fixture(params=list(SIZES))
def context(request, browser, state) -> Iterator[BrowserContext]:
    """Each test runs on the phone and on the laptop."""
    context = browser.new_context(storage_state=state["state"], base_url=state["base"], **SIZES[request.param])
    yield context
    context.close()


@pytest.fixture
def begun(browser, state) -> Iterator[list[str]]:
    """Addresses of jobs that are put away once the page is done with, as pages of all jobs grow with each."""
    addresses: list[str] = []
    yield addresses
    if not addresses:
        return
    context = browser.new_context(storage_state=state["state"], base_url=state["base"])
    for address in addresses:
        _send(context, address, f"{address}put-away/", {})
    context.close()


def _send(context: BrowserContext, page: str, to: str, form: dict[str, str]) -> str:
    """Send a form of a page without showing it; gives the address that the answer led to."""
    token = re.search(r'name="csrfmiddlewaretoken" value="(\w+)"', context.request.get(page).text())
    assert token is not None
    reply = context.request.post(to, form={"csrfmiddlewaretoken": token[1], **form}, headers={"Referer": page})
    assert reply.ok
    return reply.url


@pytest.fixture
def page(context, begun) -> Iterator[Page]:
    """A page whose console has to stay clean, but for answers that say that something is wrong (409, 422)."""
    page = context.new_page()
    said: list[str] = []
    page.on(
        "console", lambda m: said.append(m.text) if m.type == "error" and not re.search("422|409", m.text) else None
    )
    page.on("pageerror", lambda error: said.append(str(error)))
    yield page
    assert said == []


@pytest.fixture
def store(page, begun, state) -> str:
    """Address of a job begun from the converted store, not yet shown."""
    address = _send(page.context, f"{state['base']}/", f"{state['base']}/jobs/sample/", {"sample": "converted-store"})
    begun.append(address)
    return address


COLOURS = ["color-contrast", "link-in-text-block"]
"""Rules of the checker that go by colours, the only ones for which the theme matters."""


@pytest.fixture
def sound(page) -> Callable[[], None]:
    """Check that the page as it stands shuts nobody out, in both themes, and is no wider than the screen."""
    axe = Axe()

    def check() -> None:
        page.wait_for_load_state()  # after a click that led to another page
        before = page.evaluate("document.documentElement.dataset.theme")
        for theme, rules in (("light", {}), ("dark", {"runOnly": COLOURS})):
            page.evaluate("theme => document.documentElement.dataset.theme = theme", theme)
            found = axe.run(page, options={"resultTypes": ["violations"]} | rules).response["violations"]
            told = [(v["id"], [n["html"][:120] for n in v["nodes"]][:3]) for v in found]
            assert told == [], f"{page.url} ({theme})"
        page.evaluate("theme => document.documentElement.dataset.theme = theme || 'light'", before)
        assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0, page.url

    return check
