"""The cautions, in our own words, and which of them apply to a cylinder.

Standards are named as places to look; editions change: see which one is in force.
"""

from __future__ import annotations

from drafting.checks.numbers import CylinderNumbers
from drafting.records import dataclass
from drafting.told.border import SPRING

ALWAYS = (
    "An estimate and a drawing: not a certificate and not a design approval. Where people, the "
    "public or a legal duty are involved, a licensed engineer and the local code decide.",
    "The lowest-rated part sets the pressure: hose, fitting, valve, tube, weld, seal or pin. Only "
    "the parts named in the spec were looked at.",
    "Block the load, lock out every energy source and relieve all pressure before any work; prove "
    "zero with a gauge (ISO 14118, ISO 4413; in the USA 29 CFR 1910.147).",
    "Never look for a leak with a hand. Oil under the skin is an emergency: to hospital at once.",
    "Never push a rod or piston out with air. Test with oil, air bled, behind a screen, never in "
    "line with the rod.",
    "Empty, open and clean it before any welding or heat; strip the seals first.",
    "Fit a relief valve. The cylinder is no stop at full speed: use cushions or outside stops.",
    "Static figures: repeated load is not covered, and welds and thread roots fail first.",
    "Factors of safety are a choice that this sheet states, not a fact.",
)
COLUMN = (
    "The column counts neither own weight, side load, play, a bent rod nor eccentric pins; a pin "
    "that cannot turn or a mount that twists ruins its figure."
)
CAN_FALL = (
    "A load that can fall needs a holding valve fixed on the cylinder's own port, and a mechanical "
    "prop for whoever works under it (ISO 4413; ISO 8643 for booms of earth-moving machines)."
)
TRAPPED = (
    "Between a holding valve and the piston the pressure stays when the machine is off; it goes "
    "only by a bleed made for it, with the load blocked."
)
BLOCKED = (
    "With the rod port blocked or metered the rod side sees more than the pump's pressure: see the "
    "figure in the list, and mind the rating of everything on that side."
)
UNSURE_METAL = (
    "A steel that nobody stated is taken from the weakest to the best that is usual: find out "
    "which it is before anything rests on it."
)
DERIVED_SIZES = "Sizes marked D were not given: check them before metal is cut."
GLAND = "Never pressurise it with a gland, ring or retaining nut missing, loose or unknown."
REFUSED = (
    "LIFTS OR CARRIES PEOPLE: this tool does not call such a cylinder safe, whatever the figures "
    "say, and no verdict here may be read so. A licensed engineer designs it and the authority in "
    "charge approves it, under the codes in force at the place: for platforms EN 280, ISO 16368 or "
    "ANSI/SAIA A92; for lifts and stair lifts EN 81, ASME A17.1/CSA B44 or ASME A18.1; for vehicle "
    "lifts EN 1493 or ANSI/ALI ALCTV; for jacks EN 1494, ASME B30.1 or ASME PASE."
)


@dataclass(frozen=True, slots=True)
class Cautions:
    """What to print: the refusal first (empty unless people are lifted), then the cautions."""

    refusal: str
    texts: tuple[str, ...]


def cautions(n: CylinderNumbers) -> Cautions:
    """Give the cautions that apply to a cylinder."""
    texts = list(ALWAYS)
    if n.action != "pull":
        texts.append(COLUMN)
    if n.duty.orientation != "horizontal":
        texts += [CAN_FALL, TRAPPED]
    if n.action == "double" and n.piston == "sealed":
        texts.append(BLOCKED)
    if n.spring:
        texts.append(SPRING)
    if not all(m.typed for m in n.steels.values()):
        texts.append(UNSURE_METAL)
    sizes = (n.bore, n.rod, n.barrel_outside, n.body_pivot, n.gland_face, n.rod_pivot)
    if any(s.origin in ("derived", "table") for s in sizes):
        texts.append(DERIVED_SIZES)
    texts.append(GLAND)
    return Cautions(REFUSED if n.duty.lifts_people else "", tuple(texts))
