"""A whole job in one go, as its joiner would do it, on the phone and on the laptop."""

import io
import re
import zipfile

from playwright.sync_api import expect

WIDTHS = (842.5, 843, 846, 851, 858, 866, 869)


def _paste(page, block):
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


def _begin_a_job(page):
    page.goto("/jobs/new/")
    width = page.viewport_size["width"]  # another name each time: layouts are kept by content, and these are to be new
    page.get_by_label("What is it called?").fill(f"School corridor, upper floor, {width}")
    page.get_by_role("button", name="Begin", exact=True).click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Openings")
    return re.match(r".*/jobs/\d+/", page.url)[0]


def test_a_job_from_its_first_line_to_its_order_pack_and_back_again(page):
    job = _begin_a_job(page)

    rows = [f"S{k}\tcorridor\tstanding\t2\tleft\t{w}\t{w}\t{w}\t2030\t2031\t2030" for k, w in enumerate(WIDTHS, 1)]
    _paste(page, "\n".join(rows))
    page.get_by_role("button", name="Do it").click()
    expect(page.locator(".said")).to_contain_text("Saved as revision 2.")
    expect(page.locator(".standing")).to_contain_text("7 openings, 2 standard sizes")

    page.goto(job + "sizes/")
    expect(page.locator("main")).to_contain_text("fewer are impossible with these packers")
    page.get_by_role("button", name="Take 4 sizes").click()
    expect(page.locator(".said")).to_contain_text("Saved as revision 3.")
    expect(page.locator("main")).to_contain_text("4 sizes serve every opening that stands, as many as were asked for")
    page.locator("#set-1 summary").click()
    # Six readings tell nothing of plumb, so what an old house may lean is taken off 842.5.
    expect(page.locator("#set-1 .working")).to_contain_text(
        re.compile(r"lining width = \(upright width of S1 83\d\.\d+ − 2 × least packer 4\.0 = ")
    )

    page.goto(job + "parts/")
    step = page.locator(".steps details", has_text="leaf width").first
    step.locator("summary").click()
    expect(step.locator(".working")).to_contain_text("÷ 2 =")

    page.goto(job + "boards/")
    page.get_by_role("button", name="Work it out").click()
    done = page.get_by_role("link", name="Step through its cuts").first
    expect(page.get_by_role("progressbar").or_(done)).to_be_visible(timeout=10_000)
    expect(done).to_be_visible(timeout=60_000)
    expect(page.locator("main svg").first).to_be_visible()

    page.goto(job + "papers/")
    page.locator("a[href$='/papers/pack/']").click()
    with page.expect_download(timeout=60_000) as coming:
        page.get_by_role("link", name="Make the paper all the same").click()
    with zipfile.ZipFile(io.BytesIO(coming.value.path().read_bytes())) as pack:
        names = pack.namelist()
        assert pack.testzip() is None
        assert any(name.endswith(".pdf") and pack.read(name).startswith(b"%PDF-") for name in names), names

    page.goto(job + "history/")
    page.get_by_role("button", name=re.compile("Take back revision 3")).click()
    expect(page.locator(".said")).to_contain_text("Revision 3 is taken back; that is revision 4.")
    expect(page.locator(".standing")).to_contain_text("7 openings, 2 standard sizes")
