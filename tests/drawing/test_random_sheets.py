"""Random legal specs, drawn: the inspector finds nothing.

The specs are those of ``tests/legal_specs.py``, over every pair of mounts and both shells, from a
fixed start; ``DRAFTING_WIDE=1`` draws 500 of them. That the inspector finds such things is shown in
``test_inspect.py``.
"""

import json
import random
import subprocess
import sys
from collections import Counter
from functools import cache
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, given, seed, settings

from drafting.drawing.compose.choose import compose
from drafting.drawing.inspect.inspect import inspect
from drafting.drawing.of_cylinder import sheet_job
from drafting.model.catalog import mounts_by_end
from drafting.model.load import load
from drafting.spec.check import read_spec
from tests.conftest import WIDE
from tests.legal_specs import legal_specs
from tests.mount_words import BODY, ROD

ROOT = Path(__file__).parents[2]
COUNT = 500 if WIDE else 60
GROUP = 10


def texts(start, count):
    """Specs over every pair of mounts in turn; the start says which pairs and which sizes."""
    rng = random.Random(start)
    pairs = [(b, r) for b in BODY for r in ROD]
    rng.shuffle(pairs)
    for k in range(count):
        body, rod = pairs[k % len(pairs)]
        yield one(body, rod, rng.choice(("welded", "welded", "tie rod")), rng.randrange(10**9))


def one(body, rod, construction, start):
    found = []

    @seed(start)
    @settings(
        max_examples=4,
        deadline=None,
        database=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(legal_specs(body, rod, construction))
    def draw(text):
        found.append(text)

    draw()
    return threaded(found[-1])


def threaded(text):
    """Rods of odd diameters have no thread in a table: one is typed."""
    for word, thread in (("male thread", "M20x1.5"), ("female thread", "M12x1.25")):
        mount = f'mount = "{word}"'
        text = text.replace(mount, f'{mount}\nthread = "{thread}"\nthread_length = "25 mm"')
    return text


@cache
def all_texts():
    """Drawn in a process of its own: hypothesis takes numbers from whatever modules are loaded."""
    code = (
        "import json; from tests.drawing.test_random_sheets import texts; "
        f"print(json.dumps([*texts(20261125, {COUNT})]))"
    )
    run = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, check=True, text=True
    )
    return tuple(json.loads(run.stdout))


@pytest.mark.parametrize("first", range(0, COUNT, GROUP))
def test_nothing_touches_on_random_sheets(first):
    broken: Counter[bool] = Counter()
    for text in all_texts()[first : first + GROUP]:
        cylinder = load(read_spec(text.encode(), mounts=mounts_by_end(), file="trial.toml"))
        job = sheet_job(cylinder)
        sheet = compose(job)
        found = [(f.code, f.field, f.message) for f in inspect(sheet, job)]
        assert not found, text
        broken[any(v.whole for v in sheet.views)] += 1
    assert sum(broken.values()) == len(all_texts()[first : first + GROUP])
