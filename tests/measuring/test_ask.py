"""The conversation: as if somebody typed it, with slips, breaks and second thoughts.

What it is held to is its own task: each answer checked as typed and on disk at once, what was
skipped asked at the end, and always a way to the end. Sizes are an invented press.
"""

import os
import random
import sys
import tomllib

import pytest

from drafting.errors import Refused
from drafting.measuring.ask import ask
from drafting.measuring.ask_file import Notebook
from drafting.measuring.ask_questions import questions
from drafting.measuring.measure import measure

GIVEN = {
    "What": "Press", "Inches": "mm", "How is the base": "clevis", "How is the rod": "plain",
    "Off": "yes", "A ": "518.2", "B ": "838.2", "T ": "418.2", "K ": "100", "L ": "420",
    "C ": "63.05", "E ": "35.98", "P1": "29.98", "H1": "30.1", "G1": "34", "W1": "70",
    "Port at": "none", "Its thread": "G 1/2", "The hour": "12:00",
}  # fmt: skip
HEAD = 'title = "Press"\nunits = "mm"\nhard_stop = true\n[body_mount]\nmount = "clevis"\n'
HEAD += '[rod_mount]\nmount = "plain"\n'


class Bench:
    """Answers one after the other; remembers what was asked and told, and the file after each."""

    def __init__(self, path, *answers, given=None):
        self.path, self.answers, self.given = path, list(answers), given
        self.asked, self.told, self.kept = [], [], []

    def hear(self, question):
        self.asked.append(question)
        self.kept.append(self.path.read_text("utf-8") if self.path.exists() else "")
        if self.answers:
            return self.answers.pop(0)
        if self.given is None:
            return "stop"
        return next((v for k, v in self.given.items() if question.startswith(k)), "")

    def run(self):
        self.ended = ask(self.path, self.hear, self.told.append)
        return self


@pytest.fixture
def path(tmp_path):
    return tmp_path / "press.toml"


@pytest.fixture
def begun(path):
    path.write_text(HEAD, encoding="utf-8")
    return path


def read(path):
    return tomllib.loads(path.read_text("utf-8"))


def test_a_conversation_ends_in_a_spec(path):
    """Answers by the letter that is asked for; the file then measures without a fault."""
    assert Bench(path, given=GIVEN).run().ended
    m = measure(path)
    assert m.open == ()
    rows = {r.letter.letter: r for r in m.rows}
    assert rows["C"].taken_as == "63 mm"
    assert rows["A"].taken_as_mm == pytest.approx(518.2 - 30.1 / 2, abs=0.1)


def test_each_answer_is_on_disk_before_the_next_question(begun):
    b = Bench(begun, "500", "501", "800").run()
    assert 'A_outer = ["500"]' in b.kept[1]  # half of the repeats
    assert 'A_outer = ["500", "501"]' in b.kept[2]
    assert read(begun)["tape"]["B_outer"] == ["800"]
    again = Bench(begun).run()
    assert again.asked[0].startswith("B ")
    assert "once more" in again.asked[0]


def test_both_readings_in_one_answer(begun):
    Bench(begun, "500, 501", "800;801").run()
    assert read(begun)["tape"] == {"A_outer": ["500", "501"], "B_outer": ["800", "801"]}


@pytest.mark.parametrize(
    "bad", ["5l8", "12 gallons", "-5", "nan", "518 (or so)", '"', "[", "1e999"]
)
def test_a_bad_answer_is_asked_again_and_never_saved(begun, bad):
    b = Bench(begun, bad).run()
    assert b.asked[0] == b.asked[1]
    assert len(b.told) > 2
    assert "tape" not in read(begun)


def test_what_is_wrong_in_the_file_is_asked_again_after_a_restart(path):
    path.write_text(HEAD + '[tape]\nA_outer = ["5l8", "518"]\nB_outer = ["838", "838"]\n', "utf-8")
    b = Bench(path, "518", "518").run()
    assert b.asked[0].startswith("A ")
    assert any("l8" in t for t in b.told)
    assert read(path)["tape"]["A_outer"] == ["518", "518"]
    assert read(path)["tape"]["B_outer"] == ["838", "838"]
    path.write_text(HEAD.replace("clevis", "clewis"), "utf-8")
    b = Bench(path, "clevis").run()
    assert b.asked[0].startswith("How is the base")
    assert read(path)["body_mount"] == {"mount": "clevis"}


