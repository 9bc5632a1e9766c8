"""The barrel's own length. The sample has a travel of 16 in and a bore of 3 1/2 in.

Piston 0.5 and gland 0.6 of the bore are the floors of the format; common practice.
"""

from tests.measuring.bench_sample import asked, taken

TAPE = '[tape]\nX = ["{0}", "{0}"]'


def barrel(length):
    return taken(("[tape]", TAPE.format(length)))


def test_a_barrel_that_cannot_hold_its_travel_is_asked_again():
    (one,) = asked(barrel("16 3/4"), "X")
    assert one.name == "A, B, X"
    assert "does not hold a travel" in one.what
    assert not asked(barrel("18 1/2"), "X")


def test_a_barrel_unlike_the_drawn_one_is_told():
    m = barrel("22")
    assert m.done
    (note,) = [n for n in m.notes if n.startswith("the barrel reads")]
    assert note.startswith("the barrel reads 22 in")
    drawn = float(note.partition("is drawn ")[2].partition("(")[2].partition(" mm")[0]) / 25.4
    like = barrel(f"{drawn:.2f}")
    assert not [n for n in like.notes if n.startswith("the barrel reads")]


def test_what_shows_of_the_gland_is_drawn():
    m = taken(("[caliper]", "[caliper]\nY = [0.75, 0.752]"))
    assert m.done
    assert "gland_projection = 0.751" in m.spec
