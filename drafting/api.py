"""What script users call, beside ``read`` and ``load``."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from drafting.checks.check import Check
from drafting.model.cylinder import Cylinder

if TYPE_CHECKING:
    from drafting.replacing.judge import Comparison


def draw(
    cylinder: Cylinder,
    formats: Sequence[str] = ("dxf", "svg", "pdf", "step", "json"),
    folder: str | Path = "output",
) -> tuple[Path, ...]:
    """Draw a cylinder and write its files, whole or not at all; gives their paths.

    ``formats`` are any of dxf, svg, pdf, step, glb and json. Raises OutputFailed.
    """
    from drafting.files import write_all
    from drafting.jobs.draw import How, draw_cylinder

    drawn = draw_cylinder(cylinder, How(tuple(formats)))
    files = {Path(folder) / name: data for name, data in drawn.files.items()}
    write_all(files)
    return tuple(files)


def solid(cylinder: Cylinder, extension: float = 0.0) -> Any:
    """Give a ``cadquery.Assembly`` of a cylinder, its rod moved out by ``extension`` mm."""
    from drafting.solids.assembly import assembly

    return assembly(cylinder.at(extension), cylinder.name)


def check(cylinder: Cylinder) -> tuple[Check, ...]:
    """Give every check of a cylinder with its verdict; ``ok`` is None where there is none."""
    from drafting.checks.of_cylinder import judge

    return judge(cylinder).checks


def compare(original: Cylinder | str | Path, candidate: Cylinder | str | Path) -> Comparison:
    """Compare a cylinder with one that is to take its place.

    Either is a loaded cylinder, or the path of a spec, of an output made from one, or of readings.
    ``verdict`` is that on the whole, ``rows`` have one judgement each, ``jobs`` what is to be done.
    Raises Refused.
    """
    from drafting.jobs.compare import taken
    from drafting.replacing.judge import compare as judged
    from drafting.replacing.known import subject

    old, new = (
        c if isinstance(c, Cylinder) else taken(Path(c)).cylinder for c in (original, candidate)
    )
    return judged(subject(old), subject(new))


def report(cylinder: Cylinder, full: bool = False) -> str:
    """Give the report that ``drafting check`` prints; ``full`` as with ``--full``."""
    from drafting.checks.of_cylinder import judge
    from drafting.reports.text import report as words

    return words(cylinder, judge(cylinder), full)
