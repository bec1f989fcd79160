"""Who may speak to the desk: this machine's browser, on our own page, in pieces of a bounded size."""

import http.client
import json

import pytest
from served import TOKEN

from underpour.desk.guard import BODY, BRIEF

HEAD = {"X-Desk-Token": TOKEN, "Content-Type": "application/json"}
TEXT = '[project]\ntitle = "Shed"\n'


def asked(desk, method: str, path: str, headers: dict[str, str], body: bytes = b"") -> tuple[int, str, dict[str, str]]:
    """A request with just these headers: what a browser would not let a page send is sent here."""
    link = http.client.HTTPConnection("127.0.0.1", desk.port, timeout=30)
    link.putrequest(method, path, skip_host=True, skip_accept_encoding=True)
    for name, value in {"Host": f"127.0.0.1:{desk.port}", "Content-Length": str(len(body)), **headers}.items():
        link.putheader(name, value)
    link.endheaders(body)
    told = link.getresponse()
    found = told.status, told.read().decode(), dict(told.getheaders())
    link.close()
    return found


@pytest.mark.parametrize(
    "host",
    ["evil.example", "127.0.0.1.evil.example:80", "0.0.0.0", "192.168.1.7", "", "[::1", "localhost@evil.example"],
)
def test_another_host_gets_nothing(desk, host):
    for path in ("/", "/api/briefs", "/static/htmx.min.js", "/api/openapi.json"):
        status, told, _ = asked(desk, "GET", path, {"Host": host})
        assert status == 403
        assert json.loads(told)["words"] == "This page answers on this machine only, under 127.0.0.1 or localhost."


@pytest.mark.parametrize("host", ["127.0.0.1", "localhost:9", "LOCALHOST", "[::1]:8642"])
def test_this_machine_is_known_by_each_of_its_names(desk, host):
    assert asked(desk, "GET", "/", {"Host": host})[0] == 200


CHANGES = [
    ("POST", "/api/briefs"), ("PUT", "/api/briefs/1"), ("DELETE", "/api/briefs/1"), ("POST", "/api/briefs/import"),
    ("POST", "/api/briefs/1/undo"), ("POST", "/api/briefs/1/duplicate"), ("POST", "/api/edit"), ("POST", "/api/answer"),
    ("POST", "/api/plan"), ("POST", "/api/jobs"), ("DELETE", "/api/jobs/x"), ("POST", "/begin/demo"),
    ("POST", "/api/choose"), ("DELETE", "/api/choose/x"),
    ("POST", "/briefs/1/aside"), ("PATCH", "/api/briefs/1"), ("POST", "/nowhere"),
]  # fmt: skip


@pytest.mark.parametrize(
    "token", [{}, {"X-Desk-Token": ""}, {"X-Desk-Token": TOKEN[:-1]}, {"X-Desk-Token": "é" + TOKEN}]
)
def test_nothing_is_changed_without_the_token(desk, token):
    number = desk.begin(TEXT)
    headers = {name: value.encode().decode("latin-1") for name, value in token.items()}
    body = json.dumps({"brief": "x = 1", "version": 1, "to": 1}).encode()
    for method, path in CHANGES:
        assert asked(desk, method, path, {**headers, "Content-Type": "application/json"}, body)[0] == 403, path
    assert [desk.book.kept(number).text, len(desk.book.listed())] == [TEXT, 1]


@pytest.mark.parametrize(
    "origin",
    ["http://evil.example", "null", "https://127.0.0.1:{port}", "http://127.0.0.1:1", "http://localhost:{port}"],
)
def test_a_page_of_somebody_else_gets_nothing_even_with_the_token(desk, origin):
    headers = {**HEAD, "Origin": origin.format(port=desk.port)}
    status, told, _ = asked(desk, "POST", "/api/briefs", headers, json.dumps({"brief": TEXT}).encode())
    assert status == 403
    assert "came from another page" in told
    assert desk.book.listed() == ()


def test_our_own_page_is_heard(desk):
    headers = {**HEAD, "Origin": f"http://127.0.0.1:{desk.port}"}
    assert asked(desk, "POST", "/api/briefs", headers, json.dumps({"brief": TEXT}).encode())[0] == 201


