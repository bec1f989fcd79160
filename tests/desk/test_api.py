"""What the page asks: saved, taken in and out as text, edited; what is refused, in which words, changing nothing."""

import json
from pathlib import Path

import pytest
from served import TOKEN

TEXT = '# mine\n[project]\ntitle = "Größe, north / shore"\nunits = "US"\n[site]\nplace = "Duluth, MN"\n'
HEAD = {"X-Desk-Token": TOKEN, "Content-Type": "application/json"}


def test_a_brief_goes_in_and_out_as_text_without_loss(desk):
    odd = TEXT.replace("\n", "\r\n") + "# \u202e \t ü 𝛌\n"
    told = desk.ask("POST", "/api/briefs/import", json={"brief": "\ufeff" + odd})
    assert told.status_code == 201
    assert (told.json()["title"], told.json()["place"]) == ("Größe, north / shore", "Duluth, MN")
    file = desk.ask("GET", f"/api/briefs/{told.json()['number']}/brief.toml")
    assert file.content == odd.encode()
    assert file.headers["content-disposition"] == 'attachment; filename="groe-north-shore.toml"'
    assert file.headers["content-type"].startswith("application/toml")


def test_a_file_of_an_earlier_revision_can_be_had(desk):
    number = desk.begin(TEXT)
    desk.ask("PUT", f"/api/briefs/{number}", json={"brief": "a = 1", "version": 1})
    assert desk.ask("GET", f"/api/briefs/{number}/brief.toml?version=1").text == TEXT
    assert desk.ask("GET", f"/api/briefs/{number}/brief.toml?version=3").status_code == 404


@pytest.mark.parametrize("path", ["api/briefs/{}", "briefs/{}", "api/briefs/{}/brief.toml"])
def test_what_was_opened_or_taken_out_stays_in_the_history(desk, path):
    from underpour.starters import demo_text

    number = desk.begin(demo_text())

    def save(version, title):
        brief = demo_text().replace("Daylight", title)
        desk.ask("PUT", f"/api/briefs/{number}", json={"brief": brief, "version": version, "sitting": "mine"})

    save(1, "Morning")
    save(2, "Noon")
    desk.ask("GET", "/" + path.format(number))
    save(3, "Evening")
    assert [each["version"] for each in desk.ask("GET", f"/api/briefs/{number}/history").json()] == [4, 3, 1]


def test_two_tabs_that_save_get_both_texts_and_words(desk):
    number = desk.begin(TEXT)
    first = desk.ask("PUT", f"/api/briefs/{number}", json={"brief": "a = 1", "version": 1})
    assert (first.status_code, first.json()["version"]) == (200, 2)
    second = desk.ask("PUT", f"/api/briefs/{number}", json={"brief": "a = 2", "version": 1})
    told = second.json()
    assert second.status_code == 409
    assert told["words"] == "Somebody saved revision 2 while you typed. Keep theirs, keep yours, or see both."
    assert (told["yours"], told["theirs"]["brief"], told["theirs"]["version"]) == ("a = 2", "a = 1", 2)
    kept = desk.ask("PUT", f"/api/briefs/{number}", json={"brief": told["yours"], "version": told["theirs"]["version"]})
    assert (kept.status_code, kept.json()["brief"]) == (200, "a = 2")


def test_a_text_that_is_unfinished_is_saved_and_keeps_its_line_in_the_list(desk):
    number = desk.begin(TEXT)
    told = desk.ask("PUT", f"/api/briefs/{number}", json={"brief": TEXT + "[floor", "version": 1}).json()
    assert (told["title"], told["brief"]) == ("Größe, north / shore", TEXT + "[floor")


def test_undo_copy_and_set_aside(desk):
    number = desk.begin(TEXT)
    desk.ask("PUT", f"/api/briefs/{number}", json={"brief": "a = 1", "version": 1})
    assert desk.ask("POST", f"/api/briefs/{number}/undo", json={"to": 1}).json()["brief"] == TEXT
    assert desk.ask("POST", f"/api/briefs/{number}/undo", json={"to": 2, "version": 1}).status_code == 409
    history = desk.ask("GET", f"/api/briefs/{number}/history").json()
    assert [(each["version"], each["back_to"]) for each in history] == [(3, 1), (2, None), (1, None)]
    copy = desk.ask("POST", f"/api/briefs/{number}/duplicate").json()
    assert (copy["brief"], copy["copied_from"]) == (TEXT, number)
    desk.ask("DELETE", f"/api/briefs/{number}")
    assert [each["number"] for each in desk.ask("GET", "/api/briefs").json()] == [copy["number"]]
    assert [each["number"] for each in desk.ask("GET", "/api/briefs?set_aside=true").json()] == [number]
    desk.ask("POST", f"/api/briefs/{number}/take-up")
    assert len(desk.ask("GET", "/api/briefs?search=SHORE duluth").json()) == 2


