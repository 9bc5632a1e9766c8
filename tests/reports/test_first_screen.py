"""The first screen of ``check`` read as a reader reads it: verdict, table, what to type, what next.

Only meaning is compared: what stands in which row, what is a word, what can be copied.
"""

import json
import re
import tomllib
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.checks.check import Check, Decides, LoadCase
from drafting.checks.of_cylinder import judge
from drafting.cli import main
from drafting.model.load import load, read
from drafting.reports.first_screen import WIDE, first_screen, summary
from drafting.reports.text import report
from drafting.reports.to_type import as_toml, to_type
from drafting.reports.verdicts import COLOURS, decides, headline, judged, what_decides
from drafting.told.short import factor, span

ROOT = Path(__file__).parents[2]
SPECS = sorted((ROOT / "specs").glob("*.toml"))
WEIR = ROOT / "specs" / "weir-gate.toml"


def check(code, verdict, low=3.0, high=4.0, asked=3.0, name="", unit="", why="common practice",
          depends_on=(), case=""):  # fmt: skip
    return Check(code, name or code, low, high, asked, why, verdict, "hand", "", unit,
                 tuple(depends_on), case)  # fmt: skip


STEEL = Decides("cylinder.pin_material", 280.0, "MPa", "at least", "pin steel", (250.0, 550.0))
CAP = Decides("cylinder.base_thickness", 17.4, "mm", "at least", "cap", (31.75, 31.75))
OPEN = Decides("duty.rod_side", "open", "", "is", "rod side", None)
EAR = Decides("rod_mount.ear", None, "", "is", "ear thickness; taken 1 1/2 in", None)

MIXED = (
    check("rod-along", "holds", 4.5, 9.99),
    check("barrel-burst", "depends", 3.0, 5.34, 4.0, depends_on=[OPEN]),
    check("rod-tear-out", "fails", 0.9, 1.1, 1.5),
    check("rod-pin-bending", "not known", None, None, depends_on=[EAR]),
    check("body-pin-shear", "depends", 2.36, 7.02, depends_on=[STEEL]),
    check("rod-pin-shear", "depends", 2.4, 7.02, depends_on=[replace(STEEL, would_do=262.0)]),
    check("cap-bending", "depends", 4.82, 8.15, depends_on=[CAP]),
)
FIGURE = check("oil-out", None, 2.5, 2.5, None, unit="l")


def weir(checks, **changes):
    """The lines of the first screen of a sample cylinder with checks of our own."""
    c = load(read(str(WEIR)))
    return first_screen(c, replace(judge(c), checks=tuple(checks), **changes))


def rows(lines):
    """The rows of the table: (check, factor, asked, verdict, what decides)."""
    found = []
    for text in lines:
        cells = re.split(r"  +", text.strip())
        if len(cells) >= 4 and cells[3] in ("FAILS", "depends", "holds", "not known"):
            found.append((*cells[:4], cells[4] if len(cells) > 4 else ""))
    return found


@pytest.mark.parametrize("path", SPECS, ids=lambda p: p.stem)
def test_every_sample_is_told_within_100_columns_in_plain_letters(path):
    c = load(read(str(path)))
    for full in (False, True):
        told = report(c, judge(c), full)
        assert "\x1b" not in told
        if not full:
            assert told.isascii()
            assert max(map(len, told.splitlines())) <= WIDE
            assert len(told.splitlines()) <= 75
    first = first_screen(c, judge(c))
    assert first[0].startswith(c.name)
    assert any(text.startswith("closed ") for text in first[1:3])


@pytest.mark.parametrize("path", SPECS, ids=lambda p: p.stem)
def test_every_check_with_a_verdict_is_in_the_table_or_named_as_holding(path):
    c = load(read(str(path)))
    j = judge(c)
    told = rows(first_screen(c, j))
    asked = judged(j.checks)
    bad = [k for k in asked if k.verdict != "holds"]
    assert len([r for r in told if r[3] != "holds"]) == len(bad)


