"""The HTML file in Chromium, from the disk, with the network off."""

from __future__ import annotations

import json
import shutil
from io import BytesIO

import pytest
from pypdf import PdfReader

from drafting.jobs.draw import How, draw_one
from tests.viewing.test_one_file import SPEC

CHROMIUM = shutil.which("chromium")
SOFT = ("--use-gl=angle", "--use-angle=swiftshader", "--enable-unsafe-swiftshader")
QUIET = ("--no-sandbox", "--disable-quic", "--disable-background-networking",
         "--disable-component-update", "--disable-sync")  # fmt: skip
pytestmark = pytest.mark.skipif(CHROMIUM is None, reason="chromium is not installed")
WAIT = 90_000


@pytest.fixture(scope="module")
def path(tmp_path_factory):
    out = tmp_path_factory.mktemp("stick") / "WW-0417.html"
    out.write_bytes(draw_one(SPEC, How(("html",))).files["WW-0417.html"])
    return out


@pytest.fixture(scope="module")
def play():
    api = pytest.importorskip("playwright.sync_api")
    with api.sync_playwright() as started:
        yield started


@pytest.fixture(scope="module")
def browser(play):
    started = play.chromium.launch(executable_path=CHROMIUM, args=[*QUIET, *SOFT])
    yield started
    started.close()


def opened(browser, path, **more):
    context = browser.new_context(offline=True, accept_downloads=True, **more)
    page = context.new_page()
    page.said = []
    page.on("console", lambda m: page.said.append(m.text))
    page.on("pageerror", lambda e: page.said.append(str(e)))
    page.asked = []
    page.on("request", lambda r: page.asked.append(r.url))
    page.goto(path.as_uri())
    return page


@pytest.fixture(scope="module")
def page(browser, path):
    page = opened(browser, path)
    page.wait_for_selector("html[data-solid=shown]", timeout=WAIT)
    return page


def ink(page):
    """Give how many dots of the canvas are not empty."""
    return page.evaluate(
        """() => { const c = document.querySelector('.stage canvas');
        const d = document.createElement('canvas'); d.width = c.width; d.height = c.height;
        const g = d.getContext('2d'); g.drawImage(c, 0, 0);
        const p = g.getImageData(0, 0, d.width, d.height).data; let right = 0, n = 0;
        for (let i = 3; i < p.length; i += 4) if (p[i] > 40) {
          n++; right = Math.max(right, (i >> 2) % d.width); }
        return [n, right]; }"""
    )


def test_the_lengths_and_the_rod_follow_the_slider_and_the_keyboard(page):
    out, slider = page.locator(".slide output"), page.locator(".slide input")
    slider.focus()
    page.keyboard.press("Home")
    assert out.text_content() == "out 0 in (0.0 mm), between datums 27 1/4 in (692.2 mm)"
    page.wait_for_timeout(300)
    closed = ink(page)
    page.keyboard.press("End")
    assert out.text_content() == "out 16 in (406.4 mm), between datums 43 1/4 in (1098.6 mm)"
    page.wait_for_timeout(300)
    opened_ = ink(page)
    assert closed[0] > 500
    assert opened_[1] > closed[1] + 50


AGAIN = """async () => {
  const id = JSON.parse(document.querySelector("#told").textContent).glb;
  const packed = Uint8Array.from(atob(document.getElementById(id).textContent), (c) => c.charCodeAt(0));
  const glb = await new Response(new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"))).arrayBuffer();
  const shown = () => Solid.show(document.createElement("canvas"), glb, 100);
  const first = shown(), plain = JSON.stringify(first.view());
  first.turn(0, 1, 0.2);
  const turned = first.view(), next = shown();
  next.view(turned);
  return [plain, JSON.stringify(turned), JSON.stringify(next.view())];
}"""  # noqa: E501


def test_a_next_solid_is_seen_from_where_the_last_one_was(page):
    plain, turned, after = (json.loads(w) for w in page.evaluate(AGAIN))
    assert turned != plain
    assert after["zoom"] == turned["zoom"]
    for axis in "xyz":
        assert after["eye"][axis] == pytest.approx(turned["eye"][axis], abs=1e-6)
        assert after["at"][axis] == pytest.approx(turned["at"][axis], abs=1e-6)


