"""Pieces wanted from waste in a real browser: put on the list, cut from a job's boards, ticked off once."""

import re

from playwright.sync_api import expect


def _large_enough(page, within):
    """Targets for a thumb in a part of the page."""
    for target in page.locator(
        f"{within} :is(button, a.button, summary, input:not([type=hidden], [type=checkbox]), label:has(input), select)"
    ).all():
        if target.is_visible():
            box = target.bounding_box()
            assert box["height"] >= 44, target.inner_html()


def test_a_piece_is_put_on_the_list_cut_from_waste_and_ticked_off(page, sound):
    phone = page.viewport_size["width"] < 500
    label = "PH-1" if phone else "LP-1"
    page.goto("/book/wanted/")
    sound()
    _large_enough(page, "main")
    table = page.locator("table.stack")
    assert table.evaluate("e => getComputedStyle(e).display") == ("block" if phone else "table")
    page.get_by_label("Board that it is cut from").select_option("18 mm MDF")
    page.get_by_label("What is written on it").fill(label)
    page.get_by_label("How many").fill("2")
    page.get_by_label("Length, along the grain").fill("long")
    page.get_by_label("Width").fill("60")
    page.get_by_label("What one is worth").fill("9.50")
    page.get_by_label("What for").fill("spacers in the van")
    page.get_by_role("button", name="Put it on the list").click()
    expect(page.get_by_label("Length, along the grain")).to_be_focused()
    expect(page.get_by_label("What for")).to_have_value("spacers in the van")
    sound()
    page.get_by_label("Length, along the grain").fill("210")
    page.get_by_role("button", name="Put it on the list").click()
    expect(page.locator(".said")).to_contain_text("Saved as revision")
    page.get_by_role("link", name=f"Change {label}").click()
    page.get_by_label("How many").fill("3")
    page.get_by_role("button", name="Save", exact=True).click()
    expect(page.get_by_role("row", name=label)).to_contain_text("3")

    page.goto("/")
    with page.expect_navigation():
        page.locator("form:has(input[value='galley']) button").click()
    job = page.url
    page.goto(job + "boards/")
    begin = page.get_by_role("button", name="Work it out")
    if begin.count():
        begin.click()
    waste = page.get_by_role("region", name="Wanted elsewhere, from waste")
    expect(waste).to_be_visible(timeout=90_000)
    expect(waste.get_by_role("row", name=label)).to_contain_text("3 of 3")
    sound()
    page.get_by_role("link", name="Let other jobs cut parts of this one").click()
    sound()
    _large_enough(page, "main")
    page.get_by_label("2-head").fill("9")
    page.get_by_role("button", name="Put them on the list").click()
    expect(page.get_by_label("2-head")).to_be_focused()
    sound()
    page.goto(job + "boards/")
    page.get_by_text("They are cut: tick them off").click()
    sound()
    _large_enough(page, "section[aria-labelledby='waste']")
    page.get_by_label(label).fill("2")
    page.get_by_role("button", name="Tick off what is cut").click()
    expect(page.locator(".said")).to_contain_text("are ticked off the book’s list")
    page.goto("/book/wanted/")
    expect(page.get_by_role("row", name=label)).to_contain_text("1")
    page.goto(job + "boards/")
    expect(page.get_by_text("Ticked off as cut")).to_be_visible(timeout=90_000)
    expect(page.get_by_text("They are cut: tick them off")).to_have_count(0)
    page.get_by_text("They are cut: put the offcuts away").click()
    sound()
    _large_enough(page, "section[aria-labelledby='keeps']")
    page.get_by_role("button", name="Put them away").click()
    expect(page.locator(".said")).to_contain_text(re.compile("in the book now|out of it"))
    page.goto("/book/wanted/")
    page.get_by_role("button", name=f"Take out {label}").click()
    expect(page.get_by_role("row", name=label)).to_have_count(0)