def test_the_table_is_worst_first_and_says_what_decides():
    told = rows(weir([FIGURE, *MIXED]))
    assert [r[3] for r in told] == ["FAILS", "not known", "depends", "depends", "depends",
                                    "depends", "holds"]  # fmt: skip
    assert [r[0] for r in told[:2]] == ["eye tearing out, rod end", "pin in bending, rod end"]
    assert told[0][1:3] == ("0.90 to 1.10", "1.5")
    assert told[1][1] == "-"
    assert told[1][4] == "machine's ear or eye, rod end not"
    ratios = [float(r[1].split(" to ")[0]) / float(r[2]) for r in told[2:6]]
    assert ratios == sorted(ratios)
    by_name = {r[0]: r for r in told}
    assert "rod side: open holds" in by_name["barrel on burst"][4]
    assert "pin steel: 40.7 ksi yield or more" in by_name["pin in double shear, base end"][4]
    assert by_name["base cap in bending"][4] == "measure base thickness: 0.686 in"
    assert by_name["rod, along"][4] == ""


def test_what_has_to_change_is_said_before_what_need_be_measured():
    hole = Decides("rod_mount.hole", 99.6, "mm", "at most", "hole", (45.3, 45.3))
    pin = Decides("rod_mount.pin", 50.0, "mm", "at least", "pin", (45.0, 45.0))
    bent = check("rod-pin-bending", "fails", depends_on=[hole, pin])
    assert what_decides(bent, "mm") == "rod end pin: 50 mm or more; +1"
    assert decides(replace(hole, would_do=89.0), "mm") == "measure rod end hole: 89 mm or less"
    # Which steel is asked of the pin whatever the machine's ear is.
    ear = Decides("rod_mount.ear", 20.0, "mm", "at most", "ear")
    steel = replace(STEEL, would_do=700.0)
    bent = check("rod-pin-bending", "not known", depends_on=[ear, steel, hole])
    assert what_decides(bent, "mm") == "pin steel: no usual one is strong enough; +2"


def test_one_verdict_line():
    assert headline([FIGURE])[0] == "NOT JUDGED"
    assert headline([MIXED[0]]) == (
        "HOLDS", "the one check holds, for the loads below and no others")  # fmt: skip
    word, said = headline(MIXED)
    assert word == "DOES NOT HOLD"
    assert "1 of 7 fails: eye tearing out (rod end)" in said
    assert "1 not known" in said
    assert "4 depend (pin steel decides 2)" in said
    assert "1 holds" in said
    word, said = headline([MIXED[0], MIXED[1]])
    assert word == "NOT CONFIRMED"
    assert "of 2 checks 0 fail" in said


def test_lines_to_type_can_be_copied_and_would_do():
    c = load(read(str(WEIR)))
    lines = to_type(c, MIXED)
    typed = tomllib.loads("\n".join(as_toml(lines, 90)))
    assert typed["duty"]["rod_side"] == "open"
    # The harder of both demands is 280 MPa: 1018 cold drawn has 370 (Shigley, table A-20).
    assert typed["cylinder"]["pin_material"] == "1018 cold drawn"
    # Drawn thicker than asked: what is drawn is what to measure.
    assert typed["cylinder"]["base_thickness"] == "1 1/4"
    assert typed["rod_mount"]["ear"] == "..."
    thick = replace(CAP, would_do=40.0)
    (line,) = to_type(c, [check("cap-bending", "depends", depends_on=[thick])])
    assert tomllib.loads(f"a = {line.value}")["a"] == "1 5/8"
    assert "measure it" in line.why
    most = replace(CAP, would_do=20.0, sense="at most")
    (line,) = to_type(c, [check("cap-bending", "depends", depends_on=[most])])
    assert tomllib.loads(f"a = {line.value}")["a"] == "3/4"


