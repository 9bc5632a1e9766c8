"""What the card asks, to whom, and how it is answered: by the keyboard alone, on a bench."""

from __future__ import annotations

import pytest

from tests.web.browser import NEEDED, box, complaints, opened, shop, until

pytestmark = NEEDED
MEASURED = """title = "Pontoon ramp"
units = "in"
[cylinder]
retracted = "31 1/2"
extended = "49 1/2"
bore = 3
rod = "1 1/2"
[body_mount]
mount = "pin eye"
pin = 1
width = 2
[rod_mount]
mount = "clevis"
pin = 1
gap = "1 1/8"
width = "2 5/8"
"""


@pytest.fixture(scope="module")
def bench(tmp_path_factory):
    with shop(tmp_path_factory, MEASURED, solid=False) as (browser, address, _):
        yield browser, address


@pytest.fixture
def page(bench):
    made = opened(*bench)
    made.wait_for_selector("#drawing svg")
    made.wait_for_selector("#next h2")
    yield made
    assert complaints(made) == []
    made.context.close()


def at(page):
    return page.evaluate("document.activeElement.id")


def card(page):
    return page.locator("#next h2").text_content()


def press(page, *keys):
    for key in keys:
        page.keyboard.press(key)


def test_whoever_reads_a_hole_is_asked_for_its_bushing_and_may_say_that_there_is_none(page):
    field = page.locator("[data-field='body_mount.bushing']")
    assert not field.evaluate("e => e.classList.contains('open')"), "nobody is asked before"
    box(page, "body_mount.hole").focus()
    page.keyboard.type("1.02")
    press(page, "Enter")
    assert at(page) == "in-body_mount.bushing"
    until(page, lambda: card(page).startswith("Over the bushing"))
    press(page, "Tab", "Enter")
    assert at(page) == "in-rod_mount.hole"
    until(page, lambda: "bushing" not in card(page))
    page.wait_for_timeout(300)
    page.reload()
    page.wait_for_selector("#drawing svg")
    none = field.get_by_role("button", name="No bushing")
    until(page, lambda: none.get_attribute("aria-pressed") == "true")
    assert card(page) == "The hole that the pin goes through", "what was answered stays so"
    none.click()  # it was one, after all
    until(page, lambda: card(page).startswith("Over the bushing"))
    box(page, "body_mount.bushing").fill("1 1/4")
    until(page, lambda: "BUSHING" in page.locator("#drawing svg").text_content())
    assert none.is_hidden()


def test_hours_are_asked_after_the_end_that_they_are_seen_from_and_say_it(page):
    box(page, "base_port.thread").focus()
    page.keyboard.type("SAE-8")
    press(page, "Enter")
    assert at(page) == "in-cylinder.clock_seen_from"
    field = page.locator("[data-field='base_port.clock']")
    label, picture = field.locator("label small"), field.locator(".picture")
    assert label.text_content() == "looking at the rod end"
    before = picture.inner_html()
    page.keyboard.type("base")
    press(page, "Enter")
    assert at(page) == "in-base_port.clock"
    until(page, lambda: label.text_content() == "looking at the base end")
    assert "looking at the base end" in field.locator(".dial").get_attribute("aria-label")
    assert picture.inner_html() != before
    page.keyboard.type("3")
    until(page, lambda: "FROM BASE END" in page.locator("#drawing svg").text_content())
    press(page, "Enter")
    assert at(page) == "in-base_port.position", "where it sits is read too, once it is there"
    until(page, lambda: page.locator("[id='in-base_port.clock-note']").is_hidden())


def test_a_question_of_two_answers_is_answered_on_its_card(page):
    for end in ("body", "rod"):
        box(page, f"{end}_mount.hole").fill("1.02")
        page.locator(f"[data-field='{end}_mount.bushing'] .none").click()
    box(page, "base_port.thread").fill("SAE-8")
    until(page, lambda: card(page).startswith("The end that you look at"))
    page.locator("#next").get_by_role("button", name="Base end").click()
    until(page, lambda: card(page).endswith("looking at the base end"))
    assert box(page, "cylinder.clock_seen_from").input_value() == "base"
    assert at(page) == "in-base_port.clock"
    tip = page.locator("#next-tip")
    assert "next-tip" in box(page, "base_port.clock").get_attribute("aria-describedby")
    assert "12 o'clock up" in tip.text_content()


def test_of_what_means_two_things_the_one_meant_is_taken_by_a_press(page):
    thread = box(page, "base_port.thread")
    thread.fill("M18x1.5")
    taken = page.get_by_role("button", name="take M18x1.5 ISO 6149")
    taken.wait_for()
    page.get_by_role("tab", name="Sheet 1").click()
    until(page, lambda: "There is no sheet" in page.locator("#drawing").text_content())
    page.locator("#download summary").click()
    until(page, lambda: "mended first" in page.locator("#still").text_content())
    press(page, "Escape")
    taken.press("Enter")
    assert thread.input_value() == "M18x1.5 ISO 6149"
    assert at(page) == "in-base_port.thread"
    until(page, lambda: page.locator(".field.fault").count() == 0)
    box(page, "rod_mount.mount").select_option("male thread")
    rod = box(page, "rod_mount.thread")
    rod.fill("1 1/4")
    page.get_by_role("button", name="take 1 1/4-12 UNF").wait_for()
    rod.fill("M31")
    until(page, lambda: "for example" in page.locator(".field.fault").text_content())
    assert page.locator(".offer:visible").count() == 0, "an example is no offer"
