"""Nothing stale beside the new, and nobody else's file written over."""

import json

import pytest

from drafting import apart
from drafting.cli import main
from drafting.jobs import foreign

SPEC = """\
title = "Weir lift"
number = "HB-0999"
units = "mm"
[cylinder]
bore = 63
rod = 36
stroke = 320
retracted = 700
clock_seen_from = "rod"
[body_mount]
mount = "clevis"
pin = 30
[rod_mount]
mount = "cross tube"
pin = 30
[base_port]
thread = "G 1/2"
[rod_port]
thread = "G 1/2"
"""


@pytest.fixture
def shop(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "a.toml").write_text(SPEC, encoding="utf-8")
    return tmp_path


def draw(formats, *more):
    return main(["draw", "a.toml", "-o", "out", "--formats", formats, *more])


def names(shop):
    return sorted(p.name for p in (shop / "out").iterdir())


def test_the_same_spec_in_another_format_leaves_the_first(shop):
    assert draw("svg,json") in (0, 1)
    before = names(shop)
    assert draw("pdf") in (0, 1)
    assert names(shop) == sorted([*before, "HB-0999.pdf"])


def test_what_was_made_from_an_older_state_is_taken_away(shop, capsys):
    draw("svg,pdf,json")
    (shop / "a.toml").write_text(SPEC.replace("stroke = 320", "stroke = 330"), encoding="utf-8")
    capsys.readouterr()
    draw("svg,json")
    assert "HB-0999.pdf" not in names(shop)
    assert "removed out/HB-0999.pdf" in capsys.readouterr().err


def test_a_sheet_that_is_no_more_is_taken_away(shop):
    draw("svg")
    last = (shop / "out" / "HB-0999.svg").read_bytes()
    (shop / "out" / "HB-0999-sheet9.svg").write_bytes(last)
    draw("svg")
    assert "HB-0999-sheet9.svg" not in names(shop)


def test_the_drawing_of_another_spec_is_not_written_over(shop, capsys):
    draw("json")
    before = (shop / "out" / "HB-0999.json").read_bytes()
    (shop / "a.toml").write_text(SPEC.replace("Weir lift", "Press ram"), encoding="utf-8")
    capsys.readouterr()
    assert draw("json") == 2
    assert 'is the drawing of "Weir lift"' in capsys.readouterr().err
    assert (shop / "out" / "HB-0999.json").read_bytes() == before
    assert draw("json", "--force") in (0, 1)
    title = json.loads((shop / "out" / "HB-0999.json").read_bytes())["cylinders"][0]["spec_text"]
    assert "Press ram" in title


def test_a_file_of_somebody_else_is_not_written_over(shop, capsys):
    (shop / "out").mkdir()
    (shop / "out" / "HB-0999.pdf").write_bytes(b"%PDF-1.4 not ours")
    assert draw("pdf") == 2
    assert "HB-0999.pdf" in capsys.readouterr().err
    assert (shop / "out" / "HB-0999.pdf").read_bytes() == b"%PDF-1.4 not ours"


def test_files_that_only_look_alike_are_left(shop):
    (shop / "out").mkdir()
    alike = ["HB-0999-notes.pdf", "HB-09990.svg", "HB-0999.svg.bak", ".drafting-plan.txt"]
    for name in alike:
        (shop / "out" / name).write_text("mine", encoding="utf-8")
    draw("svg")
    assert set(alike) <= set(names(shop))


def test_what_a_killed_run_left_is_told_and_kept(shop, capsys):
    (shop / "out").mkdir()
    left = shop / "out" / ".drafting-0123456789abcdef.part"
    left.write_bytes(b"half")
    draw("svg")
    assert "was left by a run that was stopped" in capsys.readouterr().err
    assert left.read_bytes() == b"half"


