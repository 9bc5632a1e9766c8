"""The public names stay callable whatever was imported before them."""

import drafting
import drafting.reports.text
import drafting.solids.build


def test_every_public_name_is_a_function():
    for name in drafting.__all__:
        assert callable(getattr(drafting, name)), name


def test_a_script_gets_a_report_and_checks(tmp_path):
    cylinder = drafting.load(drafting.read("specs/weir-gate.toml"))
    assert "Weir gate lift" in drafting.report(cylinder)
    assert any(check.code == "push" for check in drafting.check(cylinder))
    paths = drafting.draw(cylinder, ("svg",), tmp_path)
    assert all(path.read_bytes().startswith(b"<?xml") for path in paths)