def test_a_form_of_another_page_cannot_be_taken_for_ours(desk):
    """A plain form can send no header of its own, and no JSON."""
    for kind in ("text/plain", "application/x-www-form-urlencoded", "multipart/form-data; boundary=x"):
        body = json.dumps({"brief": TEXT}).encode()
        assert asked(desk, "POST", "/api/briefs", {"Content-Type": kind}, body)[0] == 403
        assert asked(desk, "POST", "/api/briefs", {**HEAD, "Content-Type": kind}, body)[0] == 422
    assert desk.book.listed() == ()


@pytest.mark.parametrize(
    "path",
    [
        "/",
        "/briefs/1",
        "/briefs/1/history",
        "/nowhere",
        "/api/briefs",
        "/static/htmx.min.js",
        "/api/briefs/1/brief.toml",
    ],
)
def test_every_answer_says_what_a_browser_may_do_with_it(desk, path):
    desk.begin(TEXT)
    _, _, headers = asked(desk, "GET", path, {})
    headers = {name.lower(): value for name, value in headers.items()}
    rules = dict(rule.split(" ", 1) for rule in headers["content-security-policy"].split("; "))
    assert rules["default-src"] == "'none'"
    assert rules["script-src"] == rules["style-src"] == rules["connect-src"] == "'self'"
    assert rules["frame-ancestors"] == rules["base-uri"] == "'none'"
    assert "unsafe" not in headers["content-security-policy"]
    assert headers["x-content-type-options"] == "nosniff"
    assert "access-control-allow-origin" not in headers
    assert headers["cache-control"] in ("no-store", "no-cache")


def test_a_brief_may_be_as_large_as_we_say_and_no_larger(desk):
    room = "#" * (BRIEF - len(TEXT))
    number = desk.begin(TEXT + room)
    assert len(desk.book.kept(number).text) == BRIEF
    for method, path, more in (
        ("POST", "/api/briefs", {}),
        ("PUT", f"/api/briefs/{number}", {"version": 1}),
        ("POST", "/api/edit", {"changes": [{"path": "project.title", "typed": "x"}]}),
        ("POST", "/api/jobs", {"kind": "page"}),
    ):
        told = desk.ask(method, path, json={"brief": TEXT + room + "#", **more})
        assert (told.status_code, told.json()["words"]) == (413, "That is too large: 256 kB at most."), path
    assert desk.ask("POST", "/api/briefs", json={"brief": TEXT + "é" * (BRIEF // 2)}).status_code == 413
    assert len(desk.book.history(number)) == len(desk.book.listed()) == 1


def test_a_body_beyond_all_measure_is_not_read_to_its_end(desk):
    link = http.client.HTTPConnection("127.0.0.1", desk.port, timeout=30)
    link.request("POST", "/api/briefs", headers={**HEAD, "Content-Length": str(10**12)})
    told = link.getresponse()
    assert told.status == 413
    assert json.loads(told.read())["words"].startswith("That is too large")
    link.close()


def test_a_body_that_hides_its_length_is_counted(desk):
    def parts():
        for _ in range(BODY // 65536 + 2):
            yield b" " * 65536

    told = desk.ask("POST", "/api/briefs", content=parts(), headers=HEAD)
    assert told.status_code == 413


@pytest.mark.parametrize("length", ["-1", "x", "1e3"])
def test_a_length_that_is_no_number_is_refused(desk, length):
    assert asked(desk, "POST", "/api/briefs", {**HEAD, "Content-Length": length})[0] == 400


@pytest.mark.parametrize(
    "path",
    [
        "/static/../app.py",
        "/static/%2e%2e/app.py",
        "/static/..%2fapp.py",
        "/pages/fonts/../write.py",
        "/static//etc/passwd",
        "/static/look",
    ],
)
def test_no_file_but_ours_is_handed_out(desk, path):
    assert asked(desk, "GET", path, {})[0] == 404


def test_the_token_is_another_one_at_each_start(tmp_path):
    from underpour.book import open_book
    from underpour.desk.app import desk_app

    book = open_book(tmp_path / "desk.book")
    tokens = {desk_app(book).state.token for _ in range(3)}
    assert len(tokens) == 3
    assert min(map(len, tokens)) >= 32
    book.close()
