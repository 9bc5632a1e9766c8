"""How fast the local page is, seen by a browser. Not a test.

    python tests/bench/page.py [SPEC] [--changes 30]

Tells, with the machine's load beside it: how long after the process began the form is on the page;
how long after a key the first view's lines have followed, and at the 50th and 95th percentile the
whole drawing; how long after the
drawing the solid has, the kernel being loaded; and, so that a busy machine says so, how long plain
Python takes to start in the same run, and this browser to show a page of one line. Needs Chromium.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
import time
from pathlib import Path
from statistics import median, quantiles

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from tests.web.browser import box, chromium, opened  # noqa: E402

LIMITS = {"first": 0.5, "drawing": 0.15, "solid": 0.4}
"""Seconds that are wanted of a quiet machine."""
AFTER_A_KEY = """([name, value]) => new Promise((done) => {
  const start = performance.now(), told = document.documentElement.dataset;
  const was = told.drawn, lines = told.outlined, since = () => performance.now() - start;
  let outlined = null;
  const input = document.getElementById(`in-${name}`);
  new MutationObserver((_, watch) => {
    if (told.outlined !== lines) requestAnimationFrame(() => { outlined ??= since(); });
    if (told.drawn === was) return;
    watch.disconnect();
    requestAnimationFrame(() => done([outlined ?? since(), since()]));
  }).observe(document.documentElement, { attributes: true });
  input.value = value;
  input.dispatchEvent(new Event("input"));
})"""
AFTER_IT_RESTS = """() => new Promise((done) => {
  const start = performance.now(), was = document.documentElement.dataset.solid;
  const look = () => document.documentElement.dataset.solid !== was
    ? done(performance.now() - start) : setTimeout(look, 10);
  look();
})"""


def plain() -> float:
    """Give how long Python takes to start, the best of three: what this machine has to give."""
    found = []
    for _ in range(3):
        begin = time.perf_counter()
        subprocess.run([sys.executable, "-c", "pass"], check=True)
        found.append(time.perf_counter() - begin)
    return min(found)


def one_line(browser: object) -> float:
    """Give how long a page of one line takes in this browser, the best of three."""
    found = []
    for _ in range(3):
        page = opened(browser, "about:blank")
        page.route("http://line.test/", lambda r: r.fulfill(body="<p>.", content_type="text/html"))
        begin = time.perf_counter()
        page.goto("http://line.test/")
        page.wait_for_selector("p", state="attached")
        found.append(time.perf_counter() - begin)
        page.close()
    return min(found)


def first_page(browser: object, spec: str) -> tuple[float, float, object, subprocess.Popen[str]]:
    """Start the tool and open its page; give when its address and when its form were there."""
    page = opened(browser, "about:blank")
    begin = time.perf_counter()
    command = [sys.executable, "-m", "drafting", "page", spec, "--no-open", "--port", "0"]
    served = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
    assert served.stdout is not None
    address = served.stdout.readline().strip()
    told = time.perf_counter() - begin
    page.goto(address)
    page.wait_for_selector("#form .field", state="attached")
    return told, time.perf_counter() - begin, page, served


def main() -> int:
    """Measure and tell; 1 when something is over what is wanted."""
    asked = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    asked.add_argument("spec", nargs="?", default=str(ROOT / "specs" / "hatch-clamp.toml"))
    asked.add_argument("--changes", type=int, default=30)
    options = asked.parse_args()
    from playwright import sync_api

    bare = plain()
    with chromium(sync_api) as browser:
        empty = one_line(browser)  # the browser itself is warm now, as a person's is
        told, first, page, served = first_page(browser, options.spec)
        begin = time.perf_counter()
        page.wait_for_selector("#drawing svg")
        whole = first + time.perf_counter() - begin
        page.wait_for_selector("html[data-solid]", state="attached")
        field = "cylinder.retracted"
        length = float(page.locator("[data-length=retracted]").get_attribute("data-mm"))
        lines, drawn = [], []
        for k in range(options.changes):
            longer = f"{length + 1 + k * 37 % 64:g} mm"
            moved, whole_again = page.evaluate(AFTER_A_KEY, [field, longer])
            lines.append(moved / 1000)
            drawn.append(whole_again / 1000)
            page.wait_for_timeout(60)
        solids = []
        for k in range(5):
            page.wait_for_timeout(1500)
            page.evaluate(AFTER_A_KEY, [field, f"{length + 70 + k:g} mm"])
            solids.append(page.evaluate(AFTER_IT_RESTS) / 1000)
        typed = box(page, field).input_value()
        served.terminate()
    far = quantiles(drawn, n=20)[-1]
    rows = [
        ("a page of one line, in this browser", empty, None),
        ("address printed", told, None),
        ("form on the page, from the start", first, LIMITS["first"]),
        ("drawing on the page, from the start", whole, None),
        ("first outlines after a key, half", median(lines), None),
        ("drawing after a key, half of them", median(drawn), None),
        ("drawing after a key, 95 of 100", far, LIMITS["drawing"]),
        ("solid after the drawing", median(solids), LIMITS["solid"]),
    ]
    print(
        f"load {os.getloadavg()[0]:.1f}, plain Python starts in {bare * 1000:.0f} ms; {typed} typed"
    )
    for words, seconds, limit in rows:
        wanted = f"wanted {limit * 1000:.0f}" if limit else ""
        print(f"{words:36}{seconds * 1000:8.0f} ms {seconds / bare:7.1f} x   {wanted}")
    return int(any(limit is not None and s > limit for _, s, limit in rows))


if __name__ == "__main__":
    sys.exit(main())
