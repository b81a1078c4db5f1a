"""The desk in a real browser, on the phone and on the laptop."""

import re

from playwright.sync_api import expect


def _addresses(page, store):
    """Every page that the rod and the firm's own links lead to, and the ones behind them."""
    page.goto(store)
    links = page.eval_on_selector_all(".rod a, .desk-nav a", "links => links.map(link => link.getAttribute('href'))")
    assert len(links) >= 10
    behind = ["openings/bring-in/", "measure/", "measure/C1/", "leaves/C1/", "shape/C6/", "shape/C12/"]
    return sorted({*links, "/", "/jobs/new/", *(store + part for part in behind)})


SMALL = """all => all.filter(e => e.offsetParent && e.getBoundingClientRect().height < 43.5)
                      .map(e => e.outerHTML.slice(0, 90))"""
TOUCHED = "main button, main .button, main input:not([type=hidden], [type=checkbox], [type=radio]), main select, .rod a"


def test_no_page_shuts_anybody_out_is_too_wide_or_has_what_is_too_small_to_touch(page, store, sound):
    for address in _addresses(page, store):
        page.goto(address)
        sound()
        assert page.eval_on_selector_all(TOUCHED, SMALL) == [], address


def test_a_sample_opens_and_says_where_it_stands(page, begun):
    page.goto("/")
    with page.expect_navigation():
        page.locator("form:has(input[value='converted-store']) button").click()
    begun.append(page.url)
    expect(page.locator(".standing")).to_contain_text("14 openings, 3 standard sizes")


def test_a_change_is_saved_said_and_taken_back(page, store):
    page.goto(store)
    page.get_by_label("Note for the summary").fill("Stairs are narrow: carry leaves one by one.")
    page.get_by_role("button", name="Save").click()
    expect(page.locator(".said")).to_contain_text("Saved as revision 2.")
    page.goto(store + "history/")
    expect(page.locator(".revisions li").first).to_contain_text("note Cupboards stand already")
    page.get_by_role("button", name=re.compile("Take back revision 2")).click()
    expect(page.locator(".said")).to_contain_text("Revision 2 is taken back; that is revision 3.")
    page.goto(store)
    expect(page.get_by_label("Note for the summary")).to_have_value(re.compile("^Cupboards stand already"))


def test_a_fault_stands_beside_its_field_and_what_was_typed_is_kept(page):
    page.goto("/jobs/new/")
    page.get_by_label("Who is it for?").fill("The boat's owner")
    page.evaluate("document.querySelectorAll('[required]').forEach(e => e.removeAttribute('required'))")
    page.get_by_role("button", name="Begin", exact=True).click()
    expect(page.locator("#fault-name")).to_be_visible()
    expect(page.get_by_label("What is it called?")).to_be_focused()
    expect(page.get_by_label("Who is it for?")).to_have_value("The boat's owner")


def test_the_second_to_save_is_told_and_loses_nothing(context, page, store):
    page.goto(store)
    other = context.new_page()
    other.goto(store)
    page.get_by_label("Note for the summary").fill("from the first")
    page.get_by_role("button", name="Save").click()
    expect(page.locator(".said")).to_contain_text("Saved")
    other.get_by_label("Note for the summary").fill("from the second")
    other.get_by_role("button", name="Save").click()
    expect(other.get_by_role("heading", level=1)).to_have_text("Somebody saved meanwhile")
    expect(other.locator("main table")).to_contain_text("from the first")
    expect(other.locator("main table")).to_contain_text("from the second")
    other.get_by_role("button", name="Save mine where we both changed").click()
    expect(other.get_by_label("Note for the summary")).to_have_value("from the second")


def test_the_theme_is_kept(page, store):
    page.goto(store)
    before = page.evaluate("document.documentElement.dataset.theme || ''")
    page.get_by_role("button", name="Dark").click()
    chosen = page.evaluate("document.documentElement.dataset.theme")
    assert chosen in ("light", "dark")
    page.reload()
    assert page.evaluate("document.documentElement.dataset.theme") == chosen != before


