"""What the lists say: derived sizes in a few words, one row for what two places share."""

from drafting.drawing.lists.rows import derived_rows, listings
from drafting.values import Value
from tests.drawing.sample_job import job


def derived(name, size, why):
    return Value(name, size, "mm", None, "derived", why)


def test_places_that_share_a_size_share_a_row():
    values = (
        derived("base_port.boss", 30.0, "as wide as the spotface; port.csv:12"),
        derived("rod_port.boss", 30.0, "as wide as the spotface; port.csv:12"),
        derived("rod_port.height", 9.0, "wall and boss together (5 mm)"),
    )
    assert derived_rows(job(values=values)) == (
        ("Ports' boss", "30: as wide as the spotface"),
        ("Rod port height", "9: wall and boss together"),
    )


def test_what_must_hold_comes_first_and_empty_lists_stay_away():
    names = [entry.name for entry in listings(job(must_hold=(("Stroke", "200"),)))]
    assert names == ["must", "cautions", "notes", "facts", "findings", "derived"]
    assert "parts" in [e.name for e in listings(job(parts=(("1 x", "pin"),)))]