def test_words_are_chosen_by_name_number_or_beginning(path):
    Bench(path, "Press", "2", "CLE", "plai").run()
    found = read(path)
    assert found["units"] == "mm"
    assert found["body_mount"]["mount"] == "clevis"
    assert found["rod_mount"]["mount"] == "plain"
    b = Bench(path, "perhaps", "n").run()
    assert read(path)["hard_stop"] is False
    assert any("known are: yes, no" in t for t in b.told)


def test_what_can_be_two_words_is_asked_again(path):
    b = Bench(path, "Press", "mm", "f", "flange").run()
    assert b.asked[2] == b.asked[3]
    assert read(path)["body_mount"]["mount"] == "flange"


def test_skipped_ones_wait_until_the_end_also_after_a_restart(begun):
    b = Bench(begun, "", "").run()  # A and B
    assert "A" in Notebook(begun).left_out
    assert b.asked[2].startswith("S ")
    b = Bench(begun, given={**GIVEN, "A ": "", "B ": "", "Left out": "yes"}).run()
    assert b.ended
    at = next(n for n, q in enumerate(b.asked) if q.startswith("Left out"))
    assert "A, B" in b.asked[at]
    assert not [q for q in b.asked[:at] if q.startswith(("A ", "B "))]
    assert [q[:2] for q in b.asked[at + 1 : at + 3]] == ["A ", "B "]
    assert b.asked.count(b.asked[at]) == 1


def test_half_of_the_repeats_is_named_at_the_end(begun):
    b = Bench(begun, "518", "", given={**GIVEN, "Left out": "no"}).run()
    assert any(q.startswith("Left out: A,") for q in b.asked)
    assert read(begun)["tape"]["A_outer"] == ["518"]


def test_back_goes_to_the_question_before_and_keeps_or_changes_it(begun):
    b = Bench(begun, "518, 518", "back", "", "838, 838", "back", "839, 839").run()
    assert [q[:2] for q in b.asked[:6]] == ["A ", "B ", "A ", "B ", "S ", "B "]
    assert read(begun)["tape"] == {"A_outer": ["518", "518"], "B_outer": ["839", "839"]}
    assert any("it was 518, 518" in t for t in b.told)
    assert Bench(begun, "back", "back").run().ended is False  # from the first: nothing breaks


def test_back_amid_the_repeats_begins_the_letter_anew(begun):
    Bench(begun, "815", "back", "518", "518").run()
    assert read(begun)["tape"]["A_outer"] == ["518", "518"]


def test_back_takes_up_what_was_skipped(begun):
    b = Bench(begun, "", "back", "518, 518").run()
    assert [q[:2] for q in b.asked[:3]] == ["A ", "B ", "A "]
    assert not Notebook(begun).left_out


def test_a_question_mark_tells_how(begun):
    b = Bench(begun, "?", "518").run()
    assert b.asked[0] == b.asked[1]
    assert any("hard stop. Twice" in t for t in b.told)
    assert any('"back"' in t for t in b.told[2:])


def test_repeats_that_disagree_are_read_again_at_the_bench(begun):
    b = Bench(begun, "518", "540", "518").run()
    assert any("readings lie 22 mm" in t for t in b.told)
    assert read(begun)["tape"]["A_outer"] == ["518", "540", "518"]
    on = Bench(begun, "", given=GIVEN).run()
    assert on.ended


def test_lengths_that_disagree_are_told_while_the_tape_is_in_hand(begun):
    """Source: B - A = 838 - 518 = 320; a travel of 300 leaves 20."""
    b = Bench(begun, "518, 518", "838, 838", "300, 300", "S", "320, 320").run()
    assert "S = 300: 20 apart" in b.asked[3]
    assert b.asked[4].startswith("S ")
    assert read(begun)["tape"]["S"] == ["320", "320"]
    assert b.asked[5].startswith("T ")  # and nothing is apart any more


