"""Mounts that are bolted, screwed or held in bearings: what must be alike to go on at all."""

from __future__ import annotations

from functools import partial

from drafting.replacing.mounts import ENDS, WORDS
from drafting.replacing.rule import PRACTICE, Answer, Job, Rule, Said, Sides
from drafting.settle.mount import End

SAME, SAME_HOLES = 0.5, 0.3
"""Sizes of plates and places of bolt holes (mm) that nobody tells apart."""
BEARING = 0.1
"""Trunnion pins (mm) that run in the same bearings."""


def _alike(a: Said, b: Said, same: float) -> bool:
    numbers = isinstance(a, int | float) and isinstance(b, int | float)
    return abs(float(a) - float(b)) <= same if numbers else a == b


def must_match(s: Sides, name: str, mount: str, same: float, does: str, job: str) -> Answer | None:
    """Judge a size that is met on the machine: alike, or the ``job`` that would make it so.

    An empty ``job``: nothing makes it so. ``does`` is what the size is to the machine.
    """
    if not s.old.get(mount) or s.old.get(mount) != s.new.get(mount):
        return None
    if name.rpartition(".")[2] in OF_THREADS and s.old[mount] not in THREADED:
        return None
    a, b = s.old.get(name), s.new.get(name)
    if a is None and b is None:
        return None
    if a is None or b is None:
        return Answer("not known", f"{does}: known of one of the two", "measure it, or ask")
    if _alike(a, b, same):
        return Answer("same")
    if not job:
        return Answer("does not fit", does, "ask for the old one", far=1.0)
    text = f"{WORDS['body' if name.startswith('body') else 'rod']}: {job}: {does}"
    if isinstance(a, float) and isinstance(b, float):
        text += f" ({s.say(b)} in place of {s.say(a)})"
    return Answer("works with", does, jobs=(Job(job, text + CUT * (job == ADAPT), 4.0),))


OF_THREADS, THREADED = ("thread", "thread_length"), ("male thread", "female thread")
"""A thread meets the machine on these mounts; elsewhere it holds the mount on the rod."""
ADAPT = "new holes in the machine, or adapter plate"
CUT = ". A new hole cuts into no old one; a plate moves the cylinder by its own thickness"
SIZES: tuple[tuple[str, str, float, str, str], ...] = (
    ("bolts.count", "bolts", 0.0, "other holes than the machine's", ADAPT),
    ("bolts.circle", "bolt circle", SAME_HOLES, "holes beside the machine's", ADAPT),
    ("bolts.pitch.y", "bolt pitch along Y", SAME_HOLES, "holes beside the machine's", ADAPT),
    ("bolts.pitch.z", "bolt pitch along Z", SAME_HOLES, "holes beside the machine's", ADAPT),
    ("bolts.pitch.x", "bolt pitch along X", SAME_HOLES, "holes beside the machine's", ADAPT),
    ("bolts.pitch.across", "bolt pitch across", SAME_HOLES, "holes beside the machine's", ADAPT),
    ("bolts.hole", "bolt holes", SAME_HOLES, "other bolts", "bolts of the other size"),
    ("bolts.first_hole", "first hole", 0.0, "the pattern is turned", "turn the body on the plate"),
    ("thickness", "plate", SAME, "the bolts grip another thickness", "bolts of another length"),
    ("seat", "seat", 0.0, "the other face bears on the machine", ""),
    ("seat_height", "seat height", SAME, "the centre line lies higher or lower",
     "packing under the foot, or a lower seat"),
    ("shoulders", "shoulders", SAME, "the shoulders stand between the machine's bearings",
     "bearings moved, or shims at the shoulders"),
    ("thread", "thread", 0.0,
     "the machine's part has the old thread; a thinner one carries less, judge it: drafting check",
     "machine's threaded part in the other thread"),
    ("thread_length", "thread length", SAME, "more or less of it is engaged",
     "jam nut or spacer to the old place"),
)  # fmt: skip
"""Sizes of mounts that are met one for one: field, words, how near, what it is, what would do."""


def stub(s: Sides) -> Answer | None:
    """Judge a trunnion's own pins in the machine's bearings."""
    mount = "body_mount.mount"
    if s.old.get(mount) != "trunnion" or s.new.get(mount) != "trunnion":
        return None
    old, new = s.pair("body_mount.pin")
    if old is None and new is None:
        return None
    if old is None or new is None:
        return Answer("not known", "a trunnion's pin is not known", "measure it, or ask")
    if abs(new - old) <= BEARING:
        return Answer("same", old=old, new=new)
    text = f"base: bearings for {s.say(new)} trunnion pins in place of {s.say(old)}"
    return Answer("works with", "other bearings", jobs=(Job("other trunnion bearings", text, 4.0),),
                  old=old, new=new)  # fmt: skip


BEHIND = "body.behind"
"""How far the closed end lies behind the mount's datum, as drawn."""


def placed(s: Sides) -> Answer | None:
    """Judge where along the barrel a trunnion, flange or foot sits: what stands behind it."""
    name, mount = "body_mount.position", "body_mount.mount"
    if not s.old.get(mount) or s.old.get(mount) != s.new.get(mount):
        return None
    a, b = s.old.get(name), s.new.get(name)
    if a is None and b is None:
        return None
    alike = a is not None and b is not None and _alike(a, b, SAME)
    reach = s.numbers(BEHIND)
    if reach is None:
        if alike:
            return Answer("same")
        return Answer("not known", "the barrel stands elsewhere along its mount",
                      "measure the room behind and ahead of the mount")  # fmt: skip
    old, new = reach
    if alike and abs(new - old) <= SAME:
        return Answer("same")
    if alike and new < old:
        return Answer("works", f"as drawn it reaches {s.say(old - new)} less far behind it")
    if abs(new - old) <= SAME:
        return Answer("works", "as drawn it reaches as far behind it as the old one")
    more = f"{s.say(new - old)} more" if new > old else f"{s.say(old - new)} less"
    why = f"as drawn the barrel reaches {s.say(new)} behind its mount, {more} than the old one"
    return Answer("not known", why, f"measure the room behind: >= {s.bare(new)}, and ahead",
                  old=old, new=new)  # fmt: skip


def _rules(end: End) -> tuple[Rule, ...]:
    mount = f"{end}_mount.mount"
    return tuple(
        Rule(
            f"{end}_mount.{name}",
            f"{WORDS[end]} {words}",
            (mount, f"{end}_mount.{name}"),
            partial(must_match, name=f"{end}_mount.{name}", mount=mount, same=same, does=does,
                    job=job),
            PRACTICE,
            "" if name in ("bolts.count", "bolts.first_hole", "seat", "thread") else "mm",
            same=same,
        )
        for name, words, same, does, job in SIZES
    )  # fmt: skip


RULES = (
    *(rule for end in ENDS for rule in _rules(end)),
    Rule("body_mount.stubs", "trunnion pins", ("body_mount.mount", "body_mount.pin"), stub,
         PRACTICE, same=BEARING),
    Rule("body_mount.position", "mount along the barrel",
         ("body_mount.mount", "body_mount.position", BEHIND), placed, PRACTICE, same=SAME),
)  # fmt: skip
