"""Ports in their places: every family drawn, clocks read from both ends.

Which side 3 o'clock is on is the spec format's own rule: from the rod end +Y, from the base -Y.
Thread sizes are those of the standards' tables (SAE J1926-1 -8: 3/4 in; ISO 6162-1 DN 19: bolts
47.6 by 22.2 mm, witnessed), everything else is arithmetic by hand.
"""

import json

import pytest

from drafting.cli import main
from drafting.errors import Refused
from drafting.model.catalog import mounts_by_end
from drafting.model.load import load
from drafting.shape.frame import X, Z
from drafting.shape.pieces import extent
from drafting.spec.check import read_spec
from drafting.standards.ports import ports

PLAIN = {
    "construction": '"welded"',
    "bore": "100",
    "rod": "56",
    "stroke": "400",
    "retracted": "1100",
    "barrel_outside": "120",
    "clock_seen_from": '"rod"',
    "base_thickness": "40",
    "gland_length": "90",
    "piston_length": "70",
}
EYE = {"mount": '"pin eye"', "pin": "50", "hole": "50", "width": "56", "outside": "100"}
TIE = {
    **{k: v for k, v in PLAIN.items() if k not in ("base_thickness", "gland_length")},
    "construction": '"tie rod"',
    "square": "150",
    "tie_rod": '"M16x1.5"',
}


def spec(cylinder=PLAIN, body=EYE, rod=EYE, **tables):
    """A spec as text; a list of tables stands for an array of tables."""
    lines = ['title = "Trial"', 'units = "mm"']
    for name, table in {
        "cylinder": cylinder,
        "body_mount": body,
        "rod_mount": rod,
        **tables,
    }.items():
        for one in table if isinstance(table, list) else [table]:
            lines.append(f"[[{name}]]" if isinstance(table, list) else f"[{name}]")
            lines += [f"{k} = {v}" for k, v in one.items()]
    return "\n".join(lines) + "\n"


def settled(text):
    return load(read_spec(text.encode(), mounts=mounts_by_end(), file="trial.toml"))


def codes(text):
    """What is said of ports: (code, field) of faults, or of findings that a person must look at."""
    try:
        found = settled(text).findings
    except Refused as refused:
        return {(f.code, f.field) for f in refused.faults}
    return {(f.code, f.field) for f in found if f.level != "note"}


def port(thread="SAE-8", **more):
    return {"thread": f'"{thread}"', "clock": "12", **more}


# --- families -------------------------------------------------------------------------------------


@pytest.mark.parametrize("thread", [p.spelling for p in ports()])
def test_every_port_of_the_tables_is_drawn(thread):
    """On a bore that takes it: the thread's cylinder is as large as the table says."""
    big = {**PLAIN, "bore": "320", "rod": "200", "barrel_outside": "380", "retracted": "2400"}
    big |= {"base_thickness": "120", "gland_length": "250", "piston_length": "180"}
    c = settled(spec(big, base_port=port(thread), rod_port=port(thread, clock="6")))
    barrel = next(p for p in c.parts if p.name == "barrel")
    for p in c.ports:
        (cut,) = [q for q in barrel.pieces if q.name == f"{p.table}.thread"]
        assert cut.cut
        lo, hi = extent(cut, X)
        assert hi - lo == pytest.approx(p.thread.major_mm)
        bolts = [q for q in barrel.pieces if q.name == f"{p.table}.bolts"]
        assert len(bolts) == (4 if p.thread.is_flange else 0)
        callout = next(w for w in c.wishes if w.name == f"{p.table}.thread")
        assert set(p.thread.callout) <= set(callout.lines)


@pytest.mark.parametrize("thread", ["SAE-8", "1/2 NPT", "1/2 NPTF", "G 1/2", "Rc 1/2"])
@pytest.mark.parametrize("facing", ["base", "rod"])
def test_a_port_tube_opens_along_the_barrel(thread, facing):
    end = "rod" if facing == "base" else "base"
    c = settled(spec(**{f"{end}_port": port(thread, facing=f'"{facing}"')}))
    (p,) = c.ports
    assert p.normal == ((1.0 if facing == "rod" else -1.0), 0.0, 0.0)
    barrel = next(q for q in c.parts if q.name == "barrel")
    tube = next(q for q in barrel.pieces if q.name.endswith(".tube"))
    assert extent(tube, X)[facing == "rod"] == pytest.approx(p.outlet)
    assert extent(tube, Z)[0] >= 60 - 1e-6
    height = next(w for w in c.wishes if w.name == f"{end}_port.height")
    assert sum(extent(tube, Z)) / 2 == pytest.approx(height.b[2])
    assert height.a == (p.outlet, 0.0, 60.0)
    assert next(w.note for w in c.wishes if w.name == f"{end}_port.outlet_position") == "OUTLET"


