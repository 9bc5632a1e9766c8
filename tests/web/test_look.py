"""What the page is told of a text: the same as the command line says, and never half of it."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from drafting.cli import main
from drafting.reports.verdicts import field_words
from drafting.web.form import form
from drafting.web.look import changed, look, sheets
from tests.web.test_guard import SPEC, client, post


def whole(text):
    """All parts that a text is answered with, in one."""
    return {k: v for part in look(text) for k, v in part.items()}


def lines(answer):
    return {k: v for line in answer.text.splitlines() for k, v in json.loads(line).items()}


def test_a_change_keeps_comments_and_shows_the_new_sizes():
    found = lines(post(client(), "/look", {"text": SPEC, "set": {"cylinder.stroke": "18"}}))
    assert "# all of it" in found["text"]
    assert found["lengths"]["extended"]["mm"] == pytest.approx((27.25 + 18) * 25.4)
    assert found["lengths"]["stroke"]["words"] == "18 in (457.2 mm)"
    assert found["values"]["cylinder.barrel_outside"]["origin"] in ("table", "derived")
    assert found["typed"]["cylinder.rod"] == "1.75"
    assert found["views"].lstrip().startswith("<svg")
    assert "RETRACTED 27 1/4" in found["views"]
    assert "<metadata" not in found["views"]
    assert "@font-face" not in found["views"]
    assert found["verdict"]["word"] == "NOT JUDGED"


def test_what_does_not_go_is_told_in_the_words_of_the_command_line(tmp_path, capsys):
    wrong = SPEC.replace("rod = 1.75", "rod = 9").replace('mount = "clevis"', 'mount = "clevice"')
    found = whole(wrong)
    assert found["text"] == wrong
    assert "views" not in found
    assert found["typed"]["cylinder.rod"] == "9"
    (tmp_path / "spec.toml").write_text(wrong, encoding="utf-8")
    main(["check", str(tmp_path / "spec.toml")])
    said = capsys.readouterr().err
    assert {f["field"] for f in found["faults"]} >= {"cylinder.rod", "rod_mount.mount"}
    assert all(f["message"] in said for f in found["faults"])


def test_a_value_taken_out_and_a_table_that_is_missing():
    text = lines(post(client(), "/look", {"text": SPEC, "set": {
        "body_mount.pin": None, "duty.lifts_people": "no", "base_port.thread": "SAE-8",
        "base_port.clock": "3:00"}}))["text"]  # fmt: skip
    assert text.count("pin = 1.25") == 1
    assert "lifts_people = false" in text
    assert "[base_port]" in text


def test_markup_in_words_is_words_on_the_sheet():
    sheet = next(sheets(SPEC))["sheets"][0]
    assert "Weir &lt;b&gt;winch&lt;/b&gt; &amp; ram" in sheet
    assert "<b>" not in sheet


@pytest.mark.parametrize("body", ["", "[]", "{}", '{"text": 3}', "not json", '{"text": "a = ["}'])
def test_what_is_no_order_is_answered_and_the_page_lives_on(body):
    made = client()
    answer = made.post("/look", content=body, headers={"Origin": "http://127.0.0.1:4242"})
    assert answer.status_code in (200, 422)
    assert lines(answer)["faults"]
    assert made.get("/state").status_code == 200


def test_a_change_of_a_text_that_is_no_toml_is_told():
    answer = post(client(), "/look", {"text": "title = [", "set": {"number": "2"}})
    assert "mended" in lines(answer)["faults"][0]["message"]


def test_files_come_as_they_are_and_an_unknown_one_does_not():
    made = client()
    answer = post(made, "/download", {"text": SPEC, "format": "pdf"})
    assert answer.content.startswith(b"%PDF")
    assert "WW-0417.pdf" in answer.headers["content-disposition"]
    assert post(made, "/download", {"text": SPEC, "format": "../x"}).status_code == 422
    dropped = made.post("/open?name=old.pdf", content=answer.content,
                        headers={"Origin": "http://127.0.0.1:4242"})  # fmt: skip
    assert dropped.json()["text"] == SPEC


SPECS = Path(__file__).parents[2] / "specs"
HOLES = [  # read as a caliper does, from the limits of the standards' own tables
    ("0.69", "16", "in", "3/4-16 UNF ORB"),  # SAE J1926-1, ISO 11926-1: 17.33 to 17.69 mm
    ("18.8", "14", "mm", "G 1/2"),  # ISO 228-1, minor diameter 18.631 to 19.172 mm
    ("16.4", "1.5 mm", "mm", "M18x1.5 ISO 6149"),  # ISO 965-1 6H, 16.376 to 16.676 mm
]


@pytest.mark.parametrize(("hole", "pitch", "units", "port"), HOLES)
def test_which_thread_gives_what_the_spec_takes(hole, pitch, units, port):
    at = {"hole": hole, "pitch": pitch, "units": units}
    found = client().get("/threads", params=at).json()
    assert port in [p["type"] for p in found["ports"]]
    assert "45 deg flare" in found["not_covered"]
    for p in found["ports"]:
        text = changed(SPEC, {"base_port.thread": p["type"]})
        assert [f for f in next(look(text))["faults"] if f["field"] == "base_port.thread"] == []


@pytest.mark.parametrize(("hole", "pitch"), [("", ""), ("x", ""), ("0.7", "many"), ("9999", "1")])
def test_which_thread_tells_what_is_no_reading(hole, pitch):
    answer = client().get("/threads", params={"hole": hole, "pitch": pitch, "units": "in"})
    assert answer.status_code == 422 or answer.json()["said"].startswith("None of")


MISSED = [
    ("0.75", "16", "in", "3/4-16 UNF ORB", "the hole is off by .054 in"),  # 17.689 mm at the most
    ("0.69", "15", "in", "3/4-16 UNF ORB", "it has 16 per inch"),
    ("16.4", "1.65", "mm", "M18x1.5 ISO 6149", "it has pitch 1.5 mm"),
]


@pytest.mark.parametrize(("hole", "pitch", "units", "port", "off"), MISSED)
def test_where_no_thread_fits_the_nearest_is_said_with_what_it_misses(
    hole, pitch, units, port, off
):
    found = client().get("/threads", params={"hole": hole, "pitch": pitch, "units": units}).json()
    assert found["said"].startswith("None of the tables' ports fits.")
    assert [p["type"] for p in found["ports"]] == [port]
    assert f"The nearest is {port}: {off}" in found["said"]


def test_the_field_of_a_check_is_the_one_that_its_row_names():
    """What the strip, the table and the package lead to is what the words beside it say."""
    pressed = changed(SPEC, {"cylinder.working_pressure": "2500 psi"})
    rows = lines(post(client(), "/look", {"text": pressed}))["verdict"]["checks"]
    named = [r for r in rows if ":" in r["decides"]]
    assert {"not known", "depends"} <= {r["verdict"] for r in named}
    for r in named:
        assert r["decides"].removeprefix("measure ").startswith(field_words(r["fields"][0])), r


STRANGE = [("x.pdf", b"%PDF-1.7 broken"), ("x.exe", b"MZ"), ("../../x.step", b"ISO"),
           ("x.toml", b"\xff\xfe\x00")]  # fmt: skip


@pytest.mark.parametrize(("name", "data"), STRANGE, ids=[n for n, _ in STRANGE])
def test_a_strangers_file_is_told_in_plain_words(name, data):
    answer = client().post(f"/open?name={name}", content=data,
                           headers={"Origin": "http://127.0.0.1:4242"})  # fmt: skip
    assert answer.status_code == 422
    assert answer.json()["faults"][0]["message"]
    assert "Traceback" not in answer.text


def test_the_form_asks_every_field_once_and_knows_what_each_mount_takes():
    found = form()
    names = [n for s in found["sections"] for n in s["fields"]]
    assert len(names) == len(set(names)) == len(found["fields"])
    assert {"cylinder.bore", "rod_mount.gap", "base_port.clock", "duty.push"} <= set(names)
    taken = found["taken"]["rod_mount"]
    assert "rod_mount.gap" in taken["clevis"]["first"]
    assert "rod_mount.gap" not in [*taken["pin eye"]["first"], *taken["pin eye"]["more"]]
    told = {n for way in taken.values() for w in ("first", "more") for n in way[w]}
    assert told <= set(names)
    assert found["fields"]["rod_mount.mount"]["choices"]


@pytest.mark.parametrize("name", ["weir-gate", "mill-sluice", "hatch-clamp", "lock-paddle"])
def test_whatever_would_decide_a_check_can_be_typed(name):
    """The strip leads to it, so it must be there to be led to."""
    text = (SPECS / f"{name}.toml").read_text(encoding="utf-8")
    fields = form()["fields"]
    checks = whole(text)["verdict"]["checks"]
    assert checks
    assert {f for c in checks for f in c["fields"]} <= set(fields)


def test_outlines_follow_those_of_the_views_that_the_page_has():
    """Where they were, before their sizes, and only where a line is another one."""
    first = [*look(SPEC)]
    shown = next(p for p in first if p.get("views"))
    assert not any("outline" in p for p in first)
    longer = [*look(SPEC.replace('"27 1/4"', '"28 1/4"'), shown["key"])]
    outlines = [k for k, p in enumerate(longer) if "outline" in p]
    whole = next(k for k, p in enumerate(longer) if p.get("views"))
    assert outlines
    assert max(outlines) < whole
    for k in outlines:
        ident = re.match(r'<g class="view" id="([^"]*)"', longer[k]["outline"])
        assert ident, longer[k]["outline"][:80]
        assert f'id="{ident[1]}"' in shown["views"]
        assert "<text" not in longer[k]["outline"]
    alike = [*look(SPEC.replace("winch", "hoist"), shown["key"])]
    assert not any("outline" in p for p in alike)
    assert not any("outline" in p for p in look(SPEC.replace('"27 1/4"', '"28"'), "no such key"))