def test_a_block_from_a_spreadsheet_is_pasted_and_rows_are_added(page):
    page.goto("/jobs/new/")
    page.get_by_label("What is it called?").fill("School corridor")
    page.get_by_role("button", name="Begin", exact=True).click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Openings")
    block = "\n".join(f"S{k}\tcorridor\tstanding\t2\tleft\t842,5\t843\t843\t2030\t2030\t2030" for k in range(1, 6))
    page.evaluate(
        """block => {
            const cell = document.querySelector("input[name=r0-mark]");
            cell.focus();
            const data = new DataTransfer();
            data.setData("text/plain", block);
            cell.dispatchEvent(new ClipboardEvent("paste", {clipboardData: data, bubbles: true, cancelable: true}));
        }""",
        block,
    )
    expect(page.locator("main tbody tr")).to_have_count(5)
    expect(page.locator("main tbody tr").first).to_contain_text("widths 842.5, 843, 843")
    page.get_by_role("button", name="Do it").click()
    expect(page.locator(".said")).to_contain_text("Saved as revision 2.")
    expect(page.locator(".standing")).to_contain_text("5 openings, 1 standard size")


def _paste(page, cell, block):
    page.evaluate(
        """([name, block]) => {
            const cell = document.querySelector(`[name=${name}]`), data = new DataTransfer();
            cell.focus();
            data.setData("text/plain", block);
            cell.dispatchEvent(new ClipboardEvent("paste", {clipboardData: data, bubbles: true, cancelable: true}));
        }""",
        [cell, block],
    )


def test_a_whole_block_with_its_headings_goes_by_them_wherever_it_is_pasted(page, store):
    page.goto(store + "openings/")
    heads = "height right\theight middle\theight left\twidth head\twidth middle\twidth foot\tmark"
    _paste(page, "r3-leaves", f"{heads}\n2031\t2030\t2029\t820,1\t819,5\t818,9\tN1\n2031\t2030\t2029\t1\t2\t3\tN2")
    expect(page.locator("main tbody tr")).to_have_count(1)
    expect(page.locator("main tbody tr")).to_contain_text("widths 818.9, 819.5, 820.1")
    expect(page.locator("main tbody tr")).to_contain_text("leaves 2")
    expect(page.locator(".faults")).to_contain_text("row 3, width foot (N2): 3 mm is less than the smallest opening")
    page.get_by_role("button", name="Do it").click()
    expect(page.locator("input[name=r14-wf]")).to_have_value("818.9")
    assert page.locator("select option", has_text="818,9").count() == 0


def test_a_column_without_headings_goes_into_the_rows_where_it_is_pasted(page, store):
    page.goto(store + "openings/")
    _paste(page, "r1-depth", "411,5\n412")
    changed = page.locator("main tbody tr", has_text="is changed")
    expect(changed).to_have_count(2)
    expect(changed.first).to_contain_text("C2")
    expect(changed.first).to_contain_text("411.5")
    page.get_by_role("link", name="Leave it").click()
    expect(page.locator("input[name=r1-depth]")).not_to_have_value("411.5")


def test_what_is_no_choice_of_a_list_is_left_out_and_said(page, store):
    page.goto(store + "openings/")
    page.get_by_text("Fixed panels").click()
    _paste(page, "p0-mark", "P1\thall\t818,9\t900\t400")
    expect(page.locator("[data-left-out]")).to_contain_text("818,9")
    expect(page.locator("[name=p0-length]")).to_have_value("900")
    assert page.locator("[name=p0-board] option", has_text="818,9").count() == 0


def test_typed_rows_are_kept_when_another_page_is_opened_and_offered_again(page, store):
    page.goto(store + "openings/")
    page.locator("[name=r0-note]").fill("damp wall")
    page.locator("[name=r14-mark]").fill("C15")
    for name in ("wf", "wm", "wh"):
        page.locator(f"[name=r14-{name}]").fill("524,5")
    page.goto(store + "history/")
    page.goto(store + "openings/")
    offer = page.locator("[data-draft-offer]")
    expect(offer).to_contain_text("Typed here and not saved C1, C15")
    expect(page.locator("[name=r0-note]")).to_have_value("")
    offer.get_by_role("button", name="Put it back into the rows").click()
    expect(page.locator("[name=r0-note]")).to_have_value("damp wall")
    expect(page.locator("[name=r14-wm]")).to_have_value("524,5")
    expect(offer).to_be_hidden()
    for name in ("hl", "hm", "hr"):
        page.locator(f"[name=r14-{name}]").fill("2030")
    page.get_by_role("button", name="Save the openings").click()
    expect(page.locator(".said")).to_contain_text("Saved as revision")
    expect(offer).to_be_hidden()
    page.reload()
    expect(offer).to_be_hidden()
    page.locator("[name=r0-note]").fill("drier")
    page.goto(store + "openings/")
    offer.get_by_role("button", name="Throw it away").click()
    page.reload()
    expect(offer).to_be_hidden()


