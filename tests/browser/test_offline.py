"""Measuring without signal, in a real browser on the phone: nothing typed is lost, nothing is sent twice."""

import re

import pytest
from PIL import Image
from playwright.sync_api import expect

SIZES = {
    "phone": {"viewport": {"width": 390, "height": 844}, "device_scale_factor": 2, "is_mobile": True, "has_touch": True}
}


@pytest.fixture
def context(browser, state):
    context = browser.new_context(storage_state=state["state"], base_url=state["base"], **SIZES["phone"])
    yield context
    context.close()


@pytest.fixture
def page(context):
    """A page where only the network may fail."""
    page = context.new_page()
    said: list[str] = []
    allowed = "403|422|409|ERR_INTERNET_DISCONNECTED|ERR_FAILED|Failed to fetch|htmx:sendError"
    page.on("console", lambda m: said.append(m.text) if m.type == "error" and not re.search(allowed, m.text) else None)
    page.on("pageerror", lambda error: said.append(str(error)))
    yield page
    assert said == []


def _measure(page, store, mark="C1"):
    page.goto(f"{store}measure/{mark}/")
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    # a wait that asks again and again would be a script made from a string, which the pages do not allow
    page.evaluate(
        """() => navigator.serviceWorker.controller || new Promise(
            done => navigator.serviceWorker.addEventListener('controllerchange', done, {once: true}))
            .then(() => null)"""
    )
    page.reload()
    expect(page.locator("[data-outbox-words]")).to_have_text("Everything is sent.")


def _read(page, *values):
    for value in values:
        place = page.locator("form.reading label").inner_text()
        page.locator("[data-reading]").fill(value)
        page.locator(".key-next").click()
        expect(page.locator("form.reading label")).not_to_have_text(place)


def _state(page):
    return page.locator("[data-outbox-words]")


def _history(page, store):
    page.goto(store + "history/")
    return page.locator(".revisions li").all_inner_texts()


def test_readings_typed_without_signal_survive_a_reload_and_go_in_once(context, page, store):
    _measure(page, store)
    page.goto(f"{store}measure/C1/?reading=widths-0")
    context.set_offline(True)
    _read(page, "844", "845,5", "846")
    expect(_state(page)).to_have_text("No signal: 3 readings kept on this phone.")
    page.locator("[data-reading]").fill("20")
    page.reload()
    expect(page.locator("[data-kept-words]")).to_contain_text("This page is as it was at")
    expect(_state(page)).to_have_text("No signal: 3 readings kept on this phone.")
    page.locator(".all-readings summary").click()
    expect(page.locator("[data-place-row='widths-1']")).to_contain_text("845,5")
    expect(page.locator("[data-place-row='widths-1']")).to_contain_text("kept on this phone")
    page.goto(f"{store}measure/C1/?reading=heights-0")
    expect(page.locator("[data-reading]")).to_have_value("20")
    page.locator("[data-reading]").fill("")
    context.set_offline(False)
    expect(_state(page)).to_have_text(re.compile(r"Sent, \d\d:\d\d\."))
    said = _history(page, store)
    assert sum("width at foot 842 → 844" in text for text in said) == 1
    assert sum("width at middle" in text and "→ 845.5" in text for text in said) == 1
    assert len(said) == 4
    page.goto(f"{store}measure/C1/")
    expect(_state(page)).to_have_text("Everything is sent.")


def test_what_was_sent_is_not_asked_for_again_where_signal_goes_once_more(context, page, store):
    _measure(page, store, "C5")
    page.goto(f"{store}measure/C5/?reading=widths-0")
    context.set_offline(True)
    _read(page, "844", "845,5")
    page.reload()
    context.set_offline(False)
    expect(_state(page)).to_have_text(re.compile(r"Sent, \d\d:\d\d\."))
    context.set_offline(True)
    page.reload()
    expect(page.locator("[data-kept-words]")).to_contain_text("This page is as it was at")
    expect(page.locator("[data-place-row='widths-0'] td").first).to_contain_text("844")
    expect(page.locator("[data-place-row='widths-1'] td").first).to_contain_text("845")
    expect(_state(page)).to_have_text("No signal.")
    context.set_offline(False)
    page.goto(f"{store}measure/C5/")
    expect(page.locator("[data-place-row='widths-1']")).to_contain_text("in the job")
    expect(_state(page)).to_have_text("Everything is sent.")


def test_an_answer_lost_on_its_way_leads_to_no_second_revision(browser, state, store):
    context = browser.new_context(
        storage_state=state["state"], base_url=state["base"], service_workers="block", **SIZES["phone"]
    )
    page = context.new_page()
    page.goto(f"{store}measure/C2/?reading=widths-0")

    def lose(route):
        route.fetch()
        route.abort()

    page.route("**/measure/C2/", lambda route: lose(route) if route.request.method == "POST" else route.continue_())
    page.locator("[data-reading]").fill("851")
    page.locator(".key-next").click()
    expect(page.locator("form.reading label")).to_contain_text("width at middle")
    page.unroute("**/measure/C2/")
    page.evaluate("dispatchEvent(new Event('online'))")
    expect(_state(page)).to_have_text(re.compile(r"Sent, \d\d:\d\d\."))
    said = _history(page, store)
    assert sum("C2: width at foot" in text for text in said) == 1
    assert len(said) == 2
    context.close()


