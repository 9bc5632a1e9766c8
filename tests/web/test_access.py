"""For everyone: axe in each state, the keyboard alone, small windows, large letters, a thumb.

axe-core (Deque, MPL-2.0) judges roles, names, labels, order and contrast by WCAG 2.2 A and AA; it
comes with axe-playwright-python and is used by the tests alone.
"""

from __future__ import annotations

import pytest

from tests.web.browser import NEEDED, box, complaints, length, opened, shop, until
from tests.web.test_guard import SPEC

pytestmark = NEEDED
PRESSED = SPEC.replace('units = "in"', 'units = "in"').replace(
    "[cylinder]", '[cylinder]\nworking_pressure = "2500 psi"'
)
PHONE = {"viewport": {"width": 390, "height": 844}, "has_touch": True, "is_mobile": True}


@pytest.fixture(scope="module")
def place(tmp_path_factory):
    """A browser, and a file that is served."""
    with shop(tmp_path_factory, PRESSED, solid=False) as (browser, address, _):
        yield browser, address


@pytest.fixture
def filed(place):
    pages = []

    def at(**how):
        page = opened(place[0], place[1], **how)
        pages.append(page)
        page.wait_for_selector("#drawing svg")
        until(page, lambda: page.locator("#strip .verdict").count() > 0)
        return page

    yield at
    for page in pages:
        page.context.close()


@pytest.fixture
def bare(filed):
    """The start, as one comes to it who wants another cylinder."""
    page = filed()
    page.get_by_role("button", name="New").click()
    page.wait_for_selector("#start .picture svg")
    return page


def violations(page):
    """What axe finds; the lines of a drawing are told by its title and are not walked through."""
    axe = pytest.importorskip("axe_playwright_python.sync_playwright")
    rules = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
    apart = {"exclude": [["#drawing svg g"], [".picture svg"]]}
    found = axe.Axe().run(page, apart, {"runOnly": rules, "resultTypes": ["violations"]})
    return [(v["id"], n["html"][:120]) for v in found.response["violations"] for n in v["nodes"]]


def test_axe_finds_nothing_at_the_start(bare):
    assert violations(bare) == []


def test_axe_can_find_something(bare):
    bare.evaluate("document.querySelector('label[for=start-units]').remove()")
    assert any(rule == "select-name" for rule, _ in violations(bare))


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_in_form_fault_and_verdicts(filed, scheme):
    page = filed(color_scheme=scheme)
    page.get_by_role("tab", name="Will it hold?").click()
    page.wait_for_selector("#other table")
    page.locator("#download summary").click()
    assert violations(page) == []
    page.locator("#download summary").click()
    box(page, "cylinder.rod").fill("9")
    page.wait_for_selector(".field.fault")
    assert violations(page) == []


WINDOWS = [(320, 640), (350, 225), (390, 844), (700, 900), (1024, 768), (1180, 800), (1440, 900)]


def test_nothing_is_wider_than_the_window(filed, bare):
    page = filed()
    for wide, high in WINDOWS:
        for one in (page, bare):
            one.set_viewport_size({"width": wide, "height": high})
            assert one.evaluate("document.documentElement.scrollWidth") <= wide, (wide, one.url)


def test_at_400_percent_the_first_field_stands_on_the_first_screen(filed):
    """A window of 1440 x 900 enlarged four times: the menus leave room for the form."""
    page = filed(viewport={"width": 360, "height": 225})
    first = page.locator("#form .field input").first.bounding_box()
    assert first["y"] + first["height"] <= 225
    for button in page.locator("header :is(button, .button)").all():
        if button.is_visible():  # WCAG 2.2, 2.5.8
            assert min(button.bounding_box()[w] for w in ("width", "height")) >= 24


@pytest.mark.parametrize("file", [True, False])
def test_the_menu_lies_within_the_window(filed, file):
    """With a file there is a button more, and the one of the menu stands elsewhere."""
    page = filed()
    page.evaluate("(file) => { document.getElementById('save').hidden = !file; }", file)
    for wide, high in WINDOWS:
        page.set_viewport_size({"width": wide, "height": high})
        page.locator("#download summary").click()
        lies = page.locator("#formats").bounding_box()
        page.keyboard.press("Escape")
        assert lies["x"] >= 0, wide
        assert lies["x"] + lies["width"] <= wide, wide


