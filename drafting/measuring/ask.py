"""The readings in a conversation: one question at a time, every answer saved as it is given.

The file of readings is the memory: what stands in it is not asked again, so that a conversation
that broke off goes on where it was. An empty answer leaves a reading out; ``stop`` ends.
"""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from drafting.factors import Misread
from drafting.files import write_all
from drafting.measuring.letters import WAYS, Letter, both_mounts, both_sheets, both_turn, letters
from drafting.measuring.readings_file import SIZE, TOOLS
from drafting.measuring.rest_of_spec import placed_by_sight
from drafting.model.catalog import ENDS, mount_words
from drafting.spec.kinds import nearest, read_value
from drafting.spec.write import quote

Hear = Callable[[str], str]
Tell = Callable[[str], None]
Answer = str | int | list[str]
STOP = "stop"


class Stopped(Exception):
    """The person has had enough for today."""


def ask(path: Path, hear: Hear = input, tell: Tell = print) -> bool:
    """Ask for what the file does not say yet, and save each answer to it.

    ``hear`` gives the answer to a question, ``tell`` shows a line. Tells whether it came to its
    end.
    """
    talk = _Talk(path, hear, tell)
    try:
        talk.run()
    except (Stopped, EOFError):
        tell(f"Saved in {path}; the same command goes on from here.")
        return False
    return True