HOURS = """async () => {
  const id = JSON.parse(document.querySelector("#told").textContent).glb;
  const packed = Uint8Array.from(atob(document.getElementById(id).textContent), (c) => c.charCodeAt(0));
  const glb = await new Response(new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"))).arrayBuffer();
  const canvas = document.createElement("canvas");
  canvas.style = "position:fixed;inset:0;width:400px;height:400px";
  document.body.append(canvas);
  const shown = Solid.show(canvas, glb, 100), frame = () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
  const dots = async () => {
    await frame();
    const flat = Object.assign(document.createElement("canvas"), { width: 400, height: 400 }), pen = flat.getContext("2d");
    pen.drawImage(canvas, 0, 0, 400, 400);
    const d = pen.getImageData(0, 0, 400, 400).data;
    return [...Array(160000).keys()].filter((k) => d[4 * k + 3] > 0);
  };
  shown.turn(1, 0, 0);
  const before = new Set(await dots());
  shown.clock("rod");
  const more = (await dots()).filter((k) => !before.has(k)).map((k) => [k % 400 - 200, Math.floor(k / 400) - 200]);
  canvas.remove();
  const side = ([x, y]) => Math.abs(x) > Math.abs(y) ? (x > 0 ? 3 : 9) : y < 0 ? 12 : 6;
  const wide = (h) => { const xs = more.filter((p) => side(p) === h).map(([x]) => x); return xs.length ? Math.max(...xs) - Math.min(...xs) : 0; };
  return [12, 3, 6, 9].map(wide);
}"""  # noqa: E501


def test_hours_stand_round_the_end_that_they_are_read_from(page):
    """From that end 12 is up and alone has two figures; the others stand on the other sides."""
    twelve, *others = page.evaluate(HOURS)
    assert all(3 < wide < 0.8 * twelve for wide in others)


def test_it_asked_for_nothing_and_said_nothing(page, path):
    assert page.said == []
    assert set(page.asked) == {path.as_uri()}


def test_a_file_inside_comes_out_whole(page, tmp_path):
    with page.expect_download() as waiting:
        page.locator("[data-name='WW-0417.toml']").click()
    waiting.value.save_as(tmp_path / "out.toml")
    assert (tmp_path / "out.toml").read_bytes() == SPEC.encode()


def test_pages_turn_zoom_and_go_back(page):
    sheets = page.locator(".sheets > div")
    page.get_by_role("button", name="sheet 2").click()
    assert [sheets.nth(k).is_visible() for k in (0, 1)] == [False, True]
    page.get_by_role("button", name="zoom in").click()
    assert "scale(1.4)" in sheets.nth(1).get_attribute("style")
    page.get_by_role("button", name="fit", exact=True).click()
    assert "scale(1)" in sheets.nth(1).get_attribute("style")
    page.get_by_role("button", name="drawing", exact=True).click()


def test_it_prints_as_its_sheets(page):
    pages = PdfReader(BytesIO(page.pdf(prefer_css_page_size=True))).pages
    sizes = [(float(p.mediabox.width), float(p.mediabox.height)) for p in pages]
    assert len(sizes) == page.locator(".sheets > div").count()
    assert sizes[0] == pytest.approx((17 * 72, 11 * 72), abs=1)
    assert all(s == pytest.approx((612, 792), abs=1) for s in sizes[1:])


def test_a_phone_has_no_sideways_scrolling(browser, path):
    page = opened(browser, path, viewport={"width": 390, "height": 844}, is_mobile=True)
    assert page.evaluate("document.documentElement.scrollWidth") <= 391


def test_without_webgl_there_is_a_still_picture(play, path):
    plain = play.chromium.launch(executable_path=CHROMIUM, args=[*QUIET, "--disable-3d-apis"])
    page = opened(plain, path)
    page.wait_for_selector(".still:not([hidden]) svg", timeout=WAIT)
    assert page.locator(".stage canvas").is_hidden()
    plain.close()