def test_an_edit_changes_what_is_said_and_nothing_else(desk):
    changes = [{"path": "project.units", "typed": "SI"}, {"path": "site.water-table", "typed": "9 ft"}]
    told = desk.ask("POST", "/api/edit", json={"brief": TEXT, "changes": changes}).json()
    assert told == {"brief": TEXT.replace('"US"', '"SI"') + 'water-table = "9 ft"\n', "mistakes": []}


def test_an_edit_that_cannot_be_made_is_told_and_the_text_is_as_it_was(desk):
    changes = [{"path": "project.units", "typed": "SI"}, {"path": "floor.build-up.2.board", "typed": "plain-25"}]
    told = desk.ask("POST", "/api/edit", json={"brief": TEXT, "changes": changes}).json()
    assert told["brief"] == TEXT
    assert told["mistakes"][0]["at"] == "floor.build-up.2.board"


def body(**given) -> bytes:
    return json.dumps(given).encode()


BRIEF = body(brief=TEXT)
SHAPE = "The desk did not understand its own page. Load the page again."
MEND = "This cannot be used as it is."
# What is sent, the status, the words, and what is wrong in particular.
BAD = [
    ("no body", "POST", "/api/briefs", b"", 422, SHAPE, "It is missing."),
    ("no JSON", "POST", "/api/briefs", b'{"brief": ', 422, SHAPE, "The desk cannot read what was sent."),
    ("not UTF-8", "POST", "/api/briefs", b'{"brief": "\xff"}', 400, "The desk cannot read what was sent.", ""),
    (
        "half a letter",
        "POST",
        "/api/briefs",
        b'{"brief": "\\ud800"}',
        422,
        SHAPE,
        "It is not of the kind that belongs here.",
    ),
    ("too deep", "POST", "/api/edit", b"[" * 100_000, 400, "The desk cannot read what was sent.", ""),
    ("a list", "POST", "/api/briefs", b"[]", 422, SHAPE, ""),
    (
        "a number for a text",
        "POST",
        "/api/briefs",
        body(brief=7),
        422,
        SHAPE,
        "It is not of the kind that belongs here.",
    ),
    ("no text", "PUT", "/api/briefs/1", body(version=1), 422, SHAPE, "It is missing."),
    ("no revision", "PUT", "/api/briefs/1", BRIEF, 422, SHAPE, "It is missing."),
    ("revision nought", "PUT", "/api/briefs/1", body(brief="a", version=0), 422, SHAPE, ""),
    ("a revision beyond count", "PUT", "/api/briefs/1", body(brief="a", version=10**30), 422, SHAPE, ""),
    (
        "a brief that is not there",
        "PUT",
        "/api/briefs/8",
        body(brief="a", version=1),
        404,
        "There is no brief 8 in the book.",
        "",
    ),
    ("a number that is none", "GET", "/api/briefs/x", b"", 422, SHAPE, ""),
    ("a number beyond count", "GET", "/api/briefs/99999999999999999999", b"", 422, SHAPE, ""),
    ("undo to nowhere", "POST", "/api/briefs/1/undo", body(to=9), 404, "Brief 1 has no revision 9.", ""),
    (
        "not TOML",
        "POST",
        "/api/briefs/import",
        body(brief="thickness = 2 in"),
        422,
        MEND,
        "There is more on this line than one value.",
    ),
    (
        "a picture",
        "POST",
        "/api/briefs/import",
        body(brief="\x89PNG\r\n\x1a\n"),
        422,
        MEND,
        "This line is neither a heading nor a key.",
    ),
    (
        "a web page",
        "POST",
        "/api/briefs/import",
        body(brief="<script>alert(1)</script>"),
        422,
        MEND,
        "This line is neither a heading nor a key.",
    ),
    (
        "tables without end",
        "POST",
        "/api/briefs/import",
        body(brief="a = " + "[" * 5000),
        422,
        MEND,
        "stand too deep in each other",
    ),
    (
        "too many changes",
        "POST",
        "/api/edit",
        body(brief="", changes=[{"path": "a", "typed": "b"}] * 201),
        422,
        SHAPE,
        "It is longer than 200",
    ),
    ("no change", "POST", "/api/edit", body(brief="", changes=[]), 422, SHAPE, ""),
    (
        "a change that is two",
        "POST",
        "/api/edit",
        body(brief="", changes=[{"path": "a", "typed": "b", "left_out": True}]),
        200,
        "",
        "Either type something",
    ),
    ("an unknown key", "POST", "/api/edit", body(brief="", changes=[], more=1), 422, SHAPE, ""),
    ("an unknown paper", "POST", "/api/jobs", body(kind="deck", brief=TEXT), 422, SHAPE, ""),
    (
        "a paper that is not there",
        "GET",
        "/api/jobs/none",
        b"",
        404,
        "This paper is no longer kept. Order it once more.",
        "",
    ),
    ("a page that is not there", "GET", "/api/none", b"", 404, "There is no such page.", ""),
    ("another method", "PATCH", "/api/briefs/1", b"", 405, "Nothing is done here in this way.", ""),
    ("a starter that is not there", "POST", "/begin/castle", b"", 404, "There is no such page.", ""),
    ("a starter outside the shelf", "POST", "/begin/..%2f..%2fdemo", b"", 404, "There is no such page.", ""),
]


