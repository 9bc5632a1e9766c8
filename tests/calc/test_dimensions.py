"""Every formula run with real quantities: the unit must be the annotated one, and so the number.

pint (an open units library) carries the units; a formula that lost a square or hides a factor of
conversion cannot return the annotated unit with the number that plain floats give. Angles have no
dimension and go in as numbers.
"""

import inspect
import typing
from importlib import import_module
from pathlib import Path

import pint
import pytest

import drafting.calc
from drafting.calc import force, tube

FOLDER = Path(drafting.calc.__file__).parent
MODULES = sorted(p.stem for p in FOLDER.glob("*.py") if p.stem not in ("__init__", "types"))
FUNCTIONS = {
    f"{name}.{f.__name__}": f
    for name in MODULES
    for f in vars(import_module(f"drafting.calc.{name}")).values()
    if inspect.isfunction(f) and f.__module__ == f"drafting.calc.{name}" and f.__name__[0] != "_"
}
Q = pint.UnitRegistry().Quantity

SAMPLES = {
    "bore": 80.0, "rod": 45.0, "outside": 95.0, "inside": 80.0, "wall": 7.5, "at": 85.0,
    "pressure": 20.0, "back_pressure": 1.5, "outer_pressure": 2.0, "force": 60_000.0,
    "pull_load": 5_000.0, "pull_out": 5_000.0, "area": 1_590.0, "mass": 120.0, "gravity": 9.80665,
    "angle": 30.0, "flow": 6e5, "stroke": 400.0, "velocity": 80.0, "time": 5.0, "strength": 355.0,
    "tensile": 490.0, "stress": 120.0, "diameter": 20.0, "thickness": 22.0, "poisson": 0.3,
    "modulus": 206_000.0, "length": 600.0, "stiffness": 4e10, "factor": 0.7, "slenderness": 60.0,
    "crushing": 335.0, "constant": 1 / 7500, "ends": "fixed_pinned", "tube_stiffness": 4e11,
    "rod_stiffness": 4e10, "tube_length": 500.0, "rod_length": 450.0, "rod_strength": 500.0,
    "load": 60_000.0, "tube_rest": 90.0, "tube_share": 0.5, "rod_rest": 60.0, "longest": 20_000.0,
    "pivot": 10.0, "gland_face": 500.0, "rod_pivot": 1_000.0, "pitch": 2.5, "engaged": 16.0,
    "share": 0.2, "torque": 1e5, "nut_factor": 0.2, "rods": 2.5e5, "barrel": 1e6,
    "preload": 120_000.0, "end_force": 100_000.0, "pin": 30.0, "eye": 40.0, "ear": 20.0,
    "clearance": 1.0, "moment": 4e5, "width": 40.0, "hole": 30.0, "nose": 32.0, "leg": 8.0,
    "run": 150.0, "depth": 7.5, "rating": 120_000.0, "tolerances": (0.5, 0.25, 0.3),
    "density": 7.85e-6, "pressed": 50_000.0,
}  # fmt: skip


def unit_of(hint):
    """The unit in an annotation, None for one without a dimension (words, angles)."""
    inner = typing.get_args(hint)
    if typing.get_origin(hint) is typing.Annotated:
        return None if inner[1] == "degree" else inner[1]
    return unit_of(inner[0]) if inner and typing.get_origin(hint) is not typing.Literal else None


def with_units(name, hint):
    value, unit = SAMPLES[name], unit_of(hint)
    if unit is None:
        return value
    return tuple(Q(v, unit) for v in value) if isinstance(value, tuple) else Q(value, unit)


def prove(function):
    """Run a formula with quantities and with floats, and demand the same of both."""
    hints = typing.get_type_hints(function, include_extras=True)
    names = list(inspect.signature(function).parameters)
    plain = function(**{n: SAMPLES[n] for n in names})
    carried = function(**{n: with_units(n, hints[n]) for n in names})
    unit = unit_of(hints["return"])
    assert unit is not None, "the result has no unit annotated"
    several = isinstance(plain, tuple)
    for ours, theirs in zip(
        plain if several else (plain,), carried if several else (carried,), strict=True
    ):
        assert Q(theirs).to(unit).magnitude == pytest.approx(ours, rel=1e-9)


@pytest.mark.parametrize("name", FUNCTIONS)
def test_unit_and_number(name):
    prove(FUNCTIONS[name])


def test_there_are_formulas_to_prove():
    assert len(FUNCTIONS) >= 65


def mutant(function, old, new):
    """The function with one piece of its text changed."""
    text = inspect.getsource(function)
    assert text.count(old) >= 1
    scope = dict(vars(inspect.getmodule(function)))
    exec(compile(text.replace(old, new), "mutant", "exec", dont_inherit=True), scope)
    return scope[function.__name__]


@pytest.mark.parametrize(
    ("function", "old", "new"),
    [
        (force.cap_area, "bore**2", "bore"),
        (force.annulus_area, "rod**2", "rod"),
        (tube.equivalent_stress, "/ (outside**2 - inside**2)", "/ outside"),
        (force.pressure_on, "force / area", "force * area"),
        (force.weight_along, "mass * gravity", "mass / gravity"),
    ],
    ids=["lost square", "lost square of one", "lost area", "product", "quotient"],
)
def test_a_wrong_dimension_is_caught(function, old, new):
    prove(mutant(function, old, old))
    with pytest.raises((pint.DimensionalityError, AssertionError)):
        prove(mutant(function, old, new))


@pytest.mark.parametrize("name", FUNCTIONS)
def test_each_formula_explains_itself(name):
    """A page of a handbook in little: symbols, where it holds, source, and a worked example."""
    page = inspect.getdoc(FUNCTIONS[name]) or ""
    for part in ("Symbols: ", "Holds: ", "Source: ", ">>> "):
        assert part in page, part
