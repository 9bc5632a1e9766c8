"""Where a typed value came from, in the rows and findings of a cylinder."""

from drafting.told.rows import value_row
from tests.model.mount_specs import BARE, settled, spec_text

MORE = """
[[origin]]
field = "cylinder.bore"
from = "measured"
plus_minus = "0.5 mm"

[[origin]]
field = "cylinder.rod"
from = "open"
note = "1 1/2 or 40 mm"

[[origin]]
field = "cylinder.stroke"
from = "builder"
"""


def test_values_keep_their_origin_and_what_is_open_needs_a_person():
    c = settled(spec_text(BARE["body"], BARE["rod"], more=MORE))
    rows = {v.name: value_row(v) for v in c.values}
    assert rows["cylinder.bore"]["origin"] == "measured"
    assert rows["cylinder.bore"]["plus_minus_mm"] == 0.5
    assert rows["cylinder.stroke"]["origin"] == "builder"
    assert "plus_minus_mm" not in rows["cylinder.stroke"]
    (found,) = [f for f in c.findings if f.code == "open-size"]
    assert (found.field, found.level) == ("cylinder.rod", "warning")
    assert "1 1/2 or 40 mm" in found.message
