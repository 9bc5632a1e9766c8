"""No two parts take the same space: every mount with every gland, construction and place.

By hand: a barrel of 100 mm ends where a cap gland begins to go over it; what stands there as well
would be metal in metal. The kernel's own word on the same question is in tests/agree.
"""

from __future__ import annotations

from itertools import product

import pytest

from drafting.errors import Refused
from drafting.model.overlaps import overlaps
from drafting.shape.frame import Frame
from drafting.shape.overlap import filled, overlap
from drafting.shape.pieces import Part, Piece, Prism, box, circle, cylinder, polygon
from tests.model.mount_specs import EVERY, example, settled, spec_text
from tests.whole_specs import GLANDS

PLACED = ("trunnion", "flange", "foot")
SQUARE_DERIVES = ("shoulders", "width", "plate", "bolts", "seat_height", "outside")
SHELLS = [("welded", gland) for gland in GLANDS] + [("tie rod", "tie rod")]
ENDS = [
    (end, word, place)
    for end, word in EVERY
    for place in (("base", "middle", "rod end") if end == "body" and word in PLACED else ("",))
]


def text(end, word, place, shell, gland, sizes=()):
    fields = example(end, word)
    if shell == "tie rod" and word in PLACED:
        fields = {k: v for k, v in fields.items() if k not in SQUARE_DERIVES}
    if word == "foot" and place != "base":
        fields = {}
    fields |= {"position": place} if place else {}
    fields |= dict(sizes)
    ends = {"body": ("none", {}), "rod": ("plain", {}), end: (word, fields)}
    cylinder = {"construction": shell, "gland": gland, "retracted": 32, "barrel_outside": 4}
    ports = '[base_port]\nthread = "SAE-8"\nclock = 12\n[rod_port]\nthread = "SAE-8"\nclock = 3\n'
    return spec_text(ends["body"], ends["rod"], cylinder=cylinder, more=ports)


@pytest.mark.parametrize(("shell", "gland"), SHELLS, ids=[g for _, g in SHELLS])
@pytest.mark.parametrize(("end", "word", "place"), ENDS, ids=[" ".join(e) for e in ENDS])
def test_every_mount_stands_beside_every_gland(end, word, place, shell, gland):
    extra = [{}]
    if "grease" in settled_fields(end, word):
        extra.append({"grease": True})
    for sizes in extra:
        c = settled(text(end, word, place, shell, gland, sizes.items()))
        assert list(overlaps(c.parts, c.lengths.stroke)) == []


def settled_fields(end, word):
    from drafting.model.catalog import mount_types

    return mount_types()[end, word].fields


@pytest.mark.parametrize("word", PLACED)
def test_a_mount_at_the_rod_end_stands_behind_the_cap(word):
    """The skirt takes a quarter of the gland, and 1 mm stays free: a rule that is stated."""
    texts = (text("body", word, "rod end", "welded", g) for g in ("bolted", "cap"))
    above = "[rod_port]\nthread = 'SAE-8'\nclock = 12\n"  # a trunnion stands behind one at 3:00
    plain, capped = (settled(t.partition("[rod_port]")[0] + above) for t in texts)
    gland = capped.value("cylinder.gland_length").value
    moved = [c.value("body_mount.from_closed_end").value - c.stations.barrel_end
             + c.stations.closed_end for c in (plain, capped)]  # fmt: skip
    assert moved[0] - moved[1] == pytest.approx(gland / 4 + 1.0, abs=1e-6)
    assert "behind the gland's cap" in capped.value("body_mount.from_closed_end").why
    if word != "foot":
        cap = next(p for p in capped.parts if p.name == "gland cap")
        start = cap.pieces[0].shape.zones[0].x0
        reach = {"trunnion": capped.value("body_mount.outside"), "flange": None}[word]
        half = reach.value / 2 if reach else 0.0
        assert half == pytest.approx(start - 1.0, abs=1e-6)


def test_a_mount_typed_into_the_cap_is_refused_with_what_would_do():
    s = settled(text("body", "flange", "rod end", "welded", "cap")).stations
    at = [("position", round((s.barrel_end - s.closed_end) / 25.4, 3))]
    with pytest.raises(Refused) as caught:
        settled(text("body", "flange", "", "welded", "cap", at))
    fault = caught.value.faults[0]
    assert (fault.code, fault.field) == ("parts-overlap", "body_mount.position")
    assert "gland cap" in fault.message
    assert "nearer to the base" in fault.message


