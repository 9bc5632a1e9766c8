"""What every test shares: where the random ones start.

In the gate each random test starts from a fixed point, so that a change is judged by what it
changed. ``DRAFTING_WIDE=1`` starts them elsewhere each week and tries more.
"""

import datetime
import os

import hypothesis
from hypothesis import core

WIDE = os.environ.get("DRAFTING_WIDE") == "1"

hypothesis.settings.register_profile("gate", derandomize=True, deadline=None)
hypothesis.settings.register_profile("wide", max_examples=500, deadline=None)


def pytest_configure() -> None:
    hypothesis.settings.load_profile("wide" if WIDE else "gate")
    if WIDE:
        year, week, _ = datetime.date.today().isocalendar()
        core.global_force_seed = year * 100 + week


def pytest_report_header() -> str:
    seed = core.global_force_seed
    return f"random tests: {f'wide, seed {seed}' if WIDE else 'from a fixed start'}"
