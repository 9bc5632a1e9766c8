"""What stands where words would be good yields to them on a settled page (our rule).

All sizes are made up.
"""

from dataclasses import replace

import pytest

from drafting.drawing.dimension.place import place
from drafting.drawing.dimension.table import order, table_of
from drafting.drawing.dimension.yielding import yielded
from drafting.drawing.sheet.explode import explode
from drafting.settle.wishes import Callout
from drafting.shape.frame import Z
from tests.drawing.test_place import HIGH, LONG, STYLE, _along, _ground, _item, _picture, _touching

SCALE = 0.5
WIDE = (-100.0, -120.0, LONG * SCALE + 100.0, 120.0)


def _port(picture, x=410.0):
    words = Callout("rod_port.thread", (x, 0.0, HIGH / 2), Z, ("ROD PORT G 1/2,", "12:00"))
    return _item(words, picture, words.lines)


def _all():
    picture = _picture()
    sizes = [
        _along("a", 0.0, 180.0),
        _along("b", 180.0, 430.0),
        _along("c", 35.0, 395.0),
        _along("d", 0.0, LONG),
    ]
    return _ground(picture, SCALE), [*(_item(w, picture) for w in sizes), _port(picture)]


def test_words_that_stand_badly_take_a_good_place():
    ground, items = _all()
    first = place(items, ground)
    ways = dict(first.ways)
    table = table_of(sorted(items, key=order), ground)
    (k,) = (i for i, item in enumerate(sorted(items, key=order)) if item.is_words)
    worst = int(table.ways[k].costs.argmax())
    bad = replace(first, ways=tuple((ways | {"rod_port.thread": worst}).items()))
    better = yielded(items, ground, bad, WIDE)
    assert table.ways[k].costs[worst] > 20.0
    assert better.extra < 8.0
    drawn = [explode(d, (0.0, 0.0), SCALE, STYLE) for d in better.dimensions]
    assert _touching(drawn, ground) == []


def test_a_size_in_the_way_of_words_yields():
    """It stands level with the words, right over the port, while their leader runs over metal."""
    ground, items = _all()
    ordered = sorted(items, key=order)
    table = table_of(ordered, ground)
    table.begin(WIDE)
    words = next(i for i, item in enumerate(ordered) if item.is_words)
    size = next(i for i, item in enumerate(ordered) if item.choice.wish.name == "b")
    table.settle(words)
    best = table.chosen[words].way
    among = table.scene.with_each(size, [words])[0]
    table.clear()
    table.put(size, table.at(size, int((among > 10.0).nonzero()[0][0])))
    table.settle(words)
    start = {ordered[i].choice.wish.name: c.way for i, c in table.chosen.items()}
    assert start["rod_port.thread"] != best
    table.clear()
    less = [items[1], items[-1]]
    first = replace(place(less, ground), ways=tuple(start.items()))
    assert dict(yielded(less, ground, first, WIDE).ways)["b"] != start["b"]


def test_what_stands_well_stays_where_it_is():
    ground, items = _all()
    first = place(items, ground, WIDE)
    assert yielded(items, ground, first, WIDE).ways == first.ways


@pytest.mark.parametrize("late", [True, False])
def test_words_that_were_not_placed_are_placed_too(late):
    ground, items = _all()
    first = place(items[:-1] if late else items, ground, WIDE)
    assert len(yielded(items, ground, first, WIDE).dimensions) == len(items)