def test_two_who_read_the_same_are_told_and_choose(context, browser, state, page, store):
    _measure(page, store)
    somebody = {
        "cookies": state["state"]["cookies"],
        "origins": [],
    }  # another phone: it does not know itself as this one
    other = browser.new_context(storage_state=somebody, base_url=state["base"])
    second = other.new_page()
    page.goto(f"{store}measure/C1/?reading=widths-2")
    context.set_offline(True)
    _read(page, "846")
    second.goto(f"{store}measure/C1/?reading=widths-2")
    second.locator("[data-reading]").fill("849")
    second.locator(".key-next").click()
    expect(second.locator("form.reading label")).to_contain_text("height at left")
    context.set_offline(False)
    asked = page.locator(".outbox li")
    expect(asked).to_contain_text("saved revision 2 meanwhile and you both read the same")
    expect(asked).to_contain_text("849 there, 846 here")
    page.reload()
    page.get_by_role("button", name="Save mine").click()
    expect(_state(page)).to_have_text(re.compile("Sent, "))
    expect(page.locator(".outbox li")).to_have_count(0)
    said = _history(page, store)
    assert len(said) == 3
    assert "width at head 849 → 846" in said[0]
    other.close()


def test_what_stands_out_is_asked_when_it_is_sent(context, page, store):
    _measure(page, store)
    page.goto(f"{store}measure/C1/?reading=widths-0")
    context.set_offline(True)
    _read(page, "482")
    context.set_offline(False)
    asked = page.locator(".outbox li")
    expect(asked).to_contain_text("482 stands out")
    asked.get_by_role("button", name="842", exact=True).click()
    expect(_state(page)).to_have_text(re.compile("Sent, "))
    assert len(_history(page, store)) == 1  # 842 stands there already


def test_a_picture_taken_without_signal_is_sent_later(context, page, store, tmp_path):
    shot = tmp_path / "wall.png"
    Image.new("RGB", (60, 40), "red").save(shot)
    _measure(page, store)
    context.set_offline(True)
    page.locator("#f-photo").set_input_files(shot)
    page.get_by_role("button", name="Keep the picture").click()
    expect(_state(page)).to_contain_text("1 picture is kept on this phone")
    page.reload()
    expect(_state(page)).to_contain_text("1 picture is kept on this phone")
    context.set_offline(False)
    expect(_state(page)).to_have_text(re.compile(r"Sent, "))
    page.reload()
    expect(page.locator(".pictures img")).to_have_count(1)


def test_a_job_taken_along_opens_without_signal_and_nothing_else_does(context, page, store):
    page.goto(store)
    page.get_by_role("button", name="Take this job along").click()
    expect(page.locator(".along p")).to_contain_text("Taken along", timeout=60_000)
    context.set_offline(True)
    for address in (store, f"{store}measure/", f"{store}measure/C7/", f"{store}papers/"):
        page.goto(address)
        expect(page.locator("[data-kept-words]")).to_contain_text("This page is as it was at")
    page.goto(f"{store}sizes/")
    expect(page.locator("h1")).to_have_text("No signal")
    expect(page.locator("[data-kept-list]")).to_contain_text("measure on site")
    assert "Make or buy" not in page.content()
    kept = page.evaluate(
        "caches.open('rodbook-pages').then(c => c.keys()).then(all => all.map(r => new URL(r.url).pathname))"
    )
    assert any(address.endswith(".pdf/") for address in kept)
    assert not [address for address in kept if re.search("login|history|/sizes/|make-or-buy|book", address)]


def test_another_mark_from_the_desk_clears_what_is_kept(context, page, store):
    _measure(page, store)
    context.clear_cookies()
    page.goto(store)
    expect(page.locator("h1")).not_to_contain_text("C1")
    for _ in range(100):
        if page.evaluate("caches.open('rodbook-pages').then(c => c.keys()).then(all => all.length)") == 0:
            break
        page.wait_for_timeout(50)
    else:
        raise AssertionError("pages are still kept")
    context.set_offline(True)
    page.goto(f"{store}measure/C1/")
    expect(page.locator("h1")).to_have_text("No signal")


def test_without_a_worker_the_open_page_still_keeps_readings(browser, state, store):
    context = browser.new_context(
        storage_state=state["state"], base_url=state["base"], service_workers="block", **SIZES["phone"]
    )
    page = context.new_page()
    page.goto(f"{store}measure/C1/?reading=widths-0")
    context.set_offline(True)
    page.locator("[data-reading]").fill("850")
    page.locator(".key-next").click()
    expect(_state(page)).to_have_text("No signal: 1 reading kept on this phone.")
    context.set_offline(False)
    expect(_state(page)).to_have_text(re.compile(r"Sent, "))
    context.close()
