"""A price list in a real browser: at fault, looked at, and put in; cards instead of columns on a phone."""

from playwright.sync_api import expect

ADDRESS = "/book/boards/price-list/"


def _chosen(page, text):
    page.locator("#f-list").set_input_files({"name": "list.csv", "mimeType": "text/csv", "buffer": text.encode()})


def test_a_list_is_put_right_looked_at_and_put_in(page, sound):
    width = page.viewport_size["width"]
    page.goto(ADDRESS)
    sound()
    page.get_by_label("Whose list").fill("a list")
    _chosen(page, "name;price\n18 mm birch plywood 2440 x 1220;-3\n")
    page.get_by_role("button", name="Look at it").click()
    expect(page.locator("#fault-list")).to_contain_text("below zero")
    expect(page.locator("#f-list")).to_be_focused()
    sound()
    expect(page.get_by_label("Whose list")).to_have_value("a list")
    _chosen(page, f"name;price\n18 mm birch plywood 2440 x 1220;{width}\nbirch 18;7\n")
    page.get_by_label("From which day").fill("2027-01-05" if width < 500 else "2027-01-04")
    page.get_by_role("button", name="Look at it").click()
    expect(page.locator("tbody tr")).to_contain_text(["18 mm birch plywood"])
    table = page.locator("table.stack")
    assert table.evaluate("e => getComputedStyle(e).display") == ("block" if width < 500 else "table")
    sound()
    page.get_by_role("button", name="Put these prices in").click()
    expect(page.locator(".said")).to_contain_text("Saved as revision")


def test_a_workshop_s_charges_are_put_right_looked_at_and_put_in(page, sound):
    width = page.viewport_size["width"]
    page.goto("/book/workshops/1/")
    sound()
    page.get_by_role("link", name="Bring it in from a list").click()
    expect(page.get_by_label("Whose prices these are")).to_have_value("Quarry Lane Workshop")
    sound()
    page.get_by_label("Whose list").fill("winter charges")
    _chosen(page, "charge;price\nset-up;-3\nbord;2\n")
    page.get_by_role("button", name="Look at it").click()
    expect(page.locator("#fault-list li")).to_have_count(2)
    expect(page.get_by_label("Whose prices these are")).to_have_value("Quarry Lane Workshop")
    sound()
    _chosen(page, f"charge;price\nset-up;{width}\nlead time;{width % 97}\n18 mm MDF;{width}.5\n")
    page.get_by_label("From which day").fill("2027-02-05" if width < 500 else "2027-02-04")
    page.get_by_role("button", name="Look at it").click()
    expect(page.locator("tbody tr")).to_have_count(3)
    table = page.locator("table.stack")
    assert table.evaluate("e => getComputedStyle(e).display") == ("block" if width < 500 else "table")
    sound()
    page.get_by_role("button", name="Put these charges in").click()
    expect(page.locator(".said")).to_contain_text("Saved as revision")
    expect(page.get_by_role("heading", name="Quarry Lane Workshop")).to_be_visible()


def test_a_blank_list_is_downloaded(page):
    page.goto(ADDRESS)
    with page.expect_download() as got:
        page.get_by_role("link", name="Charges as a workbook").click()
    assert got.value.suggested_filename == "charges.xlsx"
