"""What a builder will ask and the spec does not say, worst first."""

from __future__ import annotations

from collections.abc import Callable

from drafting.checks.numbers import CylinderNumbers
from drafting.records import dataclass


@dataclass(frozen=True, slots=True)
class Question:
    """One open question.

    ``weight`` 3: unsafe or unusable without an answer; 2: it decides price, parts or fit; 1: it
    will be asked. ``field`` is the dotted name to type, empty when the spec has none and a note
    must say it.
    """

    field: str
    weight: int
    question: str
    why: str


_Rule = tuple[Question, Callable[[CylinderNumbers], bool]]


def _always(n: CylinderNumbers) -> bool:
    return True


def _has_pins(n: CylinderNumbers) -> bool:
    return any(f"{m.field}.hole" in n.sizes for m in n.mounts)


def _vertical(n: CylinderNumbers) -> bool:
    return n.duty.orientation != "horizontal"


def _pulls(n: CylinderNumbers) -> bool:
    return n.action != "push" and n.piston == "sealed"


def _pushes(n: CylinderNumbers) -> bool:
    return n.action != "pull"


RULES: tuple[_Rule, ...] = (
    (
        Question(
            "cylinder.working_pressure",
            3,
            "What is the highest steady pressure?",
            "nothing can be said of strength without it",
        ),
        _always,
    ),
    (
        Question(
            "cylinder.relief_pressure",
            3,
            "Relief valve: at what pressure?",
            "it is the pressure that the cylinder will really meet",
        ),
        _always,
    ),
    (
        Question(
            "duty.push",
            3,
            "How hard must it push?",
            "bore, rod and the factor against buckling follow from it",
        ),
        _pushes,
    ),
    (
        Question("duty.pull", 2, "How hard must it pull?", "rod, thread and pins follow from it"),
        _pulls,
    ),
    (
        Question(
            "duty.safety_factor",
            3,
            "What factor of safety is asked for?",
            "a factor is a choice; 2.5 to 4 against buckling is common practice",
        ),
        _always,
    ),
    (
        Question(
            "duty.lifts_people",
            3,
            "Does it lift people, or a load over them?",
            "then law and a licensed engineer decide, not this tool",
        ),
        _always,
    ),
    (
        Question(
            "duty.orientation",
            2,
            "How does it lie: flat, upright, inclined?",
            "weight on seals and rod, and a load that can fall",
        ),
        _always,
    ),
    (
        Question(
            "duty.mass",
            2,
            "What mass moves with it?",
            "it falls when a hose bursts, and it must be stopped",
        ),
        _vertical,
    ),
    (
        Question("duty.flow", 2, "What flow feeds it?", "speed, ports and cushions follow from it"),
        _always,
    ),
    (
        Question(
            "cylinder.spring_force",
            2,
            "How strong is the return spring, rod in and rod out?",
            "too weak leaves the rod where it is",
        ),
        lambda n: n.spring,
    ),
    (
        Question("cylinder.fluid", 3, "Which fluid?", "the wrong seal in it fails within days"),
        _always,
    ),
    (
        Question(
            "cylinder.temperature",
            2,
            "Which temperatures, oil and surroundings?",
            "it decides the seals",
        ),
        _always,
    ),
    (
        Question("cylinder.seals", 2, "Which seals?", "builders stock several kinds"),
        _always,
    ),
    (
        Question(
            "cylinder.barrel_material",
            2,
            "Which tube?",
            "its yield strength carries the wall's figure",
        ),
        _always,
    ),
    (
        Question(
            "cylinder.rod_material", 2, "Which rod, and which surface?", "chrome, hardness, yield"
        ),
        _always,
    ),
    (
        Question(
            "cylinder.wall",
            2,
            "Which wall or barrel outside?",
            "drawn by a rule of the trade until someone says",
        ),
        lambda n: "cylinder.barrel_outside" not in n.said,
    ),
    (
        Question("cylinder.gland", 2, "How is the gland held?", "it must come out for new seals"),
        lambda n: n.construction == "welded",
    ),
    (
        Question(
            "cylinder.tie_rod", 2, "Which tie rods, and what torque?", "the joint opens without"
        ),
        lambda n: n.construction == "tie rod",
    ),
    (
        Question(
            "cylinder.cushions", 1, "Cushioned ends?", "a fast heavy load breaks what stops it"
        ),
        _always,
    ),
    (
        Question(
            "cylinder.proof_pressure", 2, "Proof test: pressure, time, certificate?", "it costs"
        ),
        _always,
    ),
    (
        Question("quantity", 2, "How many?", "price and delivery"),
        _always,
    ),
    (
        Question("cylinder.finish", 1, "Paint or plating, and which parts bare?", "it costs"),
        _always,
    ),
    (
        Question(
            "body_mount.hole",
            2,
            "Base end pin: which finished hole?",
            "a loose pin hammers, a tight one does not go in",
        ),
        lambda n: "body_mount.hole" in n.sizes,
    ),
    (
        Question(
            "rod_mount.hole",
            2,
            "Rod end pin: which finished hole?",
            "a loose pin hammers, a tight one does not go in",
        ),
        lambda n: "rod_mount.hole" in n.sizes,
    ),
    (
        Question("body_pin.supplied", 1, "Who supplies the pins?", "they are left out otherwise"),
        _has_pins,
    ),
    (
        Question("cylinder.rod_keyed", 1, "May the rod turn?", "the rod's pin follows the body's"),
        _has_pins,
    ),
    (
        Question("base_port.thread", 3, "Which base port, and where?", "no hose fits a guess"),
        _pushes,
    ),
    (
        Question("rod_port.thread", 3, "Which rod port, and where?", "no hose fits a guess"),
        _pulls,
    ),
    (
        Question(
            "duty.load_guided",
            3,
            "Is the load guided along the stroke?",
            "it decides the column: an unguided end is free",
        ),
        _pushes,
    ),
    (
        Question(
            "body_mount.held",
            2,
            "What keeps each mount from turning?",
            "nothing is taken until someone types held = true",
        ),
        lambda n: _pushes(n) and "rod_mount.held" not in n.said,
    ),
    (
        Question(
            "duty.strokes_per_day",
            1,
            "How many strokes a day?",
            "welds and threads tire; not reckoned here",
        ),
        _always,
    ),
    (
        Question("", 1, "Delivery, packing, papers?", "they are asked last and cost time"),
        _always,
    ),
)


def open_questions(n: CylinderNumbers) -> tuple[Question, ...]:
    """Give the questions that the spec leaves open, worst first, else in the order of asking."""
    left = [q for q, applies in RULES if q.field not in n.said and applies(n)]
    return tuple(sorted(left, key=lambda q: -q.weight))