def test_a_linked_output_is_written_through(shop):
    (shop / "out").mkdir()
    (shop / "elsewhere").mkdir()
    real = shop / "elsewhere" / "kept.svg"
    draw("svg")
    real.write_bytes((shop / "out" / "HB-0999.svg").read_bytes())
    (shop / "out" / "HB-0999.svg").unlink()
    (shop / "out" / "HB-0999.svg").symlink_to(real)
    (shop / "a.toml").write_text(SPEC.replace("stroke = 320", "stroke = 330"), encoding="utf-8")
    before = real.read_bytes()
    draw("svg")
    assert (shop / "out" / "HB-0999.svg").is_symlink()
    assert real.read_bytes() != before


def test_every_file_that_would_be_written_over_is_asked(shop, capsys):
    draw("json")
    (shop / "out" / "HB-0999.pdf").write_bytes(b"%PDF-1.4 not ours")
    (shop / "out" / "HB-0999.svg").write_bytes(b"<svg>redrawn by hand</svg>")
    capsys.readouterr()
    assert draw("json,svg,pdf") == 2
    told = capsys.readouterr().err
    assert "HB-0999.pdf" in told
    assert "HB-0999.svg" in told
    assert (shop / "out" / "HB-0999.svg").read_bytes() == b"<svg>redrawn by hand</svg>"


def test_a_file_in_the_way_of_no_format_asked_for_is_no_reason_to_refuse(shop):
    (shop / "out").mkdir()
    (shop / "out" / "HB-0999.pdf").write_bytes(b"%PDF-1.4 not ours")
    assert draw("json") in (0, 1)
    assert (shop / "out" / "HB-0999.pdf").read_bytes() == b"%PDF-1.4 not ours"


def test_a_sheet_of_somebody_else_is_left(shop):
    draw("svg")
    mine = shop / "out" / "HB-0999-sheet9.svg"
    mine.write_text("mine", encoding="utf-8")
    draw("svg", "--force")
    assert mine.read_text(encoding="utf-8") == "mine"


def test_a_drawing_whose_number_looks_like_a_further_sheet_is_left(shop):
    other = SPEC.replace("HB-0999", "HB-0999-sheet9")
    (shop / "b.toml").write_text(other, encoding="utf-8")
    assert main(["draw", "b.toml", "-o", "out", "--formats", "svg,dxf,json"]) in (0, 1)
    before = {p.name: p.read_bytes() for p in (shop / "out").iterdir()}
    assert draw("json") in (0, 1)
    assert draw("svg", "--force") in (0, 1)
    assert before.items() <= {p.name: p.read_bytes() for p in (shop / "out").iterdir()}.items()


def test_force_takes_nothing_of_another_drawing_away(shop):
    draw("json,pdf")
    before = (shop / "out" / "HB-0999.pdf").read_bytes()
    (shop / "a.toml").write_text(SPEC.replace("Weir lift", "Press ram"), encoding="utf-8")
    assert draw("json", "--force") in (0, 1)
    assert (shop / "out" / "HB-0999.pdf").read_bytes() == before


def trapped(monkeypatch, words):
    """Make the child that reads files do this when it meets the trap."""
    code = (
        "import sys; sys.path[:] = {path!r}\n"
        "from drafting.jobs import foreign; import os, time; ask = foreign._answer\n"
        f"foreign._answer = lambda s, d: {words} if d == b'end' else ask(s, d)\nforeign.serve()"
    )
    monkeypatch.setattr(apart, "_CHILD", code)


def test_a_trap_among_files_does_not_speak_for_the_others(shop, monkeypatch):
    draw("json")
    good, trap = shop / "out" / "HB-0999.json", shop / "out" / "a.svg"
    trap.write_bytes(b"end")
    trapped(monkeypatch, "os._exit(1)")
    found = foreign.carried_texts([trap, good])
    assert "is cut short" in str(found[trap])
    assert found[good] == SPEC


def test_a_file_that_takes_all_the_time_is_told_with_the_limit(shop, monkeypatch):
    trap = shop / "a.svg"
    trap.write_bytes(b"end")
    monkeypatch.setattr(foreign, "SECONDS", 1)
    trapped(monkeypatch, "time.sleep(60)")
    assert "within 1 s" in str(foreign.carried_texts([trap])[trap])
