"""A page that is served to Chromium, and small helps to use it as a person does."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from contextlib import contextmanager

import pytest

from tests.viewing.test_in_a_browser import QUIET, SOFT

CHROMIUM = shutil.which("chromium")
NEEDED = pytest.mark.skipif(CHROMIUM is None, reason="chromium is not installed")
WAIT = 60_000


@contextmanager
def served(*files, **more):
    """The page of one run of the tool: its address."""
    command = [sys.executable, "-m", "drafting", "page", *map(str, files), "--no-open"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True,
                          env={**os.environ, **more}) as served:  # fmt: skip
        try:
            yield served.stdout.readline().strip()
        finally:  # a test that fails shall say so, not wait for a page that nobody stops
            served.terminate()
        assert served.stdout.read() == ""


@contextmanager
def chromium(api, solid=True):
    """A browser; where no ``solid`` is looked at it has no 3D, which software draws slowly.

    The page itself is painted as on a machine without a graphics card: to play one in software for
    letters and lines took a second of processor for each change.
    """
    with api.sync_playwright() as play:
        more = (*SOFT, "--disable-gpu-compositing") if solid else ("--disable-3d-apis",)
        started = play.chromium.launch(executable_path=CHROMIUM, args=[*QUIET, *more])
        yield started
        started.close()


@contextmanager
def shop(made, text, solid=True):
    """A browser, and the address of the page of a file of its own, which holds ``text``.

    ``made`` makes folders; without a text there is no file.
    """
    api = pytest.importorskip("playwright.sync_api")
    files = []
    if text:
        files = [made.mktemp("shop") / "winch.toml"]
        files[0].write_text(text, encoding="utf-8")
    with served(*files) as address, chromium(api, solid) as browser:
        yield browser, address, *files


@contextmanager
def at_work(made, text):
    """The page of a file of its own with its drawing; the file is its ``path``."""
    with shop(made, text) as (browser, address, path):
        page = opened(browser, address)
        page.path = path
        page.wait_for_selector("#drawing svg")
        yield page
        assert complaints(page) == []


def opened(browser, address, **how):
    """A page of its own, with all that the browser had to say about it in ``said``."""
    page = browser.new_context(**{"viewport": {"width": 1440, "height": 900}, **how}).new_page()
    page.set_default_timeout(WAIT)
    page.said = []
    page.on("console", lambda m: page.said.append(m.text))
    page.on("pageerror", lambda e: page.said.append(str(e)))
    page.goto(address)
    return page


def box(page, name):
    return page.locator(f"[id='in-{name}']")


def length(page, word):
    return page.locator(f"[data-length={word}]")


def until(page, true):
    """Wait until something is so; the page's own policy lets no script be read from a string."""
    for _ in range(WAIT // 50):
        if true():
            return
        page.wait_for_timeout(50)
    said = [page.locator(at).text_content() for at in ("#strip", "#kept", "#conflict", "#next")]
    raise AssertionError(f"it never came to be: {said} {page.said}")


def complaints(page):
    return [w for w in page.said if "WebGL" not in w and "GPU" not in w]