@pytest.mark.parametrize(
    ("_name", "method", "path", "sent", "status", "words", "wrong"), BAD, ids=[name for name, *_ in BAD]
)
def test_what_cannot_be_used_is_told_in_words_and_the_book_is_unchanged(
    desk, _name, method, path, sent, status, words, wrong
):
    desk.begin(TEXT)
    before = desk.file.read_bytes()
    told = desk.ask(method, path, content=sent, headers={**HEAD, "HX-Request": "true"})
    assert told.status_code == status
    assert told.json().get("words", "") == words
    assert wrong in " ".join(each["wrong"] for each in told.json()["mistakes"])
    assert desk.file.read_bytes() == before


def test_a_line_that_is_wrong_in_a_file_is_named(desk):
    told = desk.ask("POST", "/api/briefs/import", json={"brief": "# mine\n[site\n"}).json()
    assert [(each["line"], each["wrong"]) for each in told["mistakes"]] == [(2, "This heading is not closed.")]


def test_our_own_fault_is_one_line_to_send_and_the_book_is_unchanged(desk, monkeypatch):
    def broken(*_, **__):
        raise ZeroDivisionError("in two\nlines")

    monkeypatch.setattr("underpour.book.store.Book.listed", broken)
    told = desk.ask("GET", "/api/briefs")
    assert told.status_code == 500
    assert told.json()["words"].startswith(
        "Something broke on our side. Your brief is safe. Send this line: underpour "
    )
    assert "/api/briefs, desk/api/briefs.py:" in told.json()["words"]
    assert "ZeroDivisionError: in two lines" in told.json()["words"]


def test_a_disk_that_is_full_is_told_and_nothing_is_lost(desk, monkeypatch):
    import sqlite3

    from sqlalchemy.exc import OperationalError

    number = desk.begin(TEXT)

    def full(*_, **__):
        raise OperationalError("INSERT", {}, sqlite3.OperationalError("database or disk is full"))

    monkeypatch.setattr("underpour.book.store._saved", full)
    told = desk.ask("PUT", f"/api/briefs/{number}", json={"brief": "a = 1", "version": 1})
    assert (told.status_code, told.json()["words"]) == (
        503,
        "The disk is full. Nothing was changed. Make room, then save again.",
    )
    assert desk.ask("GET", f"/api/briefs/{number}").json()["brief"] == TEXT


def test_every_word_of_the_pages_comes_from_one_file(desk, monkeypatch):
    """A made-up language: whatever is read in the list, the history and a page that is not there is in it."""
    import re

    from underpour.desk import words as desk_words

    read = desk_words.table()

    def made_up(held):
        if isinstance(held, dict):
            return {key: made_up(inner) for key, inner in held.items()}
        return "".join(
            part if part.startswith("{") else re.sub(r"[^\W\d_]", "ж", part) for part in re.split(r"(\{\w+\})", held)
        )

    spoken = made_up(read)
    desk.begin('[project]\ntitle = "1"\n')
    monkeypatch.setattr(desk_words, "table", lambda: spoken)
    for path in ("/", "/?aside=true", "/?search=9", "/briefs/1/history", "/briefs/7"):
        page = desk.ask("GET", path).text
        page = re.sub(
            r"<(head|script)\b.*?</\1>|<ul class=\"uses\">.*?</ul>", "", page, flags=re.S
        )  # the starters are the core's
        seen = re.sub(r"<[^>]*>", " ", page) + " ".join(
            re.findall(r'(?:aria-label|placeholder|title|alt)="([^"]*)"', page)
        )
        assert re.findall(r"[A-Za-z]{2,}", seen) == [], path
        assert "ж" in seen


def test_the_demo_of_the_desk_is_the_demo_of_the_examples():

    from underpour.starters import demo_text

    examples = Path(__file__).parents[2] / "examples"
    assert demo_text() == (examples / "daylight-basement" / "brief.toml").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("path", "more"),
    [
        ("/api/answer", {"turn": 1, "stage": "first"}),
        ("/api/answer", {"turn": 1, "stage": "whole"}),
        ("/api/ask", {}),
        ("/api/reply", {}),
    ],
    ids=["first", "whole", "ask", "reply"],
)
def test_no_answer_opens_a_file_that_a_brief_names(desk, monkeypatch, path, more):
    """Not even where the desk was started in the folder in which it lies."""
    garage = Path(__file__).parents[2] / "examples" / "cool-garage-by-hours"
    monkeypatch.chdir(garage)
    brief = (garage / "brief.toml").read_text(encoding="utf-8")
    told = (
        desk.what_to_ask(brief) if path == "/api/ask" else desk.ask("POST", path, json={"brief": brief, **more}).json()
    )
    (mistake,) = told["mistakes"]
    assert mistake["at"].endswith("site.weather")
    assert mistake["wrong"] == "This brief stands alone, with no folder beside it in which a file could lie."
