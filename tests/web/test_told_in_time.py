"""What a person should see before they act: hours on the solid, both texts, what is still open."""

from __future__ import annotations

import pytest

from tests.web.browser import NEEDED, at_work, box, until
from tests.web.test_access import PRESSED

pytestmark = NEEDED
WAITING = """async () => {
  const text = JSON.parse(localStorage.getItem(Object.keys(localStorage)[0])).text;
  const answer = await fetch("/look", { method: "POST", body: JSON.stringify({ text }) });
  const lines = (await answer.text()).trim().split("\\n").map((l) => JSON.parse(l));
  const checks = lines.find((l) => l.verdict).verdict.checks.filter((c) => c.verdict !== "holds");
  const fails = checks.filter((c) => c.verdict === "fails");
  return (fails.length ? fails.slice(0, 1) : checks)
    .map((c) => c.fields.filter((f) => document.getElementById(`in-${f}`)));
}"""
WATCH = """() => {
  window.seen = [];
  const frame = document.getElementById("drawing");
  const note = () => window.seen.push(frame.classList.contains("following") ? "lines" : "whole");
  new MutationObserver(note).observe(frame, { attributes: true, attributeFilter: ["class"] });
}"""
WRONG_IN_BETWEEN = """() => new Promise((done) => {
  const frame = document.getElementById("drawing");
  const type = (name, value) => {
    const input = document.getElementById(`in-${name}`);
    input.value = value;
    input.dispatchEvent(new Event("input"));
  };
  new MutationObserver((_, watch) => {
    if (!frame.classList.contains("following")) return;
    watch.disconnect();
    type("cylinder.rod", "9");
    done();
  }).observe(frame, { attributes: true, attributeFilter: ["class"] });
  type("cylinder.retracted", "27 1/4");
})"""
WITHOUT_A_REST = """(most) => new Promise((done) => {
  window.shown = [];
  const input = document.getElementById("in-cylinder.retracted"), told = document.documentElement;
  new MutationObserver(() => {
    const read = /RETRACTED (27\\.\\d+)/.exec(document.querySelector("#drawing svg").textContent);
    if (read) window.shown.push(Number(read[1]));
  }).observe(told, { attributes: true, attributeFilter: ["data-drawn"] });
  let k = 0;
  const next = () => {
    input.value = String(27 + ++k / 1000);
    input.dispatchEvent(new Event("input"));
    if (window.shown.length > 1 || k >= most) done(27 + k / 1000);
    else setTimeout(next, 60);
  };
  next();
})"""
AT_THE_EDGE = """() => {
  const shown = document.querySelector("#solid canvas"), { width: w, height: h } = shown;
  const pen = Object.assign(document.createElement("canvas"), { width: w, height: h })
    .getContext("2d", { willReadFrequently: true });
  pen.drawImage(shown, 0, 0);
  const ink = (...at) => pen.getImageData(...at).data.filter((a, k) => k % 4 === 3 && a > 40);
  const rims = [[0, 0, w, 1], [0, h - 1, w, 1], [0, 0, 1, h], [w - 1, 0, 1, h]];
  return [ink(0, 0, w, h).length, rims.reduce((n, rim) => n + ink(...rim).length, 0)];
}"""
WAITED = """window.waited = [];
new MutationObserver(() => {
  const now = document.querySelector("#drawing .wait")?.textContent;
  if (now && now !== window.waited.at(-1)) window.waited.push(now);
}).observe(document, { subtree: true, childList: true });"""
FRAMES = """async () => {
  let frames = 0;
  const own = requestAnimationFrame;
  window.requestAnimationFrame = (f) => { frames += 1; return own(f); };
  const after = async (value) => {
    const slide = document.getElementById("slide"), before = frames;
    slide.value = value;
    slide.dispatchEvent(new Event("input"));
    await new Promise((done) => setTimeout(done, 300));
    return frames - before;
  };
  return [await after(300), await after(300), await after(310)];
}"""


@pytest.fixture(scope="module")
def page(tmp_path_factory):
    with at_work(tmp_path_factory, PRESSED) as made:
        until(made, lambda: made.locator("#strip .verdict").count() > 0)
        yield made


def test_a_frame_of_the_solid_is_drawn_where_something_moved_and_else_none(page):
    page.wait_for_selector("html[data-solid]", state="attached")
    page.wait_for_timeout(500)
    assert page.evaluate(FRAMES) == [1, 0, 1]


