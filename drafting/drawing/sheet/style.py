"""How a sheet looks: every size in paper millimetres, in one frozen object, each with its source.

How far a source was confirmed: "W1" and "W2" mean that one or two independent republications of
the clause were read, "memory" that none was; no standard was read in the original.
"""

from __future__ import annotations

from drafting.drawing.sheet.sheet import Role
from drafting.records import dataclass

_WIDE_ROLES = ("outline",)  # visible edges only, ISO 128-2 (was 128-24), W1
_THIN_ROLES = ("centre", "hatch", "phantom")  # narrower than hidden edges and dimensions

# ISO 128-2 names the kinds (W1): dashed for hidden edges, long dash dot for axes, long dash
# double dot for the extreme position of moving parts. The lengths are those that stay legible on
# a print at 70 %, near the 12 d dash, 24 d long dash and 3 d gap of the standard (memory).
_DASHES: dict[Role, tuple[float, ...]] = {
    "hidden": (3.0, 1.5),
    "centre": (8.0, 1.5, 0.5, 1.5),
    "phantom": (8.0, 1.5, 0.5, 1.5, 0.5, 1.5),
}
# Of a line that has no room for one period of those: unbroken it would read as an edge.
_SHORT: dict[Role, tuple[tuple[float, ...], ...]] = {
    "hidden": ((1.4, 0.8),),
    "centre": ((2.5, 0.8, 0.5, 0.8),),
    "phantom": ((2.0, 0.8, 0.5, 0.8, 0.5, 0.8), (1.4, 0.8)),
}
_LEAST = {_DASHES["hidden"]: 3}
"""A small hidden circle of fewer dashes than four is an arc and no circle."""


@dataclass(frozen=True, slots=True)
class Style:
    """Sizes of lettering, lines and dimensions. Heights are those of a capital."""

    # ISO 3098 series 1.8 2.5 3.5 5 7 10 (W1); 3.5 is still 2.5 when A3 is printed on A4.
    text: float = 3.5
    small_text: float = 2.5
    heading: float = 5.0
    field_name: float = 1.8
    # Base line to base line in heights, capitals and small letters: ISO 3098 15/10 (memory).
    line_pitch: float = 1.5

    # Two widths 2:1 from the series 0.25 0.35 0.5 0.7 1.0, ISO 128-2 (W1).
    wide: float = 0.5
    narrow: float = 0.25
    # Centre and hatch lines: half of 0.35 of ISO 128-2, so that the outline stands out.
    thin: float = 0.18
    # Border of the drawing space: ISO 5457 has 0.7 (memory); as wide as the outlines is calmer.
    frame: float = 0.5
    # Rules and hairlines of the data sheet: 0.35 of ISO 128-2, and its half.
    rule: float = 0.35
    hair: float = 0.18

    # Arrows filled, 3:1, about as long as the text is high, ISO 129-1 and ASME Y14.5 (W1).
    arrow: float = 3.5
    arrow_width: float = 3.5 / 3
    # From the outline to the extension line 1.5, past the dimension line 2 to 3, ASME Y14.5 (W2);
    # ISO 129-1 lets it touch the outline or leave a gap (memory).
    gap: float = 1.5
    overrun: float = 2.0
    # Between text and the line it stands on: half the difference of line pitch and height.
    text_gap: float = 1.0
    # First dimension line 10 from the outline, next ones 8: ISO 129-1 10 and 7 to 8 (W1),
    # ASME Y14.5 at least 10 and 6 (W2).
    first: float = 10.0
    next: float = 8.0
    # Centre lines overrun the outline by 2 to 3, ISO 128-2 (memory).
    centre_overrun: float = 3.0

    def width(self, role: Role) -> float:
        """Give the line width of a role."""
        if role in ("frame", "rule", "hair"):
            return {"frame": self.frame, "rule": self.rule, "hair": self.hair}[role]
        if role in _THIN_ROLES:
            return self.thin
        return self.wide if role in _WIDE_ROLES else self.narrow

    def dashes(self, role: Role) -> tuple[float, ...]:
        """Give dash, gap, dash, gap ... of a role, empty for a continuous line."""
        return _DASHES.get(role, ())

    def patterns(self, role: Role) -> tuple[tuple[float, ...], ...]:
        """Give the dashes of a role, and those of its shorter and shorter lines."""
        return (_DASHES[role], *_SHORT[role]) if role in _DASHES else ()

    def pattern(self, role: Role, length: float) -> tuple[float, ...]:
        """Give the first pattern of a role that a line of this length has room for."""
        return next((p for p in self.patterns(role) if _periods(role, p, length)), ())

    def fitted_dashes(self, role: Role, length: float) -> tuple[float, ...]:
        """Stretch the pattern so that a line of this length begins and ends with a full dash.

        A centre line gets an even number of periods: then a long dash lies on its middle, where
        centre lines cross. A line too short for any pattern of its role is continuous.
        """
        pattern = self.pattern(role, length)
        if not pattern:
            return ()
        k = length / (_periods(role, pattern, length) * sum(pattern) + pattern[0])
        return tuple(d * k for d in pattern)


def _periods(role: Role, pattern: tuple[float, ...], length: float) -> int:
    """Count the periods before the last dash of a line; none where it has no room."""
    step = 2 if role == "centre" else 1
    count = step * round((length - pattern[0]) / (sum(pattern) * step))
    return count if count >= _LEAST.get(pattern, 1) else 0
