"""Equal bytes on other processors: with other vector instructions, and with other last bits.

The C library of Linux (glibc) has its sines with and without fused multiply-add; which one runs is
told by GLIBC_TUNABLES (https://sourceware.org/glibc/manual/latest/html_node/Hardware-Capability-
Tunables.html). What the kernel writes differs then, and what we write does not.
"""

from __future__ import annotations

import os
import platform
import subprocess
import sys
from math import cos, dist, pi, sin
from pathlib import Path
from random import Random

import pytest

from drafting.solids.part21 import Entity
from drafting.solids.steady import steadied
from drafting.solids.triangles import settled

ROOT = Path(__file__).parents[2]
WITHOUT = "glibc.cpu.hwcaps=-AVX2,-FMA,-AVX512F,-AVX2_Usable,-FMA_Usable"
PROBE = """
import hashlib, sys
from drafting.model.load import load, read
from drafting.solids.kernel_text import kernel_text
from drafting.solids.products import groups
from drafting.solids.write_glb import glb_bytes
from tests.solids.as_step import step_bytes
c = load(read(sys.argv[1]))
raw = kernel_text(groups(c.name, c.parts))[0].partition("DATA;")[2].encode()
ours = [write(c.name, c.parts, "retracted", {}) for write in (step_bytes, glb_bytes)]
print(*(hashlib.sha256(data).hexdigest() for data in (raw, *ours)))
"""
LINUX = sys.platform == "linux" and platform.machine() == "x86_64"
HAS = LINUX and " fma " in Path("/proc/cpuinfo").read_text(encoding="ascii", errors="replace")


@pytest.mark.skipif(not HAS, reason="one set of instructions only")
@pytest.mark.parametrize("spec", ["log-grapple", "pulp-press"])
def test_another_set_of_instructions_gives_the_same_bytes(spec: str) -> None:
    with_fma, without = (hashes(spec, tunables) for tunables in ("", WITHOUT))
    assert with_fma[0] != without[0], "the kernel itself writes other numbers"
    assert with_fma[1:] == without[1:]


def hashes(spec: str, tunables: str) -> list[str]:
    run = subprocess.run(
        [sys.executable, "-c", PROBE, str(ROOT / "specs" / f"{spec}.toml")],
        capture_output=True,
        text=True,
        check=True,
        cwd=ROOT,
        env={**os.environ, "GLIBC_TUNABLES": tunables},
    )
    return run.stdout.split()


def fitted(noise: Random | None) -> dict[int, Entity]:
    """A curve of eight poles, an edge on it, and a corner of its own, each off by up to 5e-10."""

    def number(value: float) -> str:
        return f"{value + (noise.uniform(-5e-10, 5e-10) if noise else 0.0):.10f}"

    spots = [(71.76988337 + k, 2.61112709 * k, -44.3742365) for k in range(8)]
    spots.append((0.396875, 0.0, 9.0))
    out = {
        k + 1: Entity((f"CARTESIAN_POINT('',({','.join(map(number, p))}))",), [])
        for k, p in enumerate(spots)
    }
    poles = ("B_SPLINE_CURVE_WITH_KNOTS('',7,(", *[","] * 7)
    knots = f"),.UNSPECIFIED.,.F.,.F.,(8,6,8),(0.,{number(0.3275458727)},1.),.UNSPECIFIED.)"
    out[10] = Entity((*poles, knots), list(range(1, 9)))
    out |= {k: Entity(("VERTEX_POINT('',", ")"), [p]) for k, p in ((11, 1), (12, 8), (13, 9))}
    out[14] = Entity(("EDGE_CURVE('',", ",", ",", ",.T.)"), [11, 12, 10])
    return out


def test_a_fitted_curve_is_rounded_between_its_ends_and_nothing_else() -> None:
    out = steadied(fitted(None))
    assert out[2].texts == ("CARTESIAN_POINT('',(72.76988,2.61113,-44.37424))",)
    assert out[1].texts == ("CARTESIAN_POINT('',(71.7698833700,0.,-44.3742365000))",)
    assert out[9].texts == ("CARTESIAN_POINT('',(0.3968750000,0.,9.0000000000))",)
    assert "(8,6,8),(0.,0.327546,1.)" in out[10].texts[-1]
    assert "',7,(" in out[10].texts[0]


@pytest.mark.parametrize("seed", range(20))
def test_other_last_bits_give_the_same_text(seed: int) -> None:
    noisy = fitted(Random(seed))
    assert noisy[1] != fitted(None)[1]
    out, same = steadied(noisy), steadied(fitted(None))
    for k in (*range(2, 8), 10):
        assert out[k].texts == same[k].texts


# --- triangles ---------------------------------------------------------------------------------

RING = [(10 * cos(2 * pi * k / 7), 10 * sin(2 * pi * k / 7), 3.0) for k in range(7)]


def fan(start: int) -> list[tuple[int, int, int]]:
    return [((start), (start + k) % 7, (start + k + 1) % 7) for k in range(1, 6)]


def test_a_disc_has_one_triangulation_whatever_it_came_with() -> None:
    want = [(0, k, k + 1) for k in range(1, 6)]
    for start in range(7):
        assert settled(RING, fan(start)) == want
        shuffled = [t[1:] + t[:1] for t in fan(start)]
        Random(start).shuffle(shuffled)
        assert settled(RING, shuffled) == want


def test_what_is_no_tie_stays() -> None:
    flat = [(0.0, 0.0, 0.0), (4.0, 0.1, 0.0), (8.0, 0.0, 0.0), (4.0, 2.0, 0.0)]
    for t in ([(0, 1, 3), (1, 2, 3)], [(0, 1, 2), (0, 2, 3)]):
        assert settled(flat, t) == t


def test_no_area_is_lost() -> None:
    """Seven corners on a circle: 7/2 r^2 sin(2 pi / 7)."""
    for start in range(7):
        area = sum(_area(*(RING[k] for k in t)) for t in settled(RING, fan(start)))
        assert area == pytest.approx(3.5 * 100 * sin(2 * pi / 7))


def _area(a, b, c):  # Heron
    p, q, r = dist(a, b), dist(b, c), dist(c, a)
    s = (p + q + r) / 2
    return max(s * (s - p) * (s - q) * (s - r), 0.0) ** 0.5
