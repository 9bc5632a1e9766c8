"""The sample of readings, with lines put in the place of others."""

from pathlib import Path

from drafting.measuring.measure import measure

SAMPLE = Path(__file__).parents[2] / "specs" / "readings" / "orchard-lift.toml"
LINES = SAMPLE.read_text(encoding="utf-8")


def with_lines(*swaps):
    """Give the sample's text with some of it put in the place of other text."""
    text = LINES
    for old, new in swaps:
        assert old in text
        text = text.replace(old, new)
    return text


def taken(*swaps):
    """Measure the sample with some lines changed."""
    return measure(with_lines(*swaps).encode())


def asked(m, name):
    """Give what is open about a letter or a table."""
    return [o for o in m.open if name in o.name.split(", ")]


ROD_PORT = 'female  = 0.69\npitch   = "16 tpi"'
BASE_PORT = 'thread  = "SAE-8"'
