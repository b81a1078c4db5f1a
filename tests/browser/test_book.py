"""The firm's book and the openings in a real browser: forms at fault, columns on request, questions before anything goes."""

import re

import pytest
from playwright.sync_api import expect

FAULTY = {
    "/book/": ("Kerf", "thin", "Save"),
    "/book/boards/new/": ("Thickness", "thick", "Put it in"),
    "/book/sections/new/": ("Face width", "wide", "Put it in"),
    "/book/hinges/new/": ("Cup boring, depth", "deep", "Put it in"),
    "/book/workshops/new/": ("Handling", "dear", "Put it in"),
    "/book/boards/1/": ("Thickness", "thick", "Save"),
    "/book/hinges/": ("up to this mass, kg, row 2", "heavy", "Save"),
    "/book/build-ups/1/": ("Gap under the leaf", "low", "Save"),
}


@pytest.mark.parametrize("address", list(FAULTY))
def test_a_form_at_fault_shuts_nobody_out_and_puts_the_cursor_at_the_first(page, address, sound):
    label, typed, button = FAULTY[address]
    page.goto(address)
    page.evaluate("document.querySelectorAll('[required]').forEach(e => e.removeAttribute('required'))")
    page.get_by_label(label).first.fill(typed)
    with page.expect_response(lambda reply: reply.status == 422):
        page.get_by_role("button", name=button, exact=True).first.click()
    expect(page.get_by_label(label).first).to_have_value(typed)
    expect(page.locator("[aria-invalid='true']").first).to_be_focused()
    sound()


def test_a_board_is_put_in_asked_about_and_taken_out(page):
    page.goto("/book/boards/")
    page.get_by_role("link", name="Another board").click()
    name = f"21 mm lime board {page.viewport_size['width']}"
    for label, text in {
        "Name": name,
        "Thickness": "21",
        "Density, light end": "480",
        "Density, heavy end": "560",
        "Where these figures come from": "measured",
        "What the size is called": f"{name} 2000 x 1000",
        "Length, along the grain": "2000",
        "Width": "1000",
        "Price for one": "55",
        "Who said so": "a quote",
    }.items():
        page.get_by_label(label).fill(text)
    page.get_by_role("button", name="Put it in").click()
    expect(page.locator(".said")).to_contain_text("Saved as revision")
    page.get_by_role("link", name=f"Change {name}").click()
    page.get_by_text(f"Take out {name}", exact=True).click()
    page.get_by_role("button", name=re.compile("Yes, take it out")).click()
    expect(page.locator(".said")).to_contain_text("Saved as revision")
    expect(page.get_by_role("heading", name=name)).to_have_count(0)


def test_more_columns_come_by_keyboard_and_a_block_fills_only_what_shows(page, store, sound):
    page.goto(store + "openings/")
    expect(page.locator("[name=r14-build]")).to_be_hidden()
    page.get_by_label("Show clear size, head, rows, end panels, sill and build-up too").focus()
    page.keyboard.press("Space")
    expect(page.locator("[name=r14-build]")).to_be_visible()
    sound()
    page.locator("[name=r14-mark]").fill("C15")
    page.locator("[name=r14-state]").select_option("planned")
    page.evaluate(
        """() => {
            const cell = document.querySelector("input[name=r14-note]");
            const data = new DataTransfer();
            data.setData("text/plain", "damp\\t900\\t2000\\tlevel\\t\\tnone\\tx");
            cell.dispatchEvent(new ClipboardEvent("paste", {clipboardData: data, bubbles: true, cancelable: true}));
        }"""
    )
    page.get_by_role("button", name="Do it").click()
    expect(page.locator(".said")).to_contain_text("Saved as revision 2.")
    expect(page.locator("[name=r14-sill]")).to_have_value("yes")
    expect(page.locator("[name=r14-ch]")).to_have_value("2000")


def test_a_panel_at_fault_and_put_right(page, store, sound):
    page.goto(store + "openings/")
    page.get_by_text("Fixed panels").click()
    page.locator("[name=p0-mark]").fill("P1")
    page.locator("[name=p0-length]").fill("long")
    page.locator("[name=p0-width]").fill("400")
    page.get_by_role("button", name="Save openings and panels").click()
    expect(page.locator("#faults-p0")).to_contain_text("is not a length")
    sound()
    page.locator("[name=p0-length]").fill("1200")
    page.locator("[name=p0-board]").select_option("18 mm MDF")
    page.get_by_role("button", name="Save openings and panels").click()
    expect(page.locator(".said")).to_contain_text("Saved as revision 2.")
    expect(page.get_by_role("heading", name="Fixed panels (1)")).to_be_visible()


def test_a_beginning_is_thrown_away_only_after_a_question(page, store, sound):
    page.goto(store + "measure/")
    page.get_by_label("Its mark, such as C3").fill("C70")
    page.get_by_role("button", name="Begin it").click()
    page.goto(store + "openings/")
    expect(page.locator(".begun")).to_contain_text("C70 is begun on site")
    expect(page.get_by_role("button", name=re.compile("Yes, throw it away"))).to_be_hidden()
    page.locator(".begun summary").focus()
    page.keyboard.press("Enter")
    sound()
    page.get_by_role("button", name=re.compile("Yes, throw it away")).click()
    expect(page.locator(".said")).to_contain_text("The beginning of C70 is thrown away.")
    expect(page.locator(".begun")).to_have_count(0)
