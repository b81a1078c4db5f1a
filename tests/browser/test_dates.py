"""The page of dates in a real browser: worked out, read, changed, and cards instead of columns on a phone."""

import datetime
import re

from playwright.sync_api import expect


def test_dates_are_worked_out_read_and_changed(page, store, sound):
    phone = page.viewport_size["width"] < 500
    page.goto(f"{store}dates/")
    work = page.get_by_role("button", name="Work it out")
    if work.count():
        work.click()
    begin = page.get_by_role("button", name="Work out the dates")
    days = page.get_by_role("heading", name="Day by day")
    expect(begin.or_(days)).to_be_visible(timeout=120_000)
    sound()
    if begin.count():
        begin.click()
    expect(days).to_be_visible(timeout=120_000)
    sound()
    expect(page.locator(".standing")).to_contain_text(re.compile(r"Order from .+ by \d+ \w+\."))
    first = page.locator(".doings > li").first
    assert first.evaluate("e => getComputedStyle(e).display") == ("block" if phone else "grid")
    page.locator(".person summary").first.click()

    page.get_by_label("Late by").fill("10")
    page.get_by_role("button", name="Show what moves").click()
    expect(page.locator("main")).to_contain_text("10 working days late")

    mill = page.get_by_role("group", name="Quarry Lane Workshop")
    mill.get_by_label("Ordered on").fill("2090-01-01")
    mill.get_by_role("button", name="It is ordered").click()
    expect(mill.get_by_label("Ordered on")).to_be_focused()
    expect(mill).to_contain_text("still to come")
    sound()
    mill.get_by_label("Ordered on").fill(str(datetime.datetime.now().astimezone().date()))
    mill.get_by_role("button", name="It is ordered").click()
    expect(mill.get_by_role("button", name="It has come")).to_be_visible()
    page.get_by_text("Tasks done: ").click()
    page.get_by_label("read openings once more").check()
    # The dates are worked out anew meanwhile; what is ticked and not saved keeps the page, and the answer is offered.
    expect(page.locator("#dates-work").get_by_role("link", name="Show them")).to_be_visible(timeout=120_000)
    expect(page.get_by_label("read openings once more")).to_be_checked()
    sound()
    page.get_by_role("button", name="Save what is done").click()
    expect(page.get_by_text(re.compile(r"Tasks done: 1 of \d+"))).to_be_visible()
    mill.get_by_text("Other days").click()
    mill.get_by_role("button", name="It is not ordered after all").click()
    expect(mill.get_by_role("button", name="It is ordered")).to_be_visible()
    expect(days).to_be_visible(timeout=120_000)

    page.get_by_text("How long tasks take, and what they wait for").click()
    page.get_by_label("Waits besides for").first.fill("hand over")
    page.get_by_role("button", name="Save the tasks").click()
    expect(page.locator(".fault").first).to_contain_text("a circle that can never begin")
    sound()

    page.get_by_text("Who works, and on which days").click()
    page.get_by_label("Public holidays of").fill("AT")
    page.get_by_role("button", name="Save in the book").click()
    expect(page.locator(".said")).to_contain_text(re.compile("Saved as revision|revision"))
    expect(days).to_be_visible(timeout=120_000)
    page.goto("/dates/")
    expect(page.get_by_role("heading", level=1)).to_have_text("Dates of all jobs")
    sound()
