"""A visit in Chromium: type, see it follow, mend a fault, save, and nothing is lost by a reload."""

from __future__ import annotations

from tests.web.browser import NEEDED, at_work, box, length, until
from tests.web.test_guard import SPEC

pytestmark = NEEDED


def test_a_visit(tmp_path_factory):
    with at_work(tmp_path_factory, SPEC) as page:
        for step in STEPS:
            step(page)


def arrive(page):
    """The address loses its token, and the file is shown."""
    assert "token" not in page.url
    assert length(page, "retracted").text_content() == "27 1/4 in 692.15 mm"
    assert box(page, "cylinder.bore").input_value() == "3 1/2"


def type_a_length(page):
    """Lengths and drawing follow."""
    box(page, "cylinder.stroke").fill("18 1/2")
    until(page, lambda: length(page, "extended").text_content().startswith("45 3/4"))
    until(page, lambda: "STROKE 18 1/2" in page.locator("#drawing svg").text_content())
    assert "Not in the file yet" in page.locator("#kept").text_content()


def make_and_mend_a_fault(page):
    """It stands at its field, the drawing stays as it was, and it goes when it is mended."""
    box(page, "cylinder.rod").fill("9")
    page.wait_for_selector(".field.fault [id='in-cylinder.rod']")
    assert "does not pass" in page.locator("[id='in-cylinder.rod-note']").text_content()
    assert length(page, "extended").text_content().startswith("45 3/4")
    box(page, "cylinder.rod").fill("1 3/4")
    until(page, lambda: page.locator(".field.fault").count() == 0)


def light_a_size(page):
    """A field in hand lights its size on the drawing."""
    box(page, "cylinder.retracted").focus()
    assert page.locator("#drawing .lit").count() >= 1


def change_the_mount(page):
    """Another mount takes its own fields, and undo brings the old ones back."""
    gap = box(page, "rod_mount.gap")
    assert gap.is_visible()
    box(page, "rod_mount.mount").select_option("pin eye")
    until(page, lambda: not gap.is_visible())
    page.locator("#undo").click()
    until(page, gap.is_visible)


def turn_the_dial(page):
    """A clock is set by the keyboard on its dial."""
    box(page, "base_port.thread").fill("SAE-8")
    dial = page.locator("[data-field='base_port.clock'] .dial")
    dial.focus()
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowRight")
    assert box(page, "base_port.clock").input_value() == "1:00"
    until(page, lambda: "SAE-8" in page.locator("#drawing svg").text_content())


def reload(page):
    """Nothing is lost."""
    page.wait_for_timeout(500)
    page.reload()
    page.wait_for_selector("#drawing svg")
    until(page, lambda: box(page, "cylinder.stroke").input_value() == "18 1/2")
    assert box(page, "base_port.clock").input_value() == "1:00"


def save(page):
    """It is written with its comments."""
    page.locator("#save").click()
    until(page, lambda: page.locator("#kept").text_content().startswith("Saved"))
    text = page.path.read_text(encoding="utf-8")
    assert "# all of it" in text
    assert 'stroke = "18 1/2"' in text


def edit_elsewhere(page):
    """A change in an editor shows at once."""
    page.path.write_text(
        page.path.read_text(encoding="utf-8").replace("18 1/2", "18 1/4"), encoding="utf-8"
    )
    until(page, lambda: length(page, "stroke").text_content().startswith("18 1/4 in"))


def another_in_its_place(page):
    """A sample that is looked at goes into the file only when a person says so twice."""
    before = page.path.read_text(encoding="utf-8")
    page.get_by_role("button", name="New").click()
    page.get_by_role("button", name="Clevis at both ends, inches").click()
    until(page, lambda: length(page, "retracted").text_content().startswith("26 in"))
    page.locator("#save").click()
    page.get_by_role("button", name="leave it").click()
    assert page.path.read_text(encoding="utf-8") == before
    page.locator("#save").click()
    page.get_by_role("button", name="put this one in its place").click()
    until(page, lambda: page.locator("#kept").text_content().startswith("Saved"))
    assert "Orchard lift" in page.path.read_text(encoding="utf-8")


STEPS = (arrive, type_a_length, make_and_mend_a_fault, light_a_size, change_the_mount,
         turn_the_dial, reload, save, edit_elsewhere, another_in_its_place)  # fmt: skip
