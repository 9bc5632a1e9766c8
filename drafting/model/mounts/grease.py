"""Grease fittings: a small turned piece in a drilled hole, drawn so that it is kept clear.

Sizes follow a straight M6 nipple (DIN 71412 form A, from memory); as drawn only.
"""

from __future__ import annotations

from drafting.settle.mount import Host
from drafting.shape.frame import Frame
from drafting.shape.pieces import Part, Piece, cylinder, stepped

HOLE = 6.0
"""Diameter (mm) of the drilled and tapped hole."""
HEIGHT = 10.0
"""What the fitting takes above the surface (mm)."""
SHANK = 5.0
SHARE = 0.9
"""Of the metal under it, what the shank takes at the most; as drawn only."""


def grease_fitting(
    host: Host, frame: Frame, inside: float, metal: float, tag: str = ""
) -> tuple[Piece, Part]:
    """Give the drilling and the fitting along the x axis of ``frame``, whose origin is its foot.

    ``inside`` is how far below the surface the drilling begins (mm), ``metal`` how much the shank
    has to sit in; what it holds must move past it.
    """
    name = f"{host.table}.grease{tag}"
    shape = stepped(
        (-min(SHANK, SHARE * metal), HOLE / 2),
        (0.0, HOLE / 2),
        (0.0, 4.0),
        (4.0, 4.0),
        (4.0, 2.5),
        (7.0, 2.5),
        (8.5, 3.2),
        (HEIGHT, 2.2),
    )
    fitting = Piece(name, shape, frame)
    drilling = Piece(f"{name}_hole", cylinder(HOLE / 2, -inside, 1.0), frame, cut=True)
    words = f"{host.label} grease fitting{tag.replace('_', ' ')}"
    return drilling, Part(words, host.end, (fitting,), hatched=False)
