"""What the terminal gets: colour only where it can show it, and the reason of the exit code last.

NO_COLOR is the convention of no-color.org: set and not empty, there is no colour.
"""

import io
import json
import sys
from pathlib import Path

import pytest

from drafting.checks.check import Check
from drafting.cli import main
from drafting.cli.say import painter
from drafting.reports.why_exit import WIDE, Outcome, last_line
from drafting.values import Finding

ROOT = Path(__file__).parents[2]
SPECS = ROOT / "specs"


class Terminal(io.StringIO):
    def isatty(self):
        return True


@pytest.fixture
def plain_environment(monkeypatch):
    for name in ("NO_COLOR", "TERM", "WT_SESSION", "ANSICON"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr(sys, "platform", "linux")
    return monkeypatch


def test_colour_on_a_terminal_only(plain_environment):
    assert painter(Terminal())("FAILS", "31") == "\x1b[31mFAILS\x1b[0m"
    assert painter(io.StringIO())("FAILS", "31") == "FAILS"


@pytest.mark.parametrize(("name", "value"), [("NO_COLOR", "1"), ("TERM", "dumb")])
def test_no_colour_where_it_is_not_wanted(plain_environment, name, value):
    plain_environment.setenv(name, value)
    assert painter(Terminal())("FAILS", "31") == "FAILS"


def test_an_old_windows_console_gets_words_alone(plain_environment):
    plain_environment.setattr(sys, "platform", "win32")
    assert painter(Terminal())("FAILS", "31") == "FAILS"
    plain_environment.setenv("WT_SESSION", "1")
    assert painter(Terminal())("FAILS", "31") != "FAILS"


def finding(code, level, field="cylinder.bore"):
    return Finding(code, level, field, "words")


def check(verdict):
    return Check("rod", "rod", 1.0, 2.0, 3.0, "", verdict, "hand")


@pytest.mark.parametrize(
    ("findings", "verdicts", "why"),
    [
        ([], ["holds"], ""),
        ([finding("thread-read", "note")], None, ""),
        ([], [], "exit 1: nothing was judged: no pressure and no force is typed"),
        ([], [None], "exit 1: nothing was judged: no pressure and no force is typed"),
        ([], ["holds", "depends", "not known"], "exit 1: 2 of 3 not confirmed"),
        ([], ["fails", "depends"], "exit 1: 1 of 2 checks fails, 1 of 2 not confirmed"),
        (
            [finding("to-confirm", "warning", f"{t}.{f}")
             for t, f in (("a", "hole"), ("b", "hole"), ("base_port", "position"))],
            None,
            "exit 1: 3 sizes to be confirmed (2 holes, 1 port position)",
        ),
        (
            [finding("no-port", "warning"), finding("smells-of-unit", "error")],
            ["holds"],
            "exit 1: 1 error (smells-of-unit), 1 warning (no-port)",
        ),
    ],
)  # fmt: skip
def test_the_reason_of_the_exit_code(findings, verdicts, why):
    checks = None if verdicts is None else [check(v) for v in verdicts]
    assert last_line([Outcome("A", findings, checks)]) == why


def test_a_long_reason_drops_what_stands_in_brackets():
    many = [finding(f"a-rather-long-code-{k}", "warning") for k in range(9)]
    why = last_line([Outcome("A", many)])
    assert why == "exit 1: 9 warnings"
    assert len(why) <= WIDE


def test_several_specs_name_those_that_need_a_person():
    fine, open_one = Outcome("fine", []), Outcome("open", [finding("no-port", "warning")])
    assert last_line([fine, fine]) == ""
    assert last_line([fine, open_one]) == "exit 1: 1 of 2 specs need a person: open"


def test_json_alone_on_stdout_and_the_reason_on_stderr(capsys):
    code = main(["check", str(SPECS / "weir-gate.toml"), str(SPECS / "hay-loader.toml"), "--json"])
    said = capsys.readouterr()
    document = json.loads(said.out)
    assert code == 1
    assert said.err.rstrip().splitlines()[-1].startswith("exit 1: 2 of 2 specs")
    assert document["schema"] == 1
    contract = {"code", "name", "provided", "required", "unit", "ratio", "ok", "source", "note",
                "verdict", "factor", "factor_from", "factor_to", "depends_on", "case"}  # fmt: skip
    for entry in document["cylinders"]:
        assert {"spec", "name", "lengths", "values", "findings", "checks"} <= entry.keys()
        fails = any(row["verdict"] == "fails" for row in entry["checks"])
        assert (entry["verdict"] == "does not hold") is fails
        assert entry["verdict"] in ("does not hold", "not confirmed", "not judged")
        assert entry["summary"]
        assert all({"field", "value", "why"} <= line.keys() for line in entry["to_type"])
        for row in entry["checks"]:
            assert contract <= row.keys()
            assert row["provided"] == row["factor_from"] == row["factor"]
            assert row["ok"] == {"holds": True, "fails": False}.get(row["verdict"])
            assert all(isinstance(field, str) for field in row["depends_on"])
            if row["verdict"] is None:
                assert row["required"] is None
