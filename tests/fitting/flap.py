"""A flap whose machine is modelled, and things to put into its room."""

from drafting.fitting.step_file import Solids
from tests.fitting.machines import machine

TEXT = """
title = "Flap"
units = "mm"
[hinge]
at = [0, 0]
base_pin = [100, -500]
rod_pin = [420, 40]
from = 0
to = 65
[model]
step = "{step}"
moving = [{moving}]
base_pin = [100, 0, -500]
rod_pin = [420, 0, 40]
axis = [0, -1, 0]
clearance = {clearance}
"""


def flapping(clearance=5, moving="", step="none.step"):
    """Give the text of the machine; ``moving`` are names in quotes, with commas."""
    return TEXT.format(clearance=clearance, moving=moving, step=step)


def flap(clearance=5, moving=""):
    return machine(flapping(clearance, moving))


def solids(**shapes):
    return Solids(tuple(shapes), tuple(w.val().wrapped for w in shapes.values()), {})
