"""A made-up ram for the sheet: a tube with an eye at each end and one port; no real part."""

from drafting.drawing.dimension.job import Job
from drafting.settle.wishes import Callout, CentreLine, Diameter, Length
from drafting.shape.frame import ORIGIN, X, Y, Z, along
from drafting.shape.pieces import Part, Piece, cylinder, moved
from drafting.told.data_sheet import DataSheet, Held, Ruled, Said
from drafting.values import Finding, Value

STROKE, RETRACTED = 200.0, 460.0


def _eye(owner: str, x: float) -> tuple[Piece, Piece]:
    frame = along(Y, (x, 0.0, 0.0))
    return (
        Piece(f"{owner}_mount.tube", cylinder(30.0, -35.0, 35.0), frame),
        Piece(f"{owner}_mount.hole", cylinder(15.0, -36.0, 36.0), frame, cut=True),
    )


def parts() -> tuple[Part, ...]:
    """Barrel with bore, eye and port boss; rod with eye and piston."""
    boss = along(Z, (70.0, 0.0, 0.0), X)
    barrel = Part(
        "barrel",
        "body",
        (
            Piece("cylinder.barrel_outside", cylinder(50.0, 20.0, 380.0)),
            *_eye("body", 0.0),
            Piece("base_port.boss", cylinder(18.0, 40.0, 62.0), boss),
            Piece("cylinder.bore", cylinder(40.0, 45.0, 381.0), cut=True),
        ),
    )
    rod = Part(
        "rod",
        "rod",
        (Piece("cylinder.rod", cylinder(20.0, 60.0, RETRACTED - 20.0)), *_eye("rod", RETRACTED)),
        hatched=False,
    )
    return barrel, rod


def wishes():
    end, open_end = (RETRACTED, 0.0, 0.0), (RETRACTED + STROKE, 0.0, 0.0)

    def across(name, x, d, pose="retracted"):
        return Length(name, (x, 0.0, -d / 2), (x, 0.0, d / 2), Z, rank=2, form="round", pose=pose)

    return (
        Length("cylinder.retracted", ORIGIN, end, X, 8),
        Length("cylinder.extended", ORIGIN, open_end, X, 9, True, pose="extended"),
        Length("cylinder.stroke", end, open_end, X, 8, pose="extended"),
        across("cylinder.bore", 130.0, 80.0, "extended"),
        across("cylinder.barrel_outside", 200.0, 100.0),
        across("cylinder.rod", 400.0, 40.0),
        Diameter("body_mount.hole", ORIGIN, Y, 30.0),
        Diameter("rod_mount.hole", end, Y, 30.0),
        Length("body_mount.width", (0.0, -35.0, 0.0), (0.0, 35.0, 0.0), Y),
        Length("base_port.position", ORIGIN, (70.0, 0.0, 62.0), X, 3),
        Callout("base_port.thread", (70.0, 0.0, 62.0), Z, ("G 1/2", "12:00")),
    )


def data() -> DataSheet:
    """What is said of it on its data sheet."""
    held = (
        Held("Mount", Said("cross tube"), Said("cross tube")),
        Held("Hole Ø", Said("30", tolerance=""), Said("30", "D", "H9")),
    )
    return DataSheet(
        held=held,
        lengths=(("RETRACTED", Said("460", tolerance="")), ("STROKE", Said("200", tolerance="±1"))),
        lengths_words="between pin centres",
        data=(("Bore", Said("80")), ("Fluid", Said(""))),
        ruled=(Ruled(("cylinder.piston_length",), "Piston length", "56", "0.7 of bore"),),
        notes=("Primer only",),
        cautions=("Relieve the pressure before any work.",),
        sizes=(("body_mount.width", "Base tube length", "70"),),
    )


def job(**changes) -> Job:
    """The whole job; fields are changed by name."""
    closed = parts()
    opened = tuple(moved(p, STROKE) if p.owner == "rod" else p for p in closed)
    words = {
        "name": "HB-0900",
        "retracted": closed,
        "extended": opened,
        "wishes": wishes(),
        "symbols": (
            CentreLine("axis", ORIGIN, (RETRACTED, 0.0, 0.0)),
            CentreLine("body_mount.pin", (0.0, -35.0, 0.0), (0.0, 35.0, 0.0)),
            CentreLine("rod_mount.pin", (RETRACTED, -35.0, 0.0), (RETRACTED, 35.0, 0.0), "rod"),
            CentreLine("base_port.thread", (70.0, 0.0, 40.0), (70.0, 0.0, 62.0)),
        ),
        "values": (
            Value("cylinder.bore", 80.0, "mm", "80", "given", "line 3"),
            Value("body_mount.width", 70.0, "mm", None, "derived", "0.8 of the bore"),
            Value("cylinder.piston_length", 56.0, "mm", None, "derived", "0.7 of the bore"),
        ),
        "findings": (Finding("x", "warning", "base_port.clock", "to be confirmed"),),
        "lengths": (STROKE, RETRACTED, RETRACTED + STROKE),
        "bore": 80.0,
        "data": data(),
        "meta": {"title": "Trial lift", "number": "HB-0900", "date": "2026-11-25"},
    }
    return Job(**(words | changes))