def test_a_rod_bush_as_wide_as_the_tie_rods_is_refused():
    """Rods round a tube of 4 in lie 2.25 in off the axis or more: a bush of 5 in meets nuts."""
    with pytest.raises(Refused) as caught:
        settled(spec_text(("none", {}), ("plain", {}), cylinder={
            "construction": "tie rod", "gland_outside": 5, "gland_projection": 0.75,
        }))  # fmt: skip
    fault = caught.value.faults[0]
    assert (fault.code, fault.field) == ("parts-overlap", "cylinder.gland_outside")


# --- two parts by hand -------------------------------------------------------------------------


def part(*pieces: Piece) -> Part:
    return Part("one", "body", pieces)


def rod(radius: float, x0: float = 0.0, x1: float = 100.0, **more) -> Piece:
    return Piece("rod", cylinder(radius, x0, x1), **more)


BLOCK = Piece("block", Prism(box(-50.0, 50.0, -50.0, 50.0), -50.0, 50.0))
BORED = part(BLOCK, rod(20.0, -60.0, 60.0, cut=True))
SKEW = Frame((0.0, 0.0, 0.0), (0.6, 0.8, 0.0), (-0.8, 0.6, 0.0), (0.0, 0.0, 1.0))
WEDGE = Piece("wedge", Prism(polygon(((0.0, 0.0), (40.0, 0.0), (0.0, 40.0))), -5.0, 5.0))


@pytest.mark.parametrize(
    ("a", "b", "along"),
    [
        (BORED, part(rod(20.0, -80.0, 80.0)), None),  # in its bore
        (BORED, part(rod(20.1, -80.0, 80.0)), 100.0),  # a tenth thicker than the bore
        (BORED, part(rod(20.01, -80.0, 80.0)), None),  # within 0.02 mm it is the same size
        (part(BLOCK), part(rod(10.0, 50.0, 90.0)), None),  # against its face
        (part(BLOCK), part(rod(10.0, 49.0, 90.0)), 1.0),
        (part(BLOCK), part(rod(10.0, frame=Frame((0.0, 60.0, 0.0)))), None),  # along its side
        (part(BLOCK), part(rod(10.0, frame=Frame((0.0, 59.0, 0.0)))), 50.0),
        (BORED, part(rod(19.0, -90.0, 90.0, frame=SKEW)), 90.0),  # askew through the bore's wall
        (part(rod(30.0)), part(rod(10.0, frame=Frame((0.0, 40.0, 0.0)))), None),  # round by round
        (part(rod(30.0)), part(rod(10.0, frame=Frame((0.0, 39.0, 0.0)))), 100.0),
        (part(rod(30.0), rod(30.0, 30.0, 60.0, cut=True)), part(rod(30.0, 30.0, 60.0)), None),
        (part(rod(30.0), rod(30.0, 30.0, 59.0, cut=True)), part(rod(30.0, 30.0, 60.0)), 1.0),
        (part(WEDGE), part(Piece("b", Prism(box(20.0, 60.0, 20.0, 60.0), -5.0, 5.0))), None),
        (part(WEDGE), part(Piece("b", Prism(box(15.0, 60.0, 15.0, 60.0), -5.0, 5.0))), 10.0),
        (part(Piece("ring", Prism(circle(20.0), 0.0, 9.0)), Piece("hole", Prism(circle(12.0), -1.0,
         10.0), cut=True)), part(Piece("core", Prism(circle(12.0), 0.0, 9.0))), None),
    ],
)  # fmt: skip
def test_two_parts_by_hand(a, b, along):
    for one, other in ((a, b), (b, a)):
        found = overlap(filled(one), filled(other))
        if along is None:
            assert found is None
        else:
            assert found is not None
            assert found.along <= along + 0.1
            assert found.along >= 0.4 * along


def test_the_rod_is_looked_at_open_too():
    body = part(BLOCK)
    rod_part = Part("two", "rod", (rod(10.0, -100.0, -90.0),))
    assert list(overlaps((body, rod_part), 30.0)) == []
    found = [(pose, s.one.name) for _, _, pose, s in overlaps((body, rod_part), 60.0)]
    assert found == [("open", "block")]


def test_what_is_asked_of_every_pair_is_asked_of_every_pair():
    copies = [Part(str(k), "body", (BLOCK,)) for k in range(4)]
    names = {(a.name, b.name) for a, b, _, _ in overlaps(copies, 0.0)}
    assert names == {(str(i), str(j)) for i, j in product(range(4), repeat=2) if i < j}
