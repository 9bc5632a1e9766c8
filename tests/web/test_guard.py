"""Who gets in and who does not: each way that another site or program could try."""

from __future__ import annotations

import json
import re
from base64 import b64encode
from hashlib import sha256

import pytest
from starlette.testclient import TestClient

from drafting.web.desk import Desk
from drafting.web.first import script
from drafting.web.form import form
from drafting.web.guard import LARGEST, POLICY
from drafting.web.server import STATIC, page
from drafting.web.worker import Worker

TOKEN, HOST = "right-token", "127.0.0.1:4242"
SPEC = """title = "Weir <b>winch</b> & ram"
number = "WW-0417"
units = "in"  # all of it

[cylinder]
bore = "3 1/2"
rod = 1.75
stroke = 16
retracted = "27 1/4"

[body_mount]
mount = "cross tube"
pin = 1.25

[rod_mount]
mount = "clevis"
pin = 1.25
"""
OWN = {"Origin": f"http://{HOST}"}


QUICK, SLOW = Worker(), Worker()
"""Two processes for all tests; they start with the first order."""


def client(path=None, cookie=True, quick=QUICK, slow=SLOW):
    made = TestClient(page(Desk(path), TOKEN, frozenset({HOST}), quick, slow),
                      base_url=f"http://{HOST}", follow_redirects=False)  # fmt: skip
    if cookie:
        made.cookies.set("drafting-4242", TOKEN, domain="127.0.0.1")
    return made


def post(made, at, body, **headers):
    return made.post(at, content=json.dumps(body), headers=OWN | headers)


def test_the_token_becomes_a_strict_cookie_and_leaves_the_address():
    answer = client(cookie=False).get(f"/?token={TOKEN}")
    assert (answer.status_code, answer.headers["location"]) == (303, "/")
    cookie = answer.headers["set-cookie"].lower()
    assert "httponly" in cookie
    assert "samesite=strict" in cookie


def test_two_pages_at_once_do_not_take_each_others_cookie():
    """A browser keeps one jar for all ports of a machine."""
    names = set()
    for port in ("4242", "4243"):
        host = f"127.0.0.1:{port}"
        made = TestClient(page(Desk(None), TOKEN, frozenset({host}), QUICK, SLOW),
                          base_url=f"http://{host}", follow_redirects=False)  # fmt: skip
        names.add(made.get(f"/?token={TOKEN}").headers["set-cookie"].partition("=")[0])
        assert made.get("/state").status_code == 200
    assert len(names) == 2


def test_half_a_letter_is_no_letter(tmp_path):
    """Half of a pair of UTF-16 can be sent as JSON; no file could be read that holds one."""
    path = tmp_path / "winch.toml"
    made = client(path)
    half = SPEC.replace("winch", "\ud800winch")
    assert post(made, "/begin", {"title": "\udfff", "units": "in", "body": "clevis",
                                 "rod": "clevis"}).status_code == 200  # fmt: skip
    assert post(made, "/look", {"text": half, "set": {"number": "\ud800"}}).status_code == 200
    saved = post(made, "/save", {"text": half, "seen": made.get("/state").json()["mark"]}).json()
    assert saved["saved"] is True
    assert path.read_bytes().decode() == SPEC.replace("winch", "\ufffdwinch") == saved["text"]


@pytest.mark.parametrize("at", ["/", "/?token=wrong", "/three-viewer.js", "/state"])
def test_without_token_nothing_is_shown(at):
    assert client(cookie=False).get(at).status_code == 403


@pytest.mark.parametrize(
    "host", ["evil.example", "127.0.0.1:80", "localhost.evil.example:4242", ""]
)
def test_a_name_that_was_pointed_here_is_turned_away(host):
    assert client().get("/state", headers={"Host": host}).status_code == 403
    assert client(cookie=False).get(f"/?token={TOKEN}", headers={"Host": host}).status_code == 403


