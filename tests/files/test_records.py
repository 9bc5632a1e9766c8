"""Fast records are the frozen dataclasses of the standard library in everything but their price."""

import copy
import pickle
from dataclasses import FrozenInstanceError, field, fields, is_dataclass, replace
from dataclasses import dataclass as standard

import pytest

from drafting.records import dataclass


@dataclass(frozen=True, slots=True)
class Fast:
    """A record."""

    a: int
    b: str = "x"
    c: dict[str, int] = field(default_factory=dict, hash=False)


@standard(frozen=True, slots=True)
class Plain:
    """The same, made by the library."""

    a: int
    b: str = "x"
    c: dict[str, int] = field(default_factory=dict, hash=False)


@dataclass(frozen=True, slots=True, eq=False)
class Alone:
    """A record that equals itself alone."""

    a: int


@dataclass(frozen=True, slots=True)
class Longer(Fast):
    """A record with one field more."""

    d: float = 0.5


def _did(work):
    try:
        return work()
    except Exception as e:
        return type(e)


@pytest.mark.parametrize(
    "work",
    [
        lambda c: repr(c(1)).split("(")[1],
        lambda c: c(1, c={"k": 2}).c,
        lambda c: c(1).c is c(1).c,
        lambda c: c(),
        lambda c: c(1, "y", {}, 4),
        lambda c: c(1, e=2),
        lambda c: c(1) == c(1, "x", {}),
        lambda c: c(1) == c(1, "y"),
        lambda c: c(1) == (1, "x", {}),
        lambda c: hash(c(1, c={"k": 1})) == hash(c(1)),
        lambda c: len({c(1), c(1), c(2)}),
        lambda c: setattr(c(1), "a", 2),
        lambda c: delattr(c(1), "a"),
        lambda c: replace(c(1), b="z").b,
        lambda c: [f.name for f in fields(c)],
        lambda c: is_dataclass(c) and c.__match_args__,
        lambda c: hasattr(c(1), "__dict__"),
        lambda c: pickle.loads(pickle.dumps(c(3, "p", {"q": 1}))) == c(3, "p", {"q": 1}),
        lambda c: copy.deepcopy(c(3)) == c(3),
    ],
)
def test_as_the_library_does(work):
    assert _did(lambda: work(Fast)) == _did(lambda: work(Plain))


def test_frozen():
    with pytest.raises(FrozenInstanceError):
        Fast(1).a = 2


def test_without_eq_it_equals_itself_alone():
    one = Alone(1)
    assert one == one
    assert one != Alone(1)
    assert len({one, Alone(1)}) == 2


def test_inherited_fields():
    assert Longer(1, d=2.0) == Longer(1, "x", {}, 2.0)
    assert Longer(1) != Fast(1)
    assert Longer(1).d == 0.5