class _Talk:
    def __init__(self, path: Path, hear: Hear, tell: Tell) -> None:
        self.path, self.hear, self.tell = path, hear, tell
        text = path.read_text(encoding="utf-8") if path.exists() else ""
        self.data: dict[str, Any] = tomllib.loads(text)
        self.kept = text

    def run(self) -> None:
        self.tell('An empty answer leaves a reading out, "stop" ends; every answer is saved.')
        self.words()
        body, rod = (str(self.data[t]["mount"]) for t in ("body_mount", "rod_mount"))
        self.tell(_picture(body, rod))
        for letter in letters(body, rod):
            self.letter(letter)
        self.seen(body, rod)
        for table, end in (("base_port", "base"), ("rod_port", "rod")):
            self.port(table, end)

    def words(self) -> None:
        self.text((), "title", "What is the cylinder for?", required=True)
        self.choice((), "units", "Inches or millimetres, for bare numbers?", ("in", "mm"))
        for end, said in zip(ENDS, ("base", "rod"), strict=True):
            question = f"How is the {said} end mounted?"
            self.choice((f"{end}_mount",), "mount", question, mount_words(end))
        self.yes((), "hard_stop", "Off the machine, drained, ports open, so that it can be pushed "
                 "and pulled to a hard stop (yes, no)?")  # fmt: skip

    def seen(self, body: str, rod: str) -> None:
        """Ask for what is seen, not measured."""
        mounts = both_mounts(body, rod)
        for table, mount in zip(("body_mount", "rod_mount"), mounts, strict=True):
            if mount.worksheet.reads("bolts"):
                self.number((table,), "bolts", "How many bolt holes?")
            if "seat" in mount.fields:
                faces = ("base side", "rod side")
                self.choice((table,), "seat", f"Which face of the {mount.word} bears?", faces)
            if placed_by_sight(mount):
                places = ("base", "middle", "rod end")
                self.choice((table,), "position", f"Where does the {mount.word} sit?", places)
        if mounts[1].worksheet.has("thread"):
            self.text(("rod_mount",), "pitch", 'Pitch of the thread, as "12 tpi" or "1.5 mm"')
        if both_turn(body, rod):
            self.number(("rod_mount",), "turned", "Degrees from body pin to rod pin (0 or 90)")

    def number(self, at: tuple[str, ...], key: str, question: str) -> None:
        while not self.has(at, key):
            answer = self.answer(f"{question}: ")
            if answer.isdigit():
                self.save(at, key, int(answer))
            elif not answer:
                return

    def letter(self, letter: Letter) -> None:
        read = {k for t in TOOLS for k in self.data.get(t, {})}
        have = read | {k.rpartition("_")[0] for k in read if k.endswith(tuple(WAYS)[1:])}
        if letter.letter in have or letter.name in have:
            return
        key = letter.letter
        question = f"{key}  {letter.what} ({letter.tool})"
        if key in ("A", "B"):
            question += ", over the outer edges of both pin holes; faces as they are"
            key += "_outer"
        elif key in ("T", "K", "L"):
            question += ", over the outer edge of the pin hole; a face as it is"
            key += "_outer"
        if letter.tip:
            self.tell(f"    {letter.tip}")
        found: list[str] = []
        while len(found) < 2:
            again = " once more" if found else ""
            answer = self.answer(f"{question}{again}: ")
            if not answer:
                break
            if self.is_size(answer):
                found.append(answer)
        if found:
            self.save((letter.tool,), key, found)

    def port(self, table: str, end: str) -> None:
        self.choice((table,), "adapter", f"Port at the {end} end: is an adapter in it, is it out "
                    "now, or was there none?", ("out", "none", "in"))  # fmt: skip
        self.text((table,), "thread", "Its thread, if you know it, as SAE-8 or 1/2 NPT")
        if "thread" not in self.data.get(table, {}):
            self.text((table,), "female", "Inside the port's thread, over the crests", size=True)
            self.text((table,), "pitch", 'Its pitch, as "16 tpi" or "1.5 mm"')
        self.text((table,), "clock", "The hour that it faces, seen from the rod end, as 12:00")
        if "clock" in self.data.get(table, {}) and "clock_seen_from" not in self.data:
            self.save((), "clock_seen_from", "rod")

    # --- one answer -----------------------------------------------------------------------------

    def has(self, at: tuple[str, ...], key: str) -> bool:
        return key in (self.data.get(at[0], {}) if at else self.data)

    def text(self, at: tuple[str, ...], key: str, question: str, size: bool = False,
             required: bool = False) -> None:  # fmt: skip
        while not self.has(at, key):
            answer = self.answer(f"{question}: ")
            if answer and (not size or self.is_size(answer)):
                self.save(at, key, answer)
            elif not answer and not required:
                return

    def choice(self, at: tuple[str, ...], key: str, question: str, known: tuple[str, ...]) -> None:
        while not self.has(at, key):
            answer = self.answer(f"{question} ({', '.join(known)}): ").lower()
            if answer in known:
                self.save(at, key, answer)
            else:
                self.tell(f"    {nearest(answer, known)}")

    def yes(self, at: tuple[str, ...], key: str, question: str) -> None:
        while not self.has(at, key):
            answer = self.answer(f"{question} ").lower()
            if answer in ("yes", "y", "no", "n"):
                self.save(at, key, answer[0] == "y")

    def answer(self, question: str) -> str:
        answer = self.hear(question).strip()
        if answer.lower() == STOP:
            raise Stopped
        return answer

    def is_size(self, answer: str) -> bool:
        try:
            read_value(answer, answer, SIZE, str(self.data["units"]))
        except Misread as wrong:
            self.tell(f"    {wrong}")
            return False
        return True

    def save(self, at: tuple[str, ...], key: str, value: Answer) -> None:
        """Put an answer into the text of the file, below its heading, and write the file."""
        (self.data.setdefault(at[0], {}) if at else self.data)[key] = value
        line = f"{key} = {_toml(value)}"
        lines = self.kept.splitlines()
        if at:
            heading = f"[{at[0]}]"
            if heading not in lines:
                lines += ["", heading]
            start = lines.index(heading) + 1
        else:
            start = 0
        stop = next((n for n in range(start, len(lines)) if lines[n].startswith("[")), len(lines))
        while stop > start and not lines[stop - 1].strip():
            stop -= 1
        lines.insert(stop, line)
        self.kept = "\n".join(lines) + "\n"
        write_all({self.path: self.kept.encode("utf-8")})


def _toml(value: Answer) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int):
        return str(value)
    if isinstance(value, list):
        return f"[{', '.join(quote(v) for v in value)}]"
    return quote(value)


def _picture(body: str, rod: str) -> str:
    """Describe the picture of the worksheet in words."""
    said: Mapping[str, str] = {"1": "base end, left", "2": "rod end, right"}
    ends = "; ".join(f"letters with {n} are at the {w}" for n, w in said.items())
    base, rod_end = both_sheets(body, rod)
    return (
        f"The cylinder lies with its rod to the right; {ends}. Lengths run from {base.datum} at "
        f"the left to {rod_end.datum} at the right. 12 o'clock is up."
    )
