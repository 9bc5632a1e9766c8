"""The page's scripts as one: each module once, after what it imports, with names of its own."""

from __future__ import annotations

import pytest

from drafting.web.bundle import bundle
from drafting.web.server import HERE


@pytest.fixture
def folder(tmp_path):
    def put(**texts):
        for name, text in texts.items():
            (tmp_path / f"{name}.js").write_text(text, encoding="utf-8")
        return tmp_path

    return put


def test_modules_stand_before_who_imports_them_and_once(folder):
    made = bundle(
        folder(
            main='import { b } from "./b.js";\nimport { a } from "./a.js";\nconst own = a + b;\n',
            a="const own = 1;\nexport const a = own;\n",
            b='import { a } from "./a.js";\nexport function b() { return a; }\n',
        )
        / "main.js"
    )
    assert made.index("const from_a = ") < made.index("const from_b = ") < made.index("own = a + b")
    assert made.count("const from_a = ") == 1
    assert "return { b };" in made
    assert made.endswith("const { b } = from_b;\nconst { a } = from_a;\nconst own = a + b;\n")


def test_every_form_of_export_is_given_on(folder):
    text = (
        "export const $ = 1;\nexport class K {}\nexport async function* parts() {}\n"
        "export function f() {}\n"
    )
    made = bundle(folder(main='import { K } from "./x.js";\n', x=text) / "main.js")
    assert "return { $, K, parts, f };" in made
    assert "export" not in made


def test_nothing_of_our_scripts_is_left_for_a_browser_to_fetch():
    made = bundle(HERE / "page" / "page.js")
    assert not [line for line in made.splitlines() if line.startswith(("import ", "export "))]
    for path in (HERE / "page").glob("*.js"):
        assert path.stem == "page" or f"const from_{path.stem} = " in made
