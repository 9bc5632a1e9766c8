"""What a start pays for: help and check load no drawing library, a drawing loads no CAD kernel."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
SPEC = ROOT / "specs" / "weir-gate.toml"
HEAVY = {"cadquery", "OCP", "ezdxf", "reportlab", "numpy", "pydantic", "pint"}
KERNEL = {"cadquery", "OCP"}

PROBE = """
import json, sys
from drafting.cli import main
sys.stdout = sys.stderr
code = main({argv!r})
print(json.dumps([code, sorted({{m.split(".")[0] for m in sys.modules}})]), file=sys.__stdout__)
"""


def modules_after(*argv):
    run = subprocess.run(
        [sys.executable, "-c", PROBE.format(argv=list(argv))],
        capture_output=True,
        text=True,
        cwd=ROOT,
        check=True,
    )
    code, names = json.loads(run.stdout.splitlines()[-1])
    return code, set(names)


@pytest.mark.parametrize("argv", [["--help"], ["draw", "--help"], ["check", str(SPEC)]])
def test_help_and_check_stay_light(argv):
    code, names = modules_after(*argv)
    assert code in (0, 1)
    assert names & HEAVY == set()


def test_drawing_without_solids_never_loads_the_kernel(tmp_path):
    code, names = modules_after(
        "draw", str(SPEC), "--formats", "svg,pdf,dxf,json", "-o", str(tmp_path)
    )
    assert code == 0
    assert names & KERNEL == set()
    assert "ezdxf" in names, "the probe sees what was loaded"
