"""How fast the local page is, seen by a browser. Not a test.

    python tests/bench/page.py [SPEC] [--changes 30]

Tells, with the machine's load beside it: how long after the process began the form is on the page;
how long after a key the first view's lines have followed, and at the 50th and 95th percentile the
whole drawing; how long after the drawing the solid has, the kernel being loaded. So that a busy
machine says so, each stands also in starts of plain Python and in pages of one line of this browser
in the same run, and with it what processor time the tool took. The form counts as painted, by the
page's own clock: who looks on from outside sees it a quarter of a second later. Needs Chromium.
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

PAINTED = """document.addEventListener("DOMContentLoaded", () => {
  const look = () => {
    if (!document.querySelector("WANTED")) { setTimeout(look, 5); return; }
    requestAnimationFrame(() => setTimeout(() => {
      document.documentElement.dataset.painted = performance.timeOrigin + performance.now();
    }));
  };
  look();
});"""
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


def plain() -> tuple[float, float]:
    """Give how long Python takes to start, the best of five, and its usual processor time."""
    found = []
    for _ in range(5):
        begin, used = time.perf_counter(), os.times()
        subprocess.run([sys.executable, "-c", "pass"], check=True)
        now = os.times()
        spent = now.children_user + now.children_system - used.children_user - used.children_system
        found.append((time.perf_counter() - begin, spent))
    return min(f[0] for f in found), median(f[1] for f in found)


def processor(pid: int) -> float:
    """Give the processor time of a process and its children so far; 0 where nobody tells it."""
    try:
        words = Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()
        below = Path(f"/proc/{pid}/task/{pid}/children").read_text().split()
    except OSError:
        return 0.0
    own = (int(words[11]) + int(words[12])) / os.sysconf("SC_CLK_TCK")
    return own + sum(processor(int(child)) for child in below)


def painted(page: object, address: str, wanted: str) -> float:
    """Go to an address; give the time of day at which what is ``wanted`` was painted."""
    page.add_init_script(PAINTED.replace("WANTED", wanted))
    page.goto(address)
    page.wait_for_selector("html[data-painted]", state="attached")
    return float(page.locator("html").get_attribute("data-painted")) / 1000


def rested(browser: object) -> object:
    """Give an empty page of a browser that has nothing left to do."""
    page = opened(browser, "about:blank")
    page.wait_for_timeout(1500)
    return page


def one_line(browser: object) -> float:
    """Give how long a page of one line takes in this browser, the best of three."""
    found = []
    for _ in range(3):
        page = rested(browser)
        page.route("http://line.test/", lambda r: r.fulfill(body="<p>.", content_type="text/html"))
        begin = time.time()
        found.append(painted(page, "http://line.test/", "p") - begin)
        page.close()
    return min(found)


def first_page(browser: object, spec: str) -> tuple[float, float, object, subprocess.Popen[str]]:
    """Start the tool and open its page; give when its address and when its form were there."""
    page = rested(browser)
    begin = time.time()
    command = [sys.executable, "-m", "drafting", "page", spec, "--no-open", "--port", "0"]
    served = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
    assert served.stdout is not None
    address = served.stdout.readline().strip()
    told = time.time() - begin
    return told, painted(page, address, "#form .field") - begin, page, served


def main() -> int:
    """Measure and tell; 1 when something is over what is wanted."""
    asked = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    asked.add_argument("spec", nargs="?", default=str(ROOT / "specs" / "hatch-clamp.toml"))
    asked.add_argument("--changes", type=int, default=30)
    options = asked.parse_args()
    from playwright import sync_api

    bare, bare_used = plain()
    with chromium(sync_api) as browser:
        empty = one_line(browser)
        told, first, page, served = first_page(browser, options.spec)
        begin = time.perf_counter()
        page.wait_for_selector("#drawing svg")
        whole = first + time.perf_counter() - begin
        page.wait_for_selector("html[data-solid]", state="attached")
        page.wait_for_timeout(1500)
        field = "cylinder.retracted"
        length = float(page.locator("[data-length=retracted]").get_attribute("data-mm"))
        lines, drawn = [], []
        used = processor(served.pid)
        for k in range(options.changes):
            longer = f"{length + 1 + k * 37 % 64:g} mm"
            moved, whole_again = page.evaluate(AFTER_A_KEY, [field, longer])
            lines.append(moved / 1000)
            drawn.append(whole_again / 1000)
            page.wait_for_timeout(60)
        used = (processor(served.pid) - used) / options.changes
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
        ("form painted, from the start", first, LIMITS["first"]),
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
        print(
            f"{words:36}{seconds * 1000:8.0f} ms {seconds / bare:7.1f} starts "
            f"{seconds / empty:6.1f} lines   {wanted}"
        )
    print(f"processor of a change {used * 1000:.0f} ms, {used / bare_used:.1f} starts of Python")
    return int(any(limit is not None and s > limit for _, s, limit in rows))


if __name__ == "__main__":
    sys.exit(main())
