"""``--at``: a share of the stroke or a length, and the STEP file of that position.

The lengths are arithmetic of the spec's own: closed 700, stroke 320 mm.
"""

import pytest

from drafting.cli import main
from drafting.errors import Refused
from drafting.jobs.position import extension
from drafting.model.load import checked, load
from tests.jobs.test_outputs import SPEC
from tests.solids.read_step import read


@pytest.fixture(scope="module")
def cylinder():
    return load(checked(SPEC.encode(), "a.toml"))


@pytest.mark.parametrize(
    ("text", "out"),
    [("0 %", 0), ("60 %", 192), ("12.5%", 40), ("100 %", 320), ("700", 0), ("1020 mm", 320),
     ("29 in", 36.6), ("2 ft 6 in", 62)],
)  # fmt: skip
def test_a_position(text, out, cylinder):
    assert extension(text, cylinder) == pytest.approx(out, abs=1e-9)


@pytest.mark.parametrize(
    ("text", "said"),
    [("101 %", "whole stroke"), ("-5 %", "60 %"), ("far", "60 %"), ("699", "closed 700 mm"),
     ("1021", "open 1020 mm"), ("100", "write 800 mm")],
)  # fmt: skip
def test_what_is_no_position_is_refused_with_what_would_do(text, said, cylinder):
    with pytest.raises(Refused, match="no-position") as refused:
        extension(text, cylinder)
    assert said in str(refused.value)


def test_the_file_of_a_position(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "a.toml").write_text(SPEC, encoding="utf-8")
    assert main(["draw", "a.toml", "-f", "json", "--at", "far"]) == 2
    assert not (tmp_path / "output").exists()
    assert main(["draw", "a.toml", "-f", "json", "--at", "60 %"]) in (0, 1)
    made = tmp_path / "output" / "HB-0999-at-892mm.step"
    tree = read(made.read_bytes(), tmp_path)
    assert tree.named("HB-0999-rod").at == pytest.approx((192.0, 0.0, 0.0), abs=1e-6)
    (tmp_path / "a.toml").write_text(SPEC.replace("stroke = 320", "stroke = 330"), encoding="utf-8")
    assert main(["draw", "a.toml", "-f", "json"]) in (0, 1)
    assert not made.exists(), "what was made from an older state is taken away"