def test_a_phone_has_targets_for_a_thumb_and_nothing_for_axe(filed):
    """44 px, WCAG 2.2 target size (enhanced), for what is pressed on a phone; links apart."""
    page = filed(**PHONE)
    assert violations(page) == []
    small = page.evaluate(
        """() => [...document.querySelectorAll("button:not(.link), select, .field input, .button")]
          .filter((e) => e.offsetParent && e.getBoundingClientRect().height < 43.5)
          .map((e) => e.outerHTML.slice(0, 80))"""
    )
    assert small == []


def test_a_new_cylinder_by_the_keyboard_alone(bare):
    """No mouse: from the start to a drawing, by Tab, letters, arrows and Enter."""
    page = bare
    page.get_by_label("Name on the drawing").first.focus()
    page.keyboard.type("Sluice")
    for _ in range(6):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.textContent") == "Start measuring":
            break
    page.keyboard.press("Enter")
    page.wait_for_selector("#next.large button")
    assert page.evaluate("document.activeElement.id") == "in-cylinder.retracted"
    for size in ("31 1/2", "49 1/2", "3", "1 1/2"):
        page.keyboard.type(size)
        page.keyboard.press("Enter")
        page.wait_for_timeout(50)
    page.wait_for_selector("#drawing svg")
    assert page.evaluate("document.activeElement.id") == "in-body_mount.pin"
    rooms = []
    for _ in range(4):
        page.keyboard.press("F6")
        rooms.append(page.evaluate("document.activeElement.closest('[id]').id"))
    assert rooms == ["drawing", "download", "rail", "form"]
    page.keyboard.press("F6")
    size_by_size_to_its_field(page)
    assert complaints(page) == []


def test_enter_goes_on_though_the_tool_has_not_answered_yet(bare):
    """Two lengths give the third: it is passed over, however slowly the first two are taken in."""
    page = bare
    page.get_by_role("button", name="Start measuring").click()
    page.wait_for_selector("#next.large button")
    page.route("**/look", lambda route: route.abort())
    box(page, "cylinder.retracted").focus()
    for size in ("31 1/2", "49 1/2"):
        page.keyboard.type(size)
        page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.id") == "in-cylinder.bore"


def size_by_size_to_its_field(page):
    for _ in range(30):
        page.keyboard.press("ArrowDown")
        if "bore" in (page.locator("#slip").text_content() or ""):
            break
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.id") == "in-cylinder.bore"
    page.keyboard.type("3 1/4")
    until(page, lambda: "3 1/4" in page.locator("#drawing svg").text_content())
    page.keyboard.press("Escape")
    assert box(page, "cylinder.bore").input_value() == "3"


def test_every_size_on_the_views_leads_somewhere(filed):
    """A size with a field lights it and is edited by a click; another says what it follows from."""
    page = filed()
    sizes = page.locator("#drawing g.dimension")
    assert sizes.count() > 12
    for k in range(sizes.count()):
        e = sizes.nth(k)
        name, field = e.get_attribute("data-name"), e.get_attribute("data-field")
        e.dispatch_event("pointerenter")
        linked = page.locator(f'.field.linked[data-field="{field}"]').count()
        slip = page.locator("#slip").is_visible()
        assert linked == 1 or slip, name
        e.dispatch_event("pointerleave")
        e.dispatch_event("click")
        if linked:
            at = page.evaluate("document.activeElement.closest('.field').dataset.field")
            assert at == field
            assert page.locator(f'#drawing .lit[data-field="{field}"]').count() >= 1


def test_a_view_keeps_its_place_while_a_value_changes(filed):
    page = filed()
    page.get_by_role("button", name="larger").click()
    page.get_by_role("button", name="larger").click()
    before = page.locator("#drawing > div").get_attribute("style")
    assert "scale(1.69" in before
    box(page, "cylinder.stroke").fill("17")
    until(page, lambda: "STROKE 17" in page.locator("#drawing svg").text_content())
    assert page.locator("#drawing > div").get_attribute("style") == before


def test_another_unit_for_bare_numbers_changes_no_size(filed):
    page = filed()
    box(page, "units").select_option("mm")
    until(page, lambda: length(page, "retracted").text_content().startswith("692.15 mm"))
    assert box(page, "cylinder.retracted").input_value() == "27 1/4 in"
    page.locator("#undo").click()
    until(page, lambda: length(page, "retracted").text_content().startswith("27 1/4 in"))


def test_two_tabs_do_not_disturb_each_other(place, filed):
    """Each answers for what was typed in it."""
    one, other = filed(), filed()
    box(one, "cylinder.stroke").fill("17")
    box(other, "cylinder.stroke").fill("15")
    for page, open_ in ((one, "44 1/4 in"), (other, "42 1/4 in")):
        until(page, lambda p=page, w=open_: length(p, "extended").text_content().startswith(w))