def test_a_steel_that_nobody_sells_is_not_proposed():
    c = load(read(str(WEIR)))
    strong = check("rod-pin-shear", "depends", depends_on=[replace(STEEL, would_do=2_000.0)])
    (line,) = to_type(c, [strong])
    assert tomllib.loads(f"a = {line.value}")["a"] == "..."
    assert what_decides(strong, "in") == "pin steel: no usual one is strong enough"


def test_the_factor_asked_for_is_the_readers_own():
    c = load(read(str(WEIR)))
    lower = Decides("duty.safety_factor", 2.18, "", "at most", "factor")
    (line,) = to_type(c, [check("barrel-burst", "depends", depends_on=[lower])])
    assert tomllib.loads(f"a = {line.value}")["a"] == "..."
    assert "2.18 or less holds" in line.why


def test_demands_that_disagree_are_left_to_the_reader():
    c = load(read(str(WEIR)))
    more = Decides("cylinder.tie_rod_preload", 12_000.0, "N", "at least", "preload")
    less = replace(more, sense="at most")

    def line(low, high):
        pair = [(low, more), (high, less)]
        checks = [
            check(code, "depends", depends_on=[replace(d, would_do=newtons)])
            for code, (newtons, d) in zip(("tie-rod-joint", "tie-rods"), pair, strict=True)
        ]
        return to_type(c, checks)[0]

    assert line(10_000.0, 12_000.0).value == '"2250 lbf"'  # 10 kN are 2,248 lbf
    assert "no value" in line(12_000.0, 10_000.0).why


def test_a_field_of_an_inline_table_is_shown_as_a_comment():
    thread = Decides("body_mount.bolts.thread", None, "", "is", "thread")
    c = load(read(str(WEIR)))
    told = as_toml(
        to_type(c, [check("body-bolts", "not known", None, None, depends_on=[thread])]), 98
    )
    assert tomllib.loads("\n".join(told)) == {"body_mount": {}}
    assert any("bolts" in text and "thread" in text for text in told)


def test_a_place_for_the_readers_own_is_refused_until_it_is_filled_in(tmp_path, capsys):
    text = WEIR.read_text(encoding="utf-8").replace("[body_mount]", 'wall = "..."\n[body_mount]')
    (tmp_path / "weir.toml").write_text(text, encoding="utf-8")
    assert main(["check", str(tmp_path / "weir.toml")]) == 2
    assert "cylinder.wall" in capsys.readouterr().err


def test_what_holds_and_fails_is_not_asked_for():
    c = load(read(str(WEIR)))
    held = [check("rod-along", "holds", depends_on=[STEEL]), check("body-weld", "fails")]
    assert to_type(c, held) == ()


def test_load_cases_are_printed_with_what_nobody_typed():
    cases = (
        LoadCase("push", "full push", rod=54_589.0, base=17.24),
        LoadCase(
            "shut",
            "rod side shut off",
            base=17.24,
            rod_side=22.98,
            decided_by="duty.rod_side",
            avoided="open",
        ),
    )
    text = " ".join(" ".join(weir(MIXED, cases=cases)).split())
    assert (
        "Judged for full push 12,270 lbf; rod side shut off, 3,333 psi (rod side not typed)" in text
    )


def test_at_most_seven_questions_and_none_that_is_asked_twice():
    lines = weir(MIXED)
    first = next(k for k, text in enumerate(lines) if text.startswith("Ask first"))
    asked = re.findall(r"\b\d (?=[A-Z])", "\n".join(lines[first : lines.index("", first)]))
    assert asked == [f"{n} " for n in range(1, 8)]
    assert "--full" in lines[-1]


def test_absurd_sizes_stand_under_the_verdict(tmp_path):
    text = WEIR.read_text(encoding="utf-8").replace('gap   = "1 9/16"', "gap = 0.061")
    (tmp_path / "weir.toml").write_text(text, encoding="utf-8")
    c = load(read(str(tmp_path / "weir.toml")))
    lines = first_screen(c, judge(c))
    wrong = next(k for k, text in enumerate(lines) if text.startswith("ERROR"))
    assert wrong < next(k for k, text in enumerate(lines) if text.startswith("  check "))
    assert "another unit" in " ".join(lines[wrong : wrong + 3])