@pytest.mark.parametrize("origin", ["http://evil.example", "null", f"http://{HOST}.evil.example",
                                    "http://127.0.0.1:9999", f"https://{HOST}", f"file://{HOST}",
                                    "file://", f"http://a@{HOST}", f"http://{HOST}/"])  # fmt: skip
def test_another_site_is_turned_away_even_with_the_cookie(origin):
    assert post(client(), "/look", {"text": SPEC}, Origin=origin).status_code == 403
    answer = client().get("/state", headers={"Sec-Fetch-Site": "cross-site"})
    assert answer.status_code == 403


def test_a_change_without_an_origin_is_turned_away():
    assert client().post("/save", content=json.dumps({"text": "x"})).status_code == 403


def test_what_is_too_large_is_413_chunked_too():
    made = client()
    assert made.post("/look", content=b"x" * (LARGEST + 1), headers=OWN).status_code == 413

    def chunks():
        for _ in range(LARGEST // 100_000 + 2):
            yield b"x" * 100_000

    assert made.post("/look", content=chunks(), headers=OWN).status_code == 413


@pytest.mark.parametrize("at", ["/../pyproject.toml", "/..%2f..%2fpyproject.toml", "/page.py",
                                "/static/../page.py", "//etc/passwd", "/server.py"])  # fmt: skip
def test_no_path_of_a_client_reaches_a_file(at):
    assert client().get(at).status_code == 404


def test_every_answer_carries_the_policy():
    own = b64encode(sha256(script().encode()).digest()).decode()
    for answer in (client().get("/"), client(cookie=False).get("/"), client().get("/none")):
        policy = answer.headers["content-security-policy"]
        assert policy == POLICY.format(script=f"'sha256-{own}'")
        assert answer.headers["x-content-type-options"] == "nosniff"
    assert "unsafe-inline" not in POLICY.split("style-src")[0]


def test_one_answer_is_the_whole_page_and_holds_the_one_script_that_may_run():
    html = client().get("/").text
    assert re.findall(r"<script>(.*?)</script>", html, re.DOTALL) == [script()]
    assert not re.search(r"<link[^>]+stylesheet|<script[^>]+src=|@import", html)
    for at in STATIC:  # letters and 3D, once there is a drawing
        assert at in html
        assert client().get(at).status_code == 200


def test_form_and_file_come_with_the_page_and_what_is_typed_ends_no_script(tmp_path):
    path = tmp_path / "winch.toml"
    path.write_text(SPEC.replace("&", "</script><script>"), encoding="utf-8")
    made = client(path)
    html = made.get("/").text
    held = re.findall(r'<script type="application/json" id="told">(.*?)</script>', html)
    assert [json.loads(h) for h in held] == [{"form": form(), "state": made.get("/state").json()}]
    assert html.count("</script>") == 2


@pytest.mark.parametrize("at", ["/look", "/sheets", "/save", "/download", "/package", "/open",
                                "/solid", "/begin", "/warm"])  # fmt: skip
def test_get_changes_nothing(at):
    assert client().get(at).status_code == 405


def test_a_file_is_saved_where_it_lies_and_only_if_nobody_else_did(tmp_path):
    path = tmp_path / "winch.toml"
    path.write_text(SPEC, encoding="utf-8")
    made = client(path)
    seen = made.get("/state").json()
    assert seen["text"] == SPEC
    assert str(tmp_path) not in json.dumps(seen)
    new = SPEC.replace("stroke = 16", "stroke = 18")
    assert post(made, "/save", {"text": new, "seen": seen["mark"]}).json()["saved"] is True
    assert path.read_text(encoding="utf-8") == new
    path.write_text("# somebody else\n" + new, encoding="utf-8")
    answer = post(made, "/save", {"text": SPEC, "seen": seen["mark"]}).json()
    assert answer["saved"] is False
    assert path.read_text(encoding="utf-8").startswith("# somebody else")


def test_without_a_file_nothing_is_written(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert post(client(), "/save", {"text": SPEC, "seen": ""}).json()["saved"] is False
    assert list(tmp_path.iterdir()) == []