def test_what_could_not_be_saved_is_still_offered_later(page, store):
    page.goto(store + "openings/")
    page.locator("[name=r2-wf]").fill("52")
    page.get_by_role("button", name="Save the openings").click()
    expect(page.locator("#faults-r2")).to_contain_text("52 mm is less")
    page.goto(store + "openings/")
    expect(page.locator("[data-draft-offer]")).to_contain_text("Typed here and not saved C3")


def test_a_wrong_reading_is_told_in_its_row_and_has_the_cursor(page, store):
    page.goto(store + "openings/")
    page.locator("input[name=r2-wf]").fill("52")
    page.get_by_role("button", name="Save the openings").click()
    expect(page.locator("#faults-r2")).to_contain_text(
        "52 mm is less than the smallest opening, 150 mm; did you mean 520?"
    )
    expect(page.locator("input[name=r2-wf]")).to_have_value("52")
    expect(page.locator("input[name=r2-wf]")).to_be_focused()


def _lay_out(page, store):
    """Have the layouts worked out; a job of the same content has them already, as they are kept by content."""
    page.goto(store + "boards/")
    begin = page.get_by_role("button", name="Work it out")
    if begin.count():
        begin.click()
    expect(page.get_by_role("link", name="Step through its cuts").first).to_be_visible(timeout=60_000)


def test_a_size_shows_its_working_when_it_is_touched(page, store):
    page.goto(store + "parts/")
    step = page.locator(".steps details", has_text="leaf width").first
    step.locator("summary").click()
    expect(step.locator(".working")).to_contain_text(
        "(clear width 791.0 − 2 × margin 3.0 − 1 × meeting gap 3.0) ÷ 2 = 391.0"
    )


def test_layouts_are_worked_out_with_progress_and_stepped_through(page, store):
    _lay_out(page, store)
    page.get_by_role("link", name=re.compile("Step through")).first.click()
    before = page.get_by_role("heading", level=1).inner_text()
    page.get_by_role("link", name="Next cut").click()
    expect(page.get_by_role("heading", level=1)).not_to_have_text(before)


def test_no_page_shuts_anybody_out_once_all_is_worked_out(page, store, sound):
    _lay_out(page, store)
    for address in (store + name for name in ("boards/", "boards/1/", "make-or-buy/", "orders/", "papers/")):
        page.goto(address)
        sound()


def test_the_order_pack_is_downloaded(page, store):
    _lay_out(page, store)
    page.goto(store + "papers/")
    page.locator(f"a[href='{store.split('/', 3)[3].join(['/', ''])}papers/pack/']").click()
    with page.expect_download() as coming:
        page.get_by_role("link", name="Make the paper all the same").click()
    assert coming.value.suggested_filename.endswith(".zip")


def _figures(page, store):
    page.goto(store + "parts/")
    leaf = page.locator("#size-1-5 strong")
    expect(leaf).to_contain_text("391")
    return page.get_by_label("margin at the sides"), leaf


def test_a_margin_that_is_typed_shows_at_once_and_the_field_keeps_the_cursor(page, store):
    margin, leaf = _figures(page, store)
    margin.focus()
    page.keyboard.press("Control+A")
    page.keyboard.type("4,5")
    expect(leaf).to_contain_text("was 391 389.5")
    expect(margin).to_be_focused()
    expect(margin).to_have_value("4,5")
    page.keyboard.press("Control+A")
    page.keyboard.type("3")
    expect(leaf).to_have_text("391")
    expect(page.locator(".tried")).to_have_count(0)


def test_half_a_figure_is_let_be_until_one_leaves_it(page, store):
    margin, leaf = _figures(page, store)
    margin.fill("4.5")
    expect(leaf).to_contain_text("389.5")
    with page.expect_response(re.compile("parts/try/")) as answered:
        margin.fill("450")
    assert answered.value.status == 422
    expect(page.locator("#fault-margin")).to_have_count(0)
    expect(leaf).to_contain_text("389.5")
    margin.fill("")
    margin.press("Tab")
    expect(page.locator("#fault-margin")).to_be_visible()
    page.get_by_label("margin at the sides").fill("3")
    page.get_by_label("margin at the sides").press("Tab")
    expect(page.locator("#fault-margin")).to_have_count(0)
    expect(leaf).to_have_text("391")


def test_a_click_that_leaves_a_figure_still_opens_the_working(page, store):
    margin, leaf = _figures(page, store)
    margin.fill("4")
    expect(leaf).to_contain_text("390")
    page.locator("#size-1-5 summary").click()
    expect(page.locator("#size-1-5 .working")).to_be_visible()