@pytest.mark.parametrize("wide", [1440, 390])
def test_the_solid_lies_within_its_place_closed_and_open(page, wide):
    page.wait_for_selector("html[data-solid]", state="attached")
    page.set_viewport_size({"width": wide, "height": 900})
    page.wait_for_timeout(300)
    for at in (0, 1000):
        page.locator("#slide").evaluate("(e, at) => { e.value = at; }", at)
        page.locator("#slide").dispatch_event("input")
        page.wait_for_timeout(300)
        inked, edge = page.evaluate(AT_THE_EDGE)
        assert inked > 1000
        assert edge == 0, at
    page.set_viewport_size({"width": 1440, "height": 900})


def test_until_the_first_drawing_is_there_its_place_says_that_it_comes(page):
    one = page.context.new_page()
    one.add_init_script(WAITED)
    one.goto(page.url)
    one.wait_for_selector("#drawing svg")
    assert one.evaluate("window.waited") == ["The drawing is being made."]
    assert one.locator("#drawing .wait").count() == 0
    one.close()


def test_lines_follow_before_sizes_and_never_stay_without_them(page):
    page.evaluate(WATCH)
    box(page, "cylinder.retracted").fill("28 1/2")
    until(page, lambda: "RETRACTED 28 1/2" in page.locator("#drawing svg").text_content())
    seen = page.evaluate("window.seen")
    assert seen.index("lines") < seen.index("whole")
    assert page.locator("#drawing.following").count() == 0
    page.evaluate(WRONG_IN_BETWEEN)
    page.wait_for_selector(".field.fault [id='in-cylinder.rod']")
    assert page.locator("#drawing.following").count() == 0, (
        "what does not go leaves no half drawing"
    )
    box(page, "cylinder.rod").fill("1 3/4")
    until(page, lambda: "RETRACTED 27 1/4" in page.locator("#drawing svg").text_content())


def test_a_solid_that_comes_late_does_not_go_before_the_next_drawing(page):
    """To show one takes the browser a while; whoever types on waits for lines and sizes."""
    solids, looks = [], []

    def shown():
        return page.locator("html").get_attribute("data-solid")

    page.wait_for_selector("html[data-solid]", state="attached")
    page.wait_for_timeout(500)
    page.route("**/solid", lambda r: solids.append(r))
    box(page, "cylinder.retracted").fill("27 3/8")
    until(page, lambda: solids)
    page.route("**/look", lambda r: looks.append(r))
    box(page, "cylinder.retracted").fill("27 1/2")
    until(page, lambda: looks)
    before = shown()
    solids[0].continue_()
    page.wait_for_timeout(2000)
    assert shown() == before
    page.unroute("**/solid")
    looks[-1].continue_()
    page.unroute("**/look")
    until(page, lambda: shown() != before)
    box(page, "cylinder.retracted").fill("27 1/4")
    until(page, lambda: "RETRACTED 27 1/4" in page.locator("#drawing svg").text_content())


def test_who_types_without_a_rest_sees_drawings_meanwhile_and_the_newest_at_the_end(page):
    """Keys come faster than drawings: one is shown now and then, and none that is older."""
    last = page.evaluate(WITHOUT_A_REST, 500)
    assert last < 27.5, "a drawing while somebody types, and another"
    until(page, lambda: f"{last:g}" in page.locator("#drawing svg").text_content())
    seen = page.evaluate("window.shown")
    assert seen == sorted(seen)
    box(page, "cylinder.retracted").fill("27 1/4")
    until(page, lambda: "RETRACTED 27 1/4" in page.locator("#drawing svg").text_content())


def test_the_strip_leads_with_the_field_that_most_checks_wait_for(page):
    until(page, lambda: page.locator("#strip .worst .link").count() == 1
          and "Go there" not in page.locator("#strip").text_content())  # fmt: skip
    told = page.locator("#strip .worst").text_content()
    assert told.startswith("Type next: ")
    assert "not known" not in told
    page.locator("#strip .worst .link").click()
    led = page.evaluate("document.activeElement.closest('.field').dataset.field")
    asked = [f for check in page.evaluate(WAITING) for f in check]
    assert asked.count(led) == max(asked.count(f) for f in asked)


