"""A job's price, quotes and the crew's weeks in a real browser: faults found with their fields, phone and laptop, both themes."""

import pytest
from playwright.sync_api import expect


@pytest.fixture
def whole(page, store, sound):
    """The converted store with its layouts and costs."""
    page.goto(store + "price/")
    sound()
    if page.get_by_role("button", name="Work it out").count():
        page.get_by_role("button", name="Work it out").click()
        page.wait_for_selector(".sum", timeout=90_000)
    return store


def test_a_price_is_changed_and_given_to_the_client(page, whole, sound):
    page.goto(whole + "price/")
    page.get_by_label("Earned").select_option("margin")
    page.get_by_label("How much of it").fill("120")
    page.get_by_label("What", exact=True).first.fill("Fitting")
    page.get_by_label("Crew hours").first.fill("16")
    page.get_by_role("button", name="Save", exact=True).click()
    expect(page.get_by_label("How much of it")).to_be_focused()
    expect(page.locator("#fault-earn")).to_contain_text("write 0 to 99")
    sound()
    page.get_by_label("How much of it").fill("30")
    page.get_by_role("button", name="Save", exact=True).click()
    expect(page.locator(".said")).to_contain_text("Saved as revision")
    expect(page.get_by_text("30.0%")).to_be_visible()
    sound()
    page.get_by_role("button", name="It was given to the client today").click()
    expect(page.get_by_text("Given on")).to_be_visible()
    page.get_by_role("link", name="The client’s paper").click()
    # It rests on prices of the sample that nobody has confirmed, so that is asked first.
    expect(page.get_by_role("heading", name="Not confirmed yet")).to_be_visible()
    sound()
    with page.expect_download() as paper:
        page.get_by_role("link", name="Make the paper all the same").click()
    assert paper.value.suggested_filename.endswith("-price.pdf")


def test_a_quote_is_brought_in_looked_at_and_compared(page, whole, tmp_path, sound):
    page.goto(whole + "quotes/")
    sound()
    page.get_by_role("link", name="A quote came in").click()
    sound()
    rows = ["mark,each", *(f"{field.input_value()},12.50" for field in page.locator(".extra-mark input").all()[1:-2])]
    (tmp_path / "mill.csv").write_text("\n".join(rows), "utf-8")
    page.get_by_label("The workshop’s list").set_input_files(tmp_path / "mill.csv")
    page.get_by_role("button", name="Look at it").click()
    expect(page.get_by_text("Nothing is kept yet.")).to_be_visible()
    page.get_by_label("Whose quote").fill("Rook Mill")
    page.get_by_role("button", name="Keep the quote").click()
    expect(page.get_by_label("Valid until")).to_be_focused()
    sound()
    page.get_by_label("Valid until").fill("2099-01-01")
    page.get_by_role("button", name="Keep the quote").click()
    expect(page.locator(".quote")).to_contain_text("is missing")
    sound()
    with page.expect_download() as paper:
        page.get_by_role("link", name="This as PDF").click()
    assert paper.value.suggested_filename.endswith("-quotes.pdf")
    page.get_by_role("button", name="Strike it out").click()
    expect(page.get_by_text("No quote has come in yet.")).to_be_visible()


def test_the_weeks_are_laid_down_and_decided(page, whole, sound):
    page.goto("/weeks/")
    sound()
    page.get_by_label("How many weeks").fill("0")
    page.get_by_role("button", name="Save and decide").click()
    expect(page.get_by_label("How many weeks")).to_be_focused()
    sound()
    page.get_by_label("How many weeks").fill("12")
    # Other tests have jobs on this desk too, more than its people could ever do.
    mine = "/" + whole.split("/", 3)[3]
    for group in page.get_by_role("group").filter(has=page.get_by_label("counts")).all():
        if not group.locator(f"a[href='{mine}']").count():
            group.get_by_label("counts").uncheck()
    page.get_by_role("button", name="Save and decide").click()
    expect(page.get_by_role("heading", name="Week by week")).to_be_visible()
    sound()
    with page.expect_download() as paper:
        page.get_by_role("link", name="This as PDF").click()
    assert paper.value.suggested_filename == "weeks.pdf"
    line = page.get_by_role("group", name="On top, line 1")
    line.get_by_label("Who or what").fill("Dora")
    line.get_by_label("Days a week").fill("5")
    line.get_by_label("Price of a day").fill("-260")
    page.get_by_role("button", name="Save and decide").click()
    expect(line.get_by_label("Price of a day")).to_be_focused()
    sound()
    line.get_by_label("Price of a day").fill("260")
    line.get_by_label("whole days only").check()
    page.get_by_role("button", name="Save and decide").click()
    expect(page.get_by_role("heading", name="Overtime and hired hands")).to_be_visible()
    expect(page.get_by_text("Dora: ")).to_be_visible()
    sound()


def test_prices_through_time_with_their_working(page, whole, sound):
    page.goto("/book/prices/")
    expect(page.get_by_role("heading", name="The working")).to_be_visible()
    sound()
    page.get_by_label("The day that is 100").fill("2099-01-01")
    page.get_by_role("button", name="Look between these days").click()
    expect(page.get_by_label("The day that is 100")).to_be_focused()
    expect(page.locator("#fault-base")).to_contain_text("is after the last day")
    sound()
    page.get_by_label("The day that is 100").fill("2026-03-02")
    page.get_by_label("with the crew’s own hours").check()
    page.get_by_role("button", name="Look between these days").click()
    expect(page.get_by_role("img", name="Index of what the firm buys")).to_be_visible()
    sound()
    with page.expect_download() as paper:
        page.get_by_role("link", name="This as PDF").click()
    assert paper.value.suggested_filename == "prices.pdf"
