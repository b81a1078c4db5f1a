"""Remakes the pictures of the desk's pages in docs/pictures/desk: a real desk, a real browser, the phone and the laptop."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

sys.path.insert(0, str(Path(__file__).parent.parent / "benchmarks"))

from desk_time import PAGES

OUT = Path(__file__).parent.parent / "docs" / "pictures" / "desk"
FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
]
SIZES = {"laptop": (1280, 800), "phone": (390, 844)}


def _started(home: Path) -> tuple[subprocess.Popen[bytes], str]:
    log = home / "said"
    with log.open("w") as out:
        process = subprocess.Popen(
            [sys.executable, "-m", "rodbook", "desk", "--home", str(home), "--port", "0"], stdout=out
        )
    for _ in range(600):
        if result := re.search(r"http://\S+/enter/\S+", log.read_text("utf-8")):
            return process, result[0]
        time.sleep(0.1)
    raise SystemExit("the desk did not start")


def _taken(page: Page, name: str) -> None:
    page.wait_for_load_state("networkidle")
    page.screenshot(path=OUT / f"{name}.png")


def _index() -> None:
    """A page with every picture on it."""
    rows = [f"| {page} | ![](laptop-{page}.png) | ![](phone-{page}.png) |" for page in PAGES]
    lines = [
        "# Every page of the desk",
        "",
        "Made by `make pictures` from the sample job of a converted store.",
        "",
        "| page | laptop | phone |",
        "| --- | --- | --- |",
        *rows,
    ]
    (OUT / "README.md").write_text("\n".join(lines) + "\n", "utf-8")


def main() -> None:
    """Begin with a sample job, have it worked out, and take every page at both sizes."""
    shutil.rmtree(OUT, ignore_errors=True)
    OUT.mkdir(parents=True, exist_ok=True)
    chromium = os.environ.get("CHROMIUM") or shutil.which("chromium")
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        process, link = _started(Path(folder))
        try:
            browser = playwright.chromium.launch(executable_path=chromium, args=FLAGS)
            page = browser.new_context(viewport={"width": 1280, "height": 800}).new_page()
            page.goto(link)
            page.get_by_role("button", name="Begin with the sample’s firm").click()
            with page.expect_navigation():
                page.locator("form:has(input[value='converted-store']) button").click()
            job = page.url
            page.goto(job + "boards/")
            page.get_by_role("button", name="Work it out").click()
            page.get_by_role("link", name="Step through its cuts").first.wait_for(timeout=60_000)
            page.goto(job + "parts/")
            part = re.search(r'id="part-([^"]+)"', page.content())[1]
            host, number = re.match(r"http://[^/]+", link)[0], job.rstrip("/").rsplit("/", 1)[1]
            for kind, (width, height) in SIZES.items():
                page.set_viewport_size({"width": width, "height": height})
                for name, path in PAGES.items():
                    page.goto(host + path.format(job=number, mark="C1", part=part))
                    _taken(page, f"{kind}-{name}")
            browser.close()
        finally:
            process.terminate()
            process.wait(timeout=20)
    _index()


if __name__ == "__main__":
    main()
