"""Mounts of random spec files, with any of their fields typed; sizes in mm."""

from __future__ import annotations

from typing import Any

from tests.mount_words import EYES, PINNED, takes
from tests.whole_values import Sizes, clock

ROD_THREADS = {18: "M12x1.25", 24: "M16x1.5", 32: "M20x1.5", 45: "M27x2", 63: "M42x2", 400: "M48x2"}


def body_mount(s: Sizes, word: str, bore: float, thick: float, shell: str) -> dict[str, Any]:
    """Draw the fields of a body mount."""
    out = _mount(s, word, bore, thick)
    if word in ("trunnion", "flange", "foot"):
        s.maybe(out, 0.8, position=s.rng.choice(("base", "middle", "rod end", s.size(2.2 * bore))))
    if word == "trunnion":
        _trunnion(s, out, bore, shell)
    elif word == "flange":
        _flange(s, out, 3.0 * bore + 80, bore)
        at_base = out.get("position") == "base" and "thickness" in out
        s.maybe(out, 0.3 if at_base else 0.0, offset=0)
    elif word == "foot":
        _foot(s, out, bore)
    s.maybe(out, 0.1, held=s.rng.random() < 0.5)
    s.maybe(out, 0.1, weld_leg=s.size(0.08 * bore), weld_run=s.size(2 * bore))
    _carried(s, out, word, bore)
    return out


def rod_mount(s: Sizes, word: str, bore: float, thick: float) -> dict[str, Any]:
    """Draw the fields of a rod mount."""
    rng = s.rng
    out = _mount(s, word, bore, thick)
    thread = next(t for limit, t in ROD_THREADS.items() if thick <= limit)
    if word in ("male thread", "female thread"):
        out["thread"] = thread
        s.maybe(out, 0.6, thread_length=s.size(0.8 * thick))
        if word == "male thread" and "thread_length" in out:
            s.maybe(out, 0.4, shoulder=s.size(0.8 * thick + 15))
    elif takes(word, "adjustment", "rod") and rng.random() < 0.3:
        out["thread"] = thread
        out.pop("offset", None)
        s.maybe(out, 0.5, thread_length=s.size(thick))
        s.maybe(out, 0.5, adjustment=s.size(0.1 * thick), jam_nut=True)
    elif word == "flange":
        _flange(s, out, 1.9 * thick + 50, thick)
        s.maybe(out, 0.3 if "thickness" in out else 0.0, offset=0)
    fits = word in ("male thread", "female thread", "plain") or "thread" in out
    s.maybe(out, 0.3 if fits else 0.0, flats=s.size(0.82 * thick))
    if word in PINNED:
        s.maybe(out, 0.6, turned=rng.choice((0, 35, 90, -90, 180, "45 deg")))
    s.maybe(out, 0.1, held=rng.random() < 0.5)
    s.maybe(out, 0.1, weld_leg=s.size(0.1 * thick), weld_run=s.size(2 * thick))
    _carried(s, out, word, thick)
    return out


def _carried(s: Sizes, out: dict[str, Any], word: str, unit: float) -> None:
    """Draw what only the checks read."""
    if word in PINNED:
        s.maybe(out, 0.3, ear=s.size(0.3 * unit))
    if word in PINNED:
        s.maybe(out, 0.2, bearing_rating=s.rng.choice(("120 kN", "60000 lbf")))
    if word == "ball swivel":
        s.maybe(out, 0.3, bearing_outside=s.exact(1.6 * unit))
    if isinstance(out.get("bolts"), dict):
        s.maybe(out["bolts"], 0.4, thread="M8", grade=s.rng.choice(("8.8", "10.9", "grade 5")))


def _mount(s: Sizes, word: str, bore: float, thick: float) -> dict[str, Any]:
    if word in EYES:
        return _pinned(s, word, bore, thick)
    return _swivel(s, bore, thick) if word == "ball swivel" else {}


