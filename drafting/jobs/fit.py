"""The files that ``fit`` writes."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from drafting.fitting.fit import Fit
from drafting.fitting.suggestion import Suggestions
from drafting.fitting.travel import extremes, span

FORMATS = ("svg", "pdf", "dxf")


def fit_files(f: Fit, places: Sequence[Suggestions] = ()) -> dict[str, bytes]:
    """Give the files of an answer by their names: the page, and the cylinder in the machine."""
    from drafting.drawing.write.writers import write
    from drafting.fitting.drawn.page import mechanism

    name = f.subject.cylinder.name
    files: dict[str, bytes] = {}
    sheet = mechanism(f, places)
    for word in FORMATS:
        files |= write(sheet, word, f"{name}-mechanism").files
    if f.room is not None and f.room.looked:
        files |= _in_machine(f)
    return files


def _in_machine(f: Fit) -> dict[str, bytes]:
    """Give the cylinder where it is shortest and where it is longest on the travel."""
    from drafting.fitting.poses import Pose, cylinder_poses, moved_pose
    from drafting.solids.in_machine import Around, Rows, Stand, in_machine_glb, in_machine_step

    def rows(pose: Pose) -> Rows:
        return tuple(tuple(float(v) for v in row) for row in pose[:3])

    assert f.room is not None
    assert f.machine.model is not None
    seat, solids, moving = f.room.seat, f.room.solids, f.machine.model.moving
    ends = zip(("closed", "open"), extremes(f.machine.way, *span(f.machine.way)), strict=True)
    stands = [
        Stand(word, rows(body), rows(rod), rows(moved_pose(f.machine, seat, p.at)))
        for word, p in ends
        for body, rod in (cylinder_poses(f.subject, seat, p),)
    ]
    machine = [
        Around(name, shape, name in moving or name.partition("#")[0] in moving)
        for name, shape in zip(solids.names, solids.shapes, strict=True)
    ]
    c = f.subject.cylinder
    return {
        f"{c.name}-in-machine.step": in_machine_step(c.name, c.parts, stands),
        f"{c.name}-in-machine.glb": in_machine_glb(c.name, c.parts, stands, machine),
    }


def write_fit(f: Fit, folder: Path, places: Sequence[Suggestions] = ()) -> tuple[Path, ...]:
    """Write the files, whole or not at all; gives their paths. Raises OutputFailed."""
    from drafting.files import write_all

    files = {folder / name: data for name, data in fit_files(f, places).items()}
    write_all(files)
    return tuple(files)
