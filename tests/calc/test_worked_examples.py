"""The worked example in each formula's own page comes out as printed there."""

import doctest
from importlib import import_module

import pytest

from tests.calc.test_dimensions import MODULES


@pytest.mark.parametrize("name", MODULES)
def test_examples(name):
    failed, tried = doctest.testmod(import_module(f"drafting.calc.{name}"))
    assert tried > 0
    assert failed == 0
