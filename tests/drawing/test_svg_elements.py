"""What svgwrite loads late is there when it is called; its own checks are the reference."""

import subprocess
import sys

SCRIPT = """
import sys
from drafting.drawing.write.svg_elements import package
svg = package()
late = {"urllib.request", "svgwrite.data.svgparser"}
assert not late & set(sys.modules), late & set(sys.modules)
print(svg.path.Path("M 0,0 L 1,2", debug=True).tostring())
assert "svgwrite.data.svgparser" in sys.modules
try:
    svg.path.Path("M 0 x", debug=True).tostring()
except TypeError:
    print("refused")
"""


def test_checks_that_wait_until_they_are_called_still_check():
    done = subprocess.run(
        [sys.executable, "-c", SCRIPT], capture_output=True, text=True, timeout=60
    )
    assert done.stdout.split("\n")[:2] == ['<path d="M 0,0 L 1,2" />', "refused"], done.stderr