def test_colour_comes_on_top_of_words():
    c = load(read(str(WEIR)))
    j = replace(judge(c), checks=MIXED)
    plain = first_screen(c, j)
    painted = first_screen(c, j, paint=lambda text, code: f"<{code}>{text}</>")
    assert any("<" in text for text in painted)
    assert [re.sub(r"<[\d;/]*>", "", text) for text in painted] == plain
    assert set(COLOURS) == {"fails", "not known", "depends", "holds"}


def test_no_factor_looks_better_than_it_is():
    assert factor(2.9999) == "2.99"
    assert factor(10.59) == "10.5"
    assert span(3.0, 3.004) == "3.00"
    assert span(None, None) == "-"


@given(st.floats(0.0, 900.0))
def test_factors_are_rounded_down_only(value):
    shown = float(factor(value))
    assert shown <= value + 1e-8
    assert shown >= value - max(0.01, 0.1 * (value >= 10.0), 1.0 * (value >= 100.0))


def test_several_specs_end_with_a_line_for_each():
    c = load(read(str(WEIR)))
    j = judge(c)
    pair = [
        (replace(c, name="A"), replace(j, checks=MIXED)),
        (replace(c, name="Long-name"), replace(j, checks=MIXED[:1])),
    ]
    told = list(summary(pair))
    assert told[0].startswith("A          DOES NOT HOLD")
    assert told[-1].startswith("Long-name  HOLDS")
    assert max(map(len, told)) <= WIDE


def test_nothing_holds_while_sizes_are_wrong():
    assert headline([MIXED[0]], 1)[0] == "NOT CONFIRMED"
    assert "1 error below comes first" in headline(MIXED, 1)[1]


def test_full_has_every_caution_and_source_word_for_word():
    c = load(read(str(WEIR)))
    j = judge(c)
    told = report(c, j, full=True)
    for caution in j.cautions.texts:
        assert caution in told
    for k in judged(j.checks):
        assert k.source.replace("°", " deg") in told or not k.source.isascii()
    for q in j.questions:
        assert q.question in told


def last(capsys):
    return capsys.readouterr().err.rstrip("\n").splitlines()[-1]


def test_the_last_line_says_why_the_exit_code_is_not_0(tmp_path, capsys):
    assert main(["check", str(WEIR)]) == 1
    assert re.fullmatch(r"exit 1: \d+ of \d+ .*", last(capsys))
    assert main(["check", str(WEIR), "--json"]) == 1
    out = capsys.readouterr()
    assert out.err.rstrip().splitlines()[-1].startswith("exit 1: ")
    assert json.loads(out.out)["schema"] == 1
    loader = ROOT / "specs" / "hay-loader.toml"
    assert main(["check", str(loader)]) == 1
    assert "nothing was judged" in last(capsys)
    assert main(["check", str(WEIR), str(loader)]) == 1
    assert "2 of 2 specs" in last(capsys)


def test_draw_says_why_too(tmp_path, capsys):
    assert main(["draw", str(WEIR), "--formats", "json", "-o", str(tmp_path)]) == 0
    assert "exit 1" not in capsys.readouterr().err
    text = WEIR.read_text(encoding="utf-8")
    text = re.sub(r"(hole  = 1.766|position = .*)\n", "", text)
    (tmp_path / "open.toml").write_text(text, encoding="utf-8")
    argv = ["draw", str(tmp_path / "open.toml"), "--formats", "json", "-o", str(tmp_path)]
    assert main(argv) == 1
    why = last(capsys)
    assert why.startswith("exit 1: ")
    assert "4 sizes to be confirmed (2 holes, 2 port positions)" in why