def test_beside_the_package_stands_what_it_will_say_is_open(page):
    page.locator("#download summary").click()
    until(page, lambda: "still open or drawn by rule" in page.locator("#still").text_content())
    button = page.get_by_role("button", name="Package for a quote, ZIP")
    assert button.get_attribute("aria-describedby") == "still"
    page.keyboard.press("Escape")
    pressure = box(page, "cylinder.working_pressure")
    pressure.fill("9000 psi")
    until(page, lambda: "fail" in page.locator("#strip .verdict").first.text_content())
    page.locator("#download summary").click()
    until(page, lambda: "does not judge" in page.locator("#still").text_content())
    named = page.locator("#still .failing").all_text_contents()
    page.get_by_role("tab", name="Will it hold?").focus()
    page.keyboard.press("Enter")
    rows = page.locator("#other tr:has(.verdict.fails) td:first-child").all_text_contents()
    assert rows
    assert [n.partition(": ")[0] for n in named] == rows
    strip, worst = page.locator("#strip .worst"), page.locator("#other tr:has(.verdict.fails)")
    check, _, to = strip.text_content().partition(" fails")
    assert check.lower() == rows[0].lower(), "the strip names the check that its field is of"
    assert to.endswith(f"Change: {worst.first.locator('.link').first.text_content()}")
    page.set_viewport_size({"width": 1440, "height": 600})
    lies = page.locator("#formats").bounding_box()
    assert lies["y"] + lies["height"] <= 600, "what is long is scrolled, not cut off"
    page.set_viewport_size({"width": 1440, "height": 900})
    page.locator("#still .failing .link").first.click()
    assert page.locator("#download[open]").count() == 0
    led = page.evaluate("document.activeElement.closest('.field')?.dataset.field")
    assert led, "a check that fails leads to a field that would decide"
    page.get_by_role("tab", name="Views").click()
    pressure.fill("2500 psi")
    until(page, lambda: "fail" not in page.locator("#strip").text_content())


def test_a_note_leads_to_the_field_that_it_names(page):
    """Whoever types into boxes is not told a word of the file, but where to say it."""
    clock = box(page, "base_port.clock")
    box(page, "base_port.thread").fill("SAE-8")
    clock.fill("3:00")
    note = page.locator("[id='in-base_port.clock-note']")
    until(page, lambda: "no one viewpoint" in note.text_content())
    assert "_" not in note.text_content()
    note.locator(".link").click()
    led = page.evaluate("document.activeElement.id")
    assert led == "in-cylinder.clock_seen_from"
    box(page, "cylinder.clock_seen_from").select_option("rod")
    until(page, lambda: note.is_hidden())
    for name in ("base_port.thread", "base_port.clock"):
        box(page, name).fill("")
    box(page, "cylinder.clock_seen_from").select_option("")


def test_pin_and_hole_have_pictures_of_their_own(page):
    for end in ("body_mount", "rod_mount"):
        pin, hole = (page.locator(f"[data-field='{end}.{n}'] .picture") for n in ("pin", "hole"))
        until(page, lambda p=pin: p.locator(".pin").count() == 1)
        assert hole.locator(".pin").count() == 0
        assert hole.locator(".size").count() == 1


def test_of_a_file_that_was_changed_elsewhere_both_texts_are_shown(page):
    path = page.path
    box(page, "cylinder.stroke").fill("17 1/2")
    until(page, lambda: "Not in the file yet" in page.locator("#kept").text_content())
    before = path.read_text(encoding="utf-8")
    path.write_text(before.replace("# all of it", "# seen by the other"), encoding="utf-8")
    page.wait_for_selector("#conflict .sides")
    marked = page.locator("#conflict mark").all_text_contents()
    assert any("17 1/2" in m for m in marked)
    assert any("seen by the other" in m for m in marked)
    assert not any("[rod_mount]" in m for m in marked)
    assert path.read_text(encoding="utf-8") == before.replace("# all of it", "# seen by the other")
    for _ in range(2):  # who loads the page anew has still to say which stays
        page.reload()
        page.wait_for_selector("#conflict .sides")
    page.get_by_role("button", name="Write what is here into winch.toml").click()
    until(page, lambda: page.locator("#kept").text_content().startswith("Saved"))
    assert 'stroke = "17 1/2"' in path.read_text(encoding="utf-8")
    assert page.locator("#conflict").is_hidden()
