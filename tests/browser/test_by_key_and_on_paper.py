"""The desk with the keyboard alone, on paper, with workings open, and where something is wrong."""

import re

import pytest
from playwright.sync_api import expect


def _laid_out(page, store):
    page.goto(store + "boards/")
    begin = page.get_by_role("button", name="Work it out")
    if begin.count():
        begin.click()
    expect(page.get_by_role("link", name="Step through its cuts").first).to_be_visible(timeout=60_000)


def _to(page, wanted, key="Tab", most=80):
    """Go with a key alone to what a selector names; whatever is passed on the way has to be seen to have the cursor."""
    for _ in range(most):
        page.keyboard.press(key)
        there = page.evaluate(
            """wanted => {
                const e = document.activeElement, box = e.getBoundingClientRect();
                const shown = e === document.body || e.matches("main") || getComputedStyle(e).outlineStyle !== "none"
                    || e.matches("a.dim") || (box.width > 0 && e.matches(":focus-visible"));
                return [e.matches(wanted), shown, e.outerHTML.slice(0, 80)];
            }""",
            wanted,
        )
        assert there[1], there[2]
        if there[0]:
            return
    raise AssertionError(f"{wanted} is not reached with {key}")


@pytest.mark.parametrize("context", ["laptop"], indirect=True)  # a phone has no keys
def test_a_job_is_begun_measured_and_saved_with_the_keyboard_alone(page):
    page.goto("/")
    _to(page, ".skip")
    _to(page, "a[href='/jobs/new/']")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", level=1)).to_have_text("Begin a job")
    _to(page, "#f-name")
    page.keyboard.type("Boat house")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", level=1)).to_have_text("Openings")
    _to(page, "[name=r0-mark]")
    for column, text in (
        ("mark", "B1"),
        ("room", "loft"),
        ("wf", "542"),
        ("wm", "543,5"),
        ("wh", "543"),
        ("hl", "2030"),
        ("hm", "2030"),
        ("hr", "2031"),
    ):
        if column != "mark":
            _to(page, f"[name=r0-{column}]", most=4)
        page.keyboard.type(text)
    page.keyboard.press("Enter")
    expect(page.locator(".said")).to_contain_text("Saved as revision 2.")
    _to(page, ".rod a[href$='/parts/']")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", level=1)).to_have_text(re.compile("^Parts"))
    _to(page, "a.dim", most=60)
    page.keyboard.press("Enter")
    expect(page.locator(".answer:not(:empty)")).to_have_count(1)
    page.keyboard.press("Escape")
    expect(page.locator(".answer:not(:empty)")).to_have_count(0)
    _to(page, ".steps summary", most=60)
    page.keyboard.press("Space")
    expect(page.locator(".steps details[open]")).to_have_count(1)


def test_enter_in_a_margin_shows_its_sizes_and_a_working_stays_open(page, store):
    page.goto(store + "parts/")
    page.locator("#size-1-5 summary").click()
    page.get_by_label("margin at the sides").fill("4")
    page.evaluate("window.here = true")
    page.get_by_label("margin at the sides").press("Enter")
    expect(page.locator("#size-1-5 strong")).to_contain_text("390")
    expect(page.locator("#size-1-5 .working")).to_be_visible()
    expect(page.get_by_label("margin at the sides")).to_have_value("4")
    assert page.evaluate("window.here") is True


def test_workings_that_stand_open_shut_nobody_out(page, store, sound):
    _laid_out(page, store)
    for address in ("boards/", "parts/"):
        page.goto(store + address)
        page.locator("a.dim").first.dispatch_event("click")
        expect(page.locator(".answer:not(:empty)")).to_have_count(1)
        page.evaluate("[...document.querySelectorAll('main details')].slice(0, 3).forEach(d => d.open = true)")
        sound()


@pytest.mark.parametrize("context", ["laptop"], indirect=True)  # paper is of one size
def test_paper_has_the_job_s_name_and_nothing_to_press_and_is_white(page, store):
    _laid_out(page, store)
    page.emulate_media(media="print", color_scheme="dark")
    for address in ("", "openings/", "sizes/", "parts/", "boards/", "orders/", "history/"):
        page.goto(store + address)
        expect(page.locator(".where")).to_contain_text("Old seed store")
        for away in (".rod", ".desk-nav", "main button", "main .button", ".answer", "#figures"):
            assert page.locator(away).evaluate_all("all => all.filter(e => e.offsetParent).length") == 0, (
                address,
                away,
            )
        dark = page.locator("body, main, main *, html").evaluate_all(
            """all => all.filter(e => {
                if (e.closest("svg") || (!e.offsetParent && e !== document.documentElement)) return false;
                const said = getComputedStyle(e).backgroundColor.match(/[\\d.]+/g).map(Number);
                return (said.length < 4 || said[3] > 0) && (said[0] + said[1] + said[2]) / 3 < 200;
            }).map(e => e.outerHTML.slice(0, 80)).slice(0, 3)"""
        )
        assert dark == [], address


def test_the_rod_shows_the_page_that_one_is_on(page, store):
    for stage in ("job", "sizes", "history"):
        page.goto(store + ("" if stage == "job" else f"{stage}/"))
        here = page.locator(".rod [aria-current]")
        expect(here).to_have_text(stage)
        expect(here).to_be_in_viewport(ratio=0.95)


@pytest.mark.parametrize("context", ["laptop"], indirect=True)  # a large file is one on any screen
def test_a_file_that_is_too_large_is_told_before_it_is_sent_and_if_it_is_sent(page, store, tmp_path):
    large = tmp_path / "list.csv"
    large.write_bytes(b"mark,leaves\n" + b"x" * 17 * 1024 * 1024)
    page.goto(store + "openings/bring-in/")
    field = page.locator("#f-list")
    field.set_input_files(large)
    assert "larger than 10 MB" in field.evaluate("e => e.validationMessage")
    token = page.locator("[name=csrfmiddlewaretoken]").first.input_value()
    reply = page.request.post(
        store + "openings/bring-in/",
        multipart={"csrfmiddlewaretoken": token, "list": large},
        headers={"Referer": page.url},
    )
    assert reply.status == 413
    assert "nothing of it was kept" in reply.text()
    field.set_input_files([])
    assert field.evaluate("e => e.validity.customError") is False