def test_a_gap_that_is_left_is_asked_once(begun):
    b = Bench(begun, "518, 518", "838, 838", "300, 300", "none", given=GIVEN).run()
    assert b.ended
    assert sum("S = 300: 20 apart" in q for q in b.asked) == 1


@pytest.mark.parametrize(
    ("answers", "said"),
    [(("838, 838", "518, 518"), "open length is more"),
     (("518, 518", "838, 838", *[""] * 6, "30, 30", "", "", "36, 36"), "than the rod")],
)  # fmt: skip
def test_sizes_that_cannot_be_are_told(begun, answers, said):
    b = Bench(begun, *answers).run()
    assert any(said in q for q in b.asked)


def test_a_port_that_means_two_things_is_told_at_once(path):
    out = "# left out: A B S T K L X Y C D F E P1 H1 G1 W1 T1 N1 Z1 R1 R2\n"
    path.write_text(out + HEAD, encoding="utf-8")
    b = Bench(path, "none", "1/2 BSP", "G 1/2").run()
    assert b.asked[1] == b.asked[2]
    assert any("G 1/2" in t and "Rc 1/2" in t for t in b.told)
    assert read(path)["base_port"] == {"adapter": "none", "thread": "G 1/2"}


def test_a_persons_own_lines_stay(path):
    own = (
        "# from the barn\n"
        + HEAD
        + "\n[tape]   # the yellow one\nA_outer = [\n  '518',\n  '518',\n]\n"
    )
    path.write_text(own, encoding="utf-8")
    Bench(path, "838, 838").run()
    text = path.read_text("utf-8")
    assert "# from the barn" in text
    assert "# the yellow one" in text
    assert read(path)["tape"] == {"A_outer": ["518", "518"], "B_outer": ["838", "838"]}


def test_names_and_other_ways_are_not_asked_again(path):
    path.write_text(HEAD + "[tape]\nclosed_outer = [518, 518]\nB = [838, 838]\n", "utf-8")
    assert Bench(path).run().asked[0].startswith("S ")


def test_what_is_no_text_of_readings_is_refused(path):
    path.write_bytes(b"\xff\xfe\x00")
    with pytest.raises((Refused, UnicodeDecodeError)):
        ask(path, lambda q: "stop", lambda t: None)


@pytest.mark.parametrize("seed", range(12))
def test_it_can_always_be_finished(path, seed):
    """Whatever was typed before: from there on, empty answers lead to the end."""
    rng = random.Random(seed)
    words = ["", "?", "back", "foo", "1", "2", "yes", "518", "63.05, 63", "12:00", "G 1/2", "-3",
             "none", "1/2 BSP", "10 over 18 mm", "9" * 400, "π", "'\"\\", "A"]  # fmt: skip
    Bench(path, "Press", "mm", "clevis", "pin eye").run()
    Bench(path, *(rng.choice(words) for _ in range(60))).run()
    b = Bench(path, given={}).run()
    assert b.ended
    assert len(b.asked) < 3 * len(list(questions(Notebook(path).data)))
    measure(path)  # and what is there can be read


@pytest.mark.skipif(sys.platform == "win32", reason="no pseudo terminals there")
def test_at_a_terminal(tmp_path):
    """The command itself, at a terminal, broken off by an end of file."""
    import pty
    import subprocess

    path = tmp_path / "press.toml"
    ours, theirs = pty.openpty()
    command = [sys.executable, "-m", "drafting", "measure", str(path), "--ask"]
    run = subprocess.Popen(command, stdin=theirs, stdout=theirs, stderr=theirs, close_fds=True)
    os.close(theirs)
    os.write(ours, b"Press\nmm\nclevis\nplain\nyes\n518.2\n\x04")
    said = b""
    while True:
        try:
            more = os.read(ours, 4096)
        except OSError:  # how a terminal ends on Linux
            break
        if not more:
            break
        said += more
    assert run.wait(timeout=60) == 1
    os.close(ours)
    assert b"once more" in said
    assert b"goes on from here" in said
    assert read(path)["tape"]["A_outer"] == ["518.2"]
