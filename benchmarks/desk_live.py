"""From a changed margin to the updated page, in a real browser. ``python benchmarks/desk_live.py [runs]``.

A real desk runs in a process of its own, a real Chromium in front of it. A margin is typed on the page of parts; the clock
runs from the last key's input event to the first picture that the browser shows with sizes worked out from that margin. The
wait after the last key is in it. Of that, the server's time is from the request sent to the first byte of the answer.
"""

from __future__ import annotations

import os
import re
import shutil
import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from generated import generated_job
from playwright.sync_api import Page, sync_playwright
from running import Visitor, how_busy, median_and_p95, started

from rodbook.job.files import write_job

FLAGS = ["--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking"]

MARGINS = [f"{whole}.{tenth}" for whole in (2, 3, 4) for tenth in range(1, 10)]
"""Each another than any before, so that nothing is known from an earlier run."""

WATCH = """() => {
    let typed = 0;
    document.addEventListener("input", () => { typed = performance.now(); }, true);
    window.seen = margin => new Promise((resolve, reject) => {
        performance.clearResourceTimings();
        const late = setTimeout(() => reject(new Error("the page did not change within 20 s")), 20000);
        const look = () => {
            if (!document.getElementById("set-out")?.textContent.includes(`margin ${margin} `)) return;
            watcher.disconnect();
            clearTimeout(late);
            requestAnimationFrame(() => setTimeout(() => {
                const asked = performance.getEntriesByType("resource").filter(e => e.name.endsWith("/parts/try/")).pop();
                resolve([performance.now() - typed, asked.responseStart - asked.requestStart]);
            }, 0));
        };
        const watcher = new MutationObserver(look);
        watcher.observe(document.body, {childList: true, subtree: true, characterData: true});
    });
}"""


def _one(page: Page, margin: str) -> tuple[float, float]:
    """Type a margin, staying in the field. [ms]"""
    page.evaluate("margin => { window.told = window.seen(margin); }", margin)
    page.locator("#f-margin").focus()
    page.keyboard.press("Control+A")
    page.keyboard.type(margin)
    whole, server = page.evaluate("() => window.told")
    return whole, server


def _runs(page: Page, address: str, runs: int) -> list[tuple[float, float]]:
    page.goto(f"{address}parts/")
    page.evaluate(WATCH)
    _one(page, "1.9")
    return [_one(page, margin) for margin in MARGINS[:runs]]


def main() -> None:
    """Start a desk and a browser, and type margins."""
    runs = min(int(sys.argv[1]) if len(sys.argv) > 1 else 20, len(MARGINS))
    chromium = os.environ.get("CHROMIUM") or shutil.which("chromium") or shutil.which("chromium-browser")
    if not chromium:
        raise SystemExit("no Chromium was found; `make browser` installs it or says what is missing")
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        print(how_busy())
        process, link = started(Path(folder))
        try:
            browser = playwright.chromium.launch(executable_path=chromium, args=FLAGS)
            visitor = Visitor(link)
            jobs = {
                "14 openings": visitor.post("/jobs/sample/", {"sample": "converted-store"}),
                "200 openings": visitor.post("/jobs/new/", {}, ("job.toml", write_job(generated_job(200)))),
            }
            context = browser.new_context(base_url=visitor.base, viewport={"width": 1280, "height": 800})
            context.add_cookies([{"name": c.name, "value": c.value, "url": visitor.base} for c in visitor.jar])
            page = context.new_page()
            print(f"From a margin typed to the page that shows it: {runs} runs, ms; of that at the server apart.")
            print(f"{'job':<14}{'median':>9}{'p95':>7}{'server median':>16}{'p95':>7}")
            for name, address in jobs.items():
                figures = _runs(page, re.match(r"/jobs/\d+/", address)[0], runs)
                whole, server = (median_and_p95(list(column)) for column in zip(*figures, strict=True))
                print(f"{name:<14}{whole[0]:>9.0f}{whole[1]:>7.0f}{server[0]:>16.0f}{server[1]:>7.0f}", flush=True)
            browser.close()
        finally:
            process.terminate()
            process.wait(timeout=20)


if __name__ == "__main__":
    main()
