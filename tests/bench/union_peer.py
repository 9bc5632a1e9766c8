"""The weir gate's cylinder (specs/weir-gate.toml) as a CadQuery user models it by hand.

One workplane after the other, joined and cut one by one, then one STEP file of an assembly. What
the spec leaves open is chosen alike. Usage: python union_peer.py OUT.step
"""

import sys

import cadquery as cq

BORE, ROD, OUTSIDE, RETRACTED = 88.9, 44.45, 101.6, 692.15
HOLE, TUBE, TUBE_LENGTH = 32.16, 57.15, 88.9
BASE, END, GLAND = 60.0, 560.0, 585.0
GAP, WIDTH, EAR = 39.69, 80.96, 57.15
PORTS = ((66.7, 0.0), (546.1 - 60.0, 45.0))
BOSS, BOSS_FACE, THREAD, PASSAGE = 32.0, 66.0, 19.05, 11.4


def along_x(diameter: float, x0: float, x1: float) -> cq.Workplane:
    """Give a cylinder on the axis."""
    return cq.Workplane("YZ", origin=(x0, 0, 0)).circle(diameter / 2).extrude(x1 - x0)


def along_y(diameter: float, x: float, length: float) -> cq.Workplane:
    """Give a cylinder across the axis, centred."""
    plane = cq.Workplane("XZ", origin=(x, length / 2, 0))
    return plane.circle(diameter / 2).extrude(length)


def radial(diameter: float, x: float, clock: float, r0: float, r1: float) -> cq.Workplane:
    """Give a cylinder standing on the barrel."""
    post = cq.Workplane("XY", origin=(x, 0, r0)).circle(diameter / 2).extrude(r1 - r0)
    return post.rotate((0, 0, 0), (1, 0, 0), -clock)


def barrel() -> cq.Workplane:
    """Give barrel, cross tube, gland and bosses in one."""
    body = along_x(OUTSIDE, 20.0, END)
    body = body.union(along_x(OUTSIDE + 6.0, END, GLAND))
    body = body.union(along_y(TUBE, 0.0, TUBE_LENGTH))
    for x, clock in PORTS:
        body = body.union(radial(BOSS, x, clock, 40.0, BOSS_FACE))
    body = body.cut(along_x(BORE, BASE, END - 65.0))
    body = body.cut(along_x(ROD, BASE, GLAND + 1.0))
    body = body.cut(along_y(HOLE, 0.0, TUBE_LENGTH + 2.0))
    for x, clock in PORTS:
        body = body.cut(radial(PASSAGE, x, clock, 35.0, BOSS_FACE))
        body = body.cut(radial(THREAD, x, clock, 50.0, BOSS_FACE + 1.0))
    return body


def rod() -> cq.Workplane:
    """Give piston, rod and clevis in one."""
    x = RETRACTED
    out = along_x(BORE - 0.2, BASE, BASE + 50.0)
    out = out.union(along_x(ROD, BASE, x - 50.0))
    ear = cq.Workplane("XZ", origin=(0, WIDTH / 2, 0)).moveTo(x - 60.0, -EAR / 2)
    ear = ear.lineTo(x, -EAR / 2).threePointArc((x + EAR / 2, 0), (x, EAR / 2))
    clevis = ear.lineTo(x - 60.0, EAR / 2).close().extrude(WIDTH)
    slot = cq.Workplane("XY").box(80.0, GAP, 2 * EAR).translate((x + 8.0, 0, 0))
    return out.union(clevis).cut(slot).cut(along_y(HOLE, x, WIDTH + 2.0))


def main() -> None:
    """Build and export."""
    whole = cq.Assembly(name="cylinder")
    whole.add(barrel(), name="barrel", color=cq.Color(0.55, 0.57, 0.6))
    whole.add(rod(), name="rod", color=cq.Color(0.8, 0.82, 0.85))
    whole.export(sys.argv[1])


if __name__ == "__main__":
    main()