def test_a_tie_rod_cap_takes_two_ports_one_of_them_plugged():
    extra = [{"end": '"base"', **port(clock="9", plugged="true")}]
    c = settled(spec(TIE, base_port=port(clock="3"), rod_port=port(clock="3"), extra_port=extra))
    cap = next(p for p in c.parts if p.name == "cap")
    names = {q.name for q in cap.pieces}
    assert {"base_port.thread", "extra_port[1].thread"} <= names
    lines = next(w for w in c.wishes if w.name == "extra_port[1].thread").lines
    assert "PLUGGED" in lines


@pytest.mark.parametrize("word", ["3/4 ORB", "3/4-16", "1/2 BSP", "-8", "M22x1.5"])
@pytest.mark.parametrize("table", ["base_port", "rod_port", "extra_port"])
def test_words_that_mean_two_things_are_refused_with_their_line(
    word, table, tmp_path, monkeypatch, capsys
):
    one = port(word)
    if table == "extra_port":
        one = [{"end": '"base"', **one}]
    text = spec(**{table: one})
    line = next(k for k, t in enumerate(text.splitlines(), 1) if f'"{word}"' in t)
    monkeypatch.chdir(tmp_path)
    (tmp_path / "trial.toml").write_text(text, encoding="utf-8")
    assert main(["draw", "trial.toml", "--formats", "json"]) == 2
    said = capsys.readouterr().err
    field = "extra_port[1].thread" if table == "extra_port" else f"{table}.thread"
    assert said.startswith(f"trial.toml:{line}:")
    assert f"{field}:" in said
    assert not list(tmp_path.glob("output/*"))


# --- clocks ---------------------------------------------------------------------------------------


def test_three_and_nine_from_both_ends_as_far_as_the_step_file(tmp_path, monkeypatch, capsys):
    """Four ports: 3 and 9 o'clock read from the rod end, and the same words read from the base."""
    from tests.solids.read_step import bounds, read

    monkeypatch.chdir(tmp_path)
    for side in ("rod", "base"):
        cylinder = {**PLAIN, "clock_seen_from": f'"{side}"'}
        text = spec(cylinder, base_port=port(clock="3"), rod_port=port(clock="9"))
        (tmp_path / f"{side}.toml").write_text(text, encoding="utf-8")
    main(["draw", "rod.toml", "base.toml", "--formats", "step,json", "--json"])
    said = {c["name"]: c for c in json.loads(capsys.readouterr().out)["cylinders"]}
    assert set(said) == {"rod", "base"}
    for side, sign in (("rod", 1.0), ("base", -1.0)):
        tree = read((tmp_path / "output" / f"{side}-retracted.step").read_bytes(), tmp_path)
        for table, where in (("base_port", sign), ("rod_port", -sign)):
            names = (f"{table}.thread.", f"{table}.thread")
            faces = [f for n in tree.walk() for name, some in n.faces.items()
                     if name.startswith(names) for f in some]  # fmt: skip
            assert faces, table
            low, high = [min(bounds(f)[1] for f in faces), max(bounds(f)[4] for f in faces)]
            assert (low > 40.0) if where > 0 else (high < -40.0), (side, table)


@pytest.mark.parametrize(("side", "sign"), [("rod", 1), ("base", -1)])
def test_both_readings_stand_on_the_drawing(side, sign):
    cylinder = {**PLAIN, "clock_seen_from": f'"{side}"'}
    c = settled(spec(cylinder, base_port=port(clock='"1:30"')))
    assert c.ports[0].direction == pytest.approx((0, sign * 0.5**0.5, 0.5**0.5))
    words = next(w for w in c.wishes if w.name == "base_port.thread").lines[-1]
    rod, base = ("1:30", "10:30") if side == "rod" else ("10:30", "1:30")
    assert words == f"{rod} FROM ROD END / {base} FROM BASE"


@pytest.mark.parametrize("table", ["base_port", "rod_port", "extra_port"])
def test_a_clock_without_a_viewpoint_is_a_finding_for_every_port(table):
    bare = {k: v for k, v in PLAIN.items() if k != "clock_seen_from"}
    one = port(clock="2")
    tables = {table: [{"end": '"base"', **one}] if table == "extra_port" else one}
    found = {code for code, _ in codes(spec(bare, **tables))}
    assert "clock-viewpoint" in found
    assert "clock-viewpoint" not in {code for code, _ in codes(spec(PLAIN, **tables))}
