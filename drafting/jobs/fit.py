"""The files that ``fit`` writes."""

from __future__ import annotations

from pathlib import Path

from drafting.fitting.fit import Fit
from drafting.fitting.suggestion import Suggestions
from drafting.fitting.travel import extremes, span

FORMATS = ("svg", "pdf", "dxf")


def fit_files(f: Fit, places: Suggestions | None = None) -> dict[str, bytes]:
    """Give the files of an answer by their names: the page, and the cylinder in the machine."""
    from drafting.drawing.write.writers import write
    from drafting.fitting.page import mechanism

    name = f.subject.cylinder.name
    files: dict[str, bytes] = {}
    sheet = mechanism(f, places)
    for word in FORMATS:
        files |= write(sheet, word, f"{name}-mechanism").files
    if f.room is not None and f.room.looked:
        files[f"{name}-in-machine.step"] = _in_machine(f)
    return files


def _in_machine(f: Fit) -> bytes:
    """Give the cylinder where it is shortest and where it is longest on the travel."""
    from drafting.fitting.poses import cylinder_poses
    from drafting.solids.in_machine import Rows, Stand, in_machine_step

    assert f.room is not None
    stands = []
    for word, p in zip(("closed", "open"), extremes(f.machine.way, *span(f.machine.way)),
                       strict=True):  # fmt: skip
        rows: list[Rows] = [
            tuple(tuple(float(v) for v in row) for row in pose[:3])
            for pose in cylinder_poses(f.subject, f.room.seat, p)
        ]
        stands.append(Stand(word, *rows))
    c = f.subject.cylinder
    return in_machine_step(c.name, c.parts, stands)


def write_fit(f: Fit, folder: Path, places: Suggestions | None = None) -> tuple[Path, ...]:
    """Write the files, whole or not at all; gives their paths. Raises OutputFailed."""
    from drafting.files import write_all

    files = {folder / name: data for name, data in fit_files(f, places).items()}
    write_all(files)
    return tuple(files)