def _pinned(s: Sizes, word: str, bore: float, thick: float) -> dict[str, Any]:
    rng = s.rng
    pin = min(thick * rng.uniform(0.55, 0.95), 150.0)  # tables of split pins end there
    hole = pin + rng.choice((0.0, 0.1, 0.4))
    out: dict[str, Any] = {"pin": s.exact(pin)}
    s.maybe(out, 0.8, hole=s.exact(hole + 0.001))
    bushed = "hole" in out and rng.random() < 0.3
    bushing = 1.25 * hole + 3 if bushed else hole
    if bushed:
        out["bushing"] = s.exact(bushing)
    outside = 1.9 * bushing + 8
    typed = rng.random() < 0.5
    if typed:
        out["outside"] = s.size(outside)
        s.maybe(out, 0.3 if word != "cross tube" else 0.0, nose=s.size(outside / 2 + 2))
        if word == "cross tube" and rng.random() < 0.3:
            out |= {"outside": s.exact(outside), "nose": s.exact(outside / 2)}
    s.maybe(out, 0.2 if typed else 0.0, offset=s.size(outside + 2.2 * pin + 30))
    if word == "clevis":
        gap = pin * rng.uniform(0.9, 1.3)
        s.maybe(out, 0.8, gap=s.exact(gap))
        s.maybe(out, 0.8 if "gap" in out else 0.0, width=s.size(gap + 1.2 * pin))
        if typed:
            s.maybe(out, 0.4, throat=s.size(outside / 2 + 6))
        return out
    wide = bore * rng.uniform(0.5, 1.0)
    if not takes(word, "left") or rng.random() < 0.7:
        s.maybe(out, 0.8, width=s.size(wide))
    else:
        s.maybe(out, 1.0, left=s.size(0.6 * wide))
        s.maybe(out, 0.7, right=s.size(0.5 * wide))
    s.maybe(out, 0.3 if takes(word, "grease") else 0.0, grease=rng.random() < 0.8)
    return out


def _swivel(s: Sizes, bore: float, thick: float) -> dict[str, Any]:
    rng = s.rng
    pin = float(rng.choice([d for d in (12, 16, 20, 25, 30, 40, 50, 60) if d <= max(thick, 12)]))
    out: dict[str, Any] = {"pin": s.exact(pin)}
    s.maybe(out, 0.7, hole=s.exact(pin + 0.001))
    ring = pin * rng.uniform(0.55, 0.7)
    s.maybe(out, 0.5, width=s.exact(ring))
    s.maybe(out, 0.9 if "width" in out else 0.0, ball_width=s.exact(ring * rng.uniform(1.15, 1.3)))
    s.maybe(out, 0.3, outside=s.size(2.6 * pin + 10))
    s.maybe(out, 0.2, offset=s.size(5 * pin + 40))
    s.maybe(out, 0.3, grease=rng.random() < 0.8)
    return out


def _trunnion(s: Sizes, out: dict[str, Any], bore: float, shell: str) -> None:
    across = 1.45 * bore + 20 if shell == "welded" else 2.0 * bore + 40
    pin = bore * s.rng.uniform(0.3, 0.5)
    s.maybe(out, 0.6, pin=s.exact(pin))
    s.maybe(out, 0.5, shoulders=s.size(across))
    if "shoulders" in out:
        s.maybe(out, 0.7, width=s.size(across + 3 * pin))
    s.maybe(out, 0.2 if "pin" in out else 0.0, outside=s.size(1.5 * pin + 6))
    s.maybe(out, 0.3, grease=s.rng.random() < 0.8)


def _flange(s: Sizes, out: dict[str, Any], across: float, unit: float) -> None:
    """Draw plate and holes: round with a circle, or square with a pitch."""
    rng = s.rng
    hole = max(0.12 * unit, 9.0)
    round_one = rng.random() < 0.5
    plate = s.size(across) if round_one else [s.size(across), s.size(across * rng.uniform(1, 1.2))]
    s.maybe(out, 0.6, plate=plate)
    s.maybe(out, 0.5, thickness=s.size(max(0.25 * unit, 12.0)))
    s.maybe(out, 0.6, seat=rng.choice(("base side", "rod side")))
    if "plate" in out and rng.random() < 0.6:
        inner = across - 4 * hole
        if round_one:
            count = rng.choice((4, 6, 8))
            bolts = {"count": count, "hole": s.exact(hole), "circle": s.exact(inner)}
            s.maybe(bolts, 0.7, first_hole=rng.choice(("on", "astride")))
        else:
            bolts = {"count": 4, "hole": s.exact(hole), "pitch": [s.exact(inner), s.exact(inner)]}
        out["bolts"] = bolts


def _foot(s: Sizes, out: dict[str, Any], bore: float) -> None:
    rng = s.rng
    hole = max(0.12 * bore, 9.0)
    across = 2.2 * bore + 60
    s.maybe(out, 0.4, thickness=s.size(max(0.2 * bore, 10.0)))
    s.maybe(out, 0.5, seat_height=s.size(1.15 * bore + 30))
    s.maybe(out, 0.7, clock=clock(rng, rng.choice((0, 90, 180, 270, 35, 200))))
    if rng.random() < 0.6:
        s.maybe(out, 0.7, plate=[s.size(0.5 * bore + 20), s.size(across + 4 * hole)])
        count = rng.choice((2, 4)) if bore >= 80 else 2
        along = 10.0 if count == 2 else 0.8 * bore + 40
        pitch = [s.exact(along), s.exact(across)]
        out["bolts"] = {"count": count, "hole": s.exact(hole), "pitch": pitch}
