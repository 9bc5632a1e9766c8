"""The readings in a conversation: every answer is checked as it is typed, and saved at once.

The file of readings is the memory: what stands in it rightly is not asked again, what is wrong in
it is. An empty answer leaves a reading out until the end; ``back`` goes to the question before,
``?`` tells how, ``stop`` ends. There is no question that keeps anybody from ending.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from drafting.measuring.ask_bench import cannot_be, lengths_apart, repeats_apart
from drafting.measuring.ask_file import Answer, Notebook
from drafting.measuring.ask_questions import YES, Question, questions
from drafting.measuring.letters import both_sheets
from drafting.spec.kinds import nearest

Hear = Callable[[str], str]
Tell = Callable[[str], None]
STOP, BACK, HOW = "stop", "back", "?"
LENGTHS = tuple("ABSTKL")
MOST = 6
"""Readings of one letter; repeats that still disagree then stay open."""
WORDS = (
    'Every answer is saved. An empty one leaves a reading out; "back" goes back, "?" tells how, '
    '"stop" ends for now.'
)


class Stopped(Exception):
    """The person has had enough for today."""


class Back(Exception):
    """The person wants the question before."""


def ask(path: Path, hear: Hear = input, tell: Tell = print) -> bool:
    """Ask for what the file does not say yet, and save each answer to it.

    ``hear`` gives the answer to a question, ``tell`` shows a line. Tells whether it came to its
    end. Raises Refused for a file that cannot be read at all.
    """
    talk = _Talk(Notebook(path), hear, tell)
    try:
        talk.run()
    except (Stopped, EOFError, KeyboardInterrupt):
        tell(f"Saved in {path}; the same command goes on from here.")
        return False
    return True


class _Talk:
    def __init__(self, book: Notebook, hear: Hear, tell: Tell) -> None:
        self.book, self.hear, self.tell = book, hear, tell
        self.asked: list[str] = []
        self.settled: set[str] = set()
        self.told: set[str] = set()
        self.shown = False

    def run(self) -> None:
        self.tell(WORDS)
        for fault in self.book.faults:
            if fault.code != "missing":
                self.tell(f"    line {fault.line}: {fault.message}")
        self.through()
        left = self.left()
        if left:
            names = ", ".join(q.name for q in left)
            if self.choose(f"Left out: {names}. Go through them now", YES) == "yes":
                self.book.leave_out(frozenset())
                self.settled -= {q.name for q in left}
                self.through()

    def through(self) -> None:
        """Ask until nothing is left but what was left out."""
        while (q := self.next()) is not None:
            self.picture()
            try:
                self.put(q)
            except Back:
                self.back()
            else:
                self.asked.append(q.name)

    def next(self) -> Question | None:
        past = self.book.left_out | self.settled
        found = (q for q in questions(self.book.data) if q.name not in past and self.wanting(q))
        return next(found, None)

    def left(self) -> list[Question]:
        out = self.book.left_out
        return [q for q in questions(self.book.data) if q.name in out and self.wanting(q)]

    def wanting(self, q: Question) -> bool:
        """Tell whether a question has no answer, a wrong one, or too few readings."""
        keys = [k for k in q.keys if self.book.get(k) is not None]
        if not keys or any(self.book.wrong(k) for k in keys):
            return True
        return q.letter is not None and keys == [q.key] and len(self.readings(q)) < q.repeats

    def readings(self, q: Question) -> list[str]:
        found = self.book.get(q.key)
        listed = found if isinstance(found, list) else [] if found is None else [found]
        return [str(x) for x in listed]

    def back(self) -> None:
        """Take up the question before: what it has is told, and an empty answer keeps it."""
        if not self.asked:
            self.tell("    this is the first question")
            return
        name = self.asked.pop()
        self.book.leave_out(self.book.left_out - {name})
        self.settled.discard(name)
        q = next((q for q in questions(self.book.data) if q.name == name), None)
        if q is None:
            return
        had = self.book.get(q.key)
        if had is not None:
            said = ", ".join(map(str, had)) if isinstance(had, list) else had
            self.tell(f"    it was {said}; an empty answer keeps it")
        try:
            self.put(q, anew=had is not None)
        except Back:
            self.back()
        else:
            self.asked.append(name)

    # --- one question ---------------------------------------------------------------------------

    def put(self, q: Question, anew: bool = False) -> None:
        """Ask one question until its answer will do, is left out, or is kept (``anew``)."""
        wrong = next((w for k in q.keys if (w := self.book.wrong(k))), "")
        if wrong and self.book.get(q.key) is not None:
            self.tell(f"    in the file: {wrong}")
            self.book.drop(q.key)
        if q.letter is not None:
            self.read(q, anew)
        elif q.known:
            answer = self.choose(q.words, q.known, q, keeps=anew)
            if answer:
                self.save(q, answer == "yes" if q.known == YES else answer)
            elif not anew:
                self.leave_out(q)
        else:
            self.one(q, anew)

    def one(self, q: Question, anew: bool) -> None:
        while True:
            answer = self.answer(f"{q.words}: ", q)
            if not answer and (anew or not q.needed):
                if not anew:
                    self.leave_out(q)
                return
            if answer and self.will_do(q, answer):
                return
            if not answer:
                self.tell("    this one is needed; stop ends for now")

    def will_do(self, q: Question, answer: str) -> bool:
        """Save an answer where it can be read; else say why not."""
        if wrong := q.check(answer):
            self.tell(f"    {wrong}")
            return False
        if q.whole and not answer.isdigit():
            self.tell(f"    found {answer}; write a whole number")
            return False
        return self.tried(q, int(answer) if q.whole else answer)

    def tried(self, q: Question, value: Answer) -> bool:
        if wrong := self.book.refuses(q.key, value):
            self.tell(f"    {wrong}")
            return False
        self.save(q, value)
        return True

    def save(self, q: Question, value: Answer) -> None:
        self.book.put(q.key, value)
        self.follow(q)

    def follow(self, q: Question) -> None:
        """Say with a clock from which end it was read: as the question asked for it."""
        if q.key[-1] == "clock" and self.book.get(("clock_seen_from",)) is None:
            self.book.put(("clock_seen_from",), "rod")

    def leave_out(self, q: Question) -> None:
        self.book.leave_out(self.book.left_out | {q.name})

    # --- readings -------------------------------------------------------------------------------

    def read(self, q: Question, anew: bool) -> None:
        """Take the repeats of a letter, each saved as it comes; several may stand in one answer."""
        assert q.letter is not None
        found = [] if anew else self.readings(q)
        while len(found) < q.repeats or self.still_apart(q, found):
            again = " once more" if found else ""
            try:
                answer = self.answer(f"{q.words}{again}: ", q)
            except Back:
                if not found:
                    raise
                self.tell("    from its first reading on")
                self.book.drop(q.key)
                found = []
                continue
            if not answer:
                if anew and not found:
                    return
                if len(found) < q.repeats:
                    self.leave_out(q)
                break
            new = [x.strip() for x in answer.replace(";", ",").split(",") if x.strip()]
            if self.tried(q, [*found, *new]):
                found += new
        self.settled.add(q.name)
        if found:
            self.compare(q)

    def still_apart(self, q: Question, found: list[str]) -> bool:
        bench = self.book.bench()
        if bench is None or len(found) >= MOST:
            return False
        apart = repeats_apart(bench, q.name)
        if apart:
            self.tell(f"    {apart}; read it again, or leave it at that with an empty answer")
        return bool(apart)

    def compare(self, q: Question) -> None:
        """Hold a letter against the others while the tape is in hand."""
        bench = self.book.bench()
        if bench is None:
            return
        for gap in cannot_be(bench, q.name):
            self.again(f"{gap.words}. Read which again", gap.letters, gap.words)
        for gap in lengths_apart(bench) if q.name in LENGTHS else ():
            self.again(f"{gap.words}. Read which again", gap.letters, gap.words)

    def again(self, question: str, names: tuple[str, ...], told: str) -> None:
        """Let a reading be taken again; what is left at that is asked once and no more."""
        if told in self.told:
            return
        self.told.add(told)
        known = (*names, "none")
        name = self.choose(question, known) or "none"
        q = next((q for q in questions(self.book.data) if q.name == name), None)
        if q is not None:
            for key in q.keys:
                if self.book.get(key) is not None:
                    self.book.drop(key)
            self.settled.discard(name)

    # --- one answer -----------------------------------------------------------------------------

    def answer(self, question: str, q: Question | None = None) -> str:
        while True:
            answer = self.hear(question).strip()
            word = answer.lower()
            if word == STOP:
                raise Stopped
            if word == BACK:
                raise Back
            if answer != HOW:
                return answer
            if q is not None and q.help:
                self.tell(f"    {q.help}")
            if q is not None and q.known:
                self.tell(f"    one of: {', '.join(q.known)}; its number or beginning does too")
            if q is not None and q.letter is not None:
                self.tell("    as 3 1/2, 3.502 or 88.9 mm; both readings at once with a comma")
            self.tell(f"    {WORDS}")

    def choose(self, question: str, known: tuple[str, ...], q: Question | None = None,
               keeps: bool = False) -> str:  # fmt: skip
        """Give one of the known words, "" where it was left out; nothing needed is left out."""
        shown = ", ".join(f"{n} {w}" for n, w in enumerate(known, 1))
        while True:
            answer = self.answer(f"{question} ({shown})? ".replace("??", "?"), q).lower()
            if not answer and (keeps or q is None or not q.needed):
                return ""
            if answer.isdigit() and 1 <= int(answer) <= len(known):
                return known[int(answer) - 1]
            exact = [w for w in known if w.lower() == answer]
            begins = [w for w in known if answer and w.lower().startswith(answer)]
            if len(exact or begins) == 1:
                return (exact or begins)[0]
            self.tell(f"    {nearest(answer, known)}" if answer else f"    one of: {shown}")

    def picture(self) -> None:
        """Describe the picture of the worksheet in words, once the mounts are known."""
        tables = (self.book.get(("body_mount", "mount")), self.book.get(("rod_mount", "mount")))
        if self.shown or not all(tables) or len(list(questions(self.book.data))) < _FIRST:
            return
        self.shown = True
        base, rod = both_sheets(str(tables[0]), str(tables[1]))
        self.tell(
            "The cylinder lies with its rod to the right; letters with 1 are at the base end, "
            f"those with 2 at the rod end. Lengths run from {base.datum} at the left to "
            f"{rod.datum} at the right. 12 o'clock is up."
        )


_FIRST = 5
"""Title, units, both mounts: more questions follow only where the mounts are known."""
