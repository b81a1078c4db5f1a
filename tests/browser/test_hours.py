"""Hours, the account and what is offered to the book, in a real browser: two taps on a phone, faults, both themes."""

from playwright.sync_api import expect


def test_two_taps_put_an_hour_down(page, store, sound):
    task = "size a part" if page.viewport_size["width"] < 500 else "bore a cup"  # the book learns from all jobs
    page.goto(store + "hours/")
    page.get_by_label("Who").fill("Anna")
    sound()
    for target in (*page.locator(".tile-list:visible .tile").all(), *page.locator(".taps button").all()):
        box = target.bounding_box()
        assert min(box["width"], box["height"]) >= 44
    page.get_by_role("button", name="1 hours", exact=True).click()
    expect(page.locator("#fault-task")).to_contain_text("choose what was done")
    expect(page.locator("[name=task]").first).to_be_focused()
    sound()
    page.locator(".tile", has_text=task).click()
    page.get_by_role("button", name="2 hours", exact=True).click()
    expect(page.locator(".said")).to_contain_text(f"{task}, 2 h")
    expect(page.get_by_label("Who")).to_have_value("Anna")
    page.locator(".tile", has_text=task).click()
    page.get_by_label("How long").fill("1:30")
    page.get_by_label("How much was done").fill("1")
    page.get_by_label("How long").press("Enter")
    expect(page.locator(".entries .asked")).to_contain_text("90 minutes each")
    sound()
    page.get_by_role("button", name="It is right").click()
    expect(page.locator(".entries .asked")).to_have_count(0)


def test_an_invoice_at_fault_and_put_right(page, store, sound):
    page.goto(store + "account/")
    sound()
    page.get_by_label("From whom").fill("Mill")
    page.get_by_label("Its number").fill("7")
    page.get_by_label("Line 1", exact=True).fill("boards")
    page.get_by_label("Amount of line 1").fill("1.234")
    page.get_by_role("button", name="Put the invoice down").click()
    expect(page.get_by_label("Amount of line 1")).to_be_focused()
    sound()
    page.get_by_label("Amount of line 1").fill("1234.00")
    page.get_by_role("button", name="Put the invoice down").click()
    expect(page.locator("#invoices .entries")).to_contain_text("€1,234.00")
    sound()


def test_what_hours_say_is_looked_at_before_it_goes_into_the_book(page, store, sound):
    page.goto(store + "hours/")
    page.get_by_label("Who").fill("Ben")
    page.get_by_text("Other work").click()
    page.locator(".tile", has_text="clean up").click()
    page.get_by_label("How much was done").fill("6")
    page.get_by_role("button", name="1 hours", exact=True).click()
    expect(page.locator(".said")).to_contain_text("clean up, 1 h, 6 done")
    page.goto("/book/rates/learned/")
    expect(page.get_by_role("heading", name="clean up")).to_be_visible()
    sound()


def test_a_job_priced_again_with_its_index(page, store, sound):
    page.goto(store + "re-price/")
    sound()
    if page.get_by_role("button", name="Work it out").count():  # another job like it is worked out already
        page.get_by_role("button", name="Work it out").click()
        page.wait_for_url("**/price/", timeout=90_000)
    page.goto(store + "price/")
    page.get_by_role("link", name="Against today’s prices and times").click()
    page.get_by_label("Held against").fill("2027-06-01")
    page.get_by_role("button", name="Look at that day").click()
    expect(page.get_by_role("heading", name="What that does")).to_be_visible()
    sound()


def test_a_change_is_looked_at_in_money(page, store, sound):
    page.goto(store + "openings/")
    page.locator("[name=r0-note]").fill("as agreed")
    page.get_by_role("button", name="Save the openings").click()
    page.goto(store + "change/")
    sound()
    page.get_by_label("What the client wants").fill("a note")
    page.get_by_role("button", name="Look at the change").click()
    expect(page.locator("#change .faults")).to_contain_text("nothing to be priced", timeout=90_000)
    sound()
