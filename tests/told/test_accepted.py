"""A shortfall that somebody accepted: shown by name, reason and day; number, verdict and exit status stay."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from underpour.cli import main

SHORT = (Path(__file__).parents[2] / "examples" / "frost-wall-workshop" / "brief.toml").read_text("utf-8")
ENTRY = """
[[accept]]
finding = "{finding}"
{at}
reason  = "Boats only; nobody stays there."
name    = "A. Owner"
date    = {date}
"""
FACTOR = "moisture.surface-factor"
WHOLE = "Accepted by A. Owner on 20 November 2026: Boats only; nobody stays there."


def entry(finding: str = FACTOR, at: str = "", date: str = '"2026-11-20"') -> str:
    return ENTRY.format(finding=finding, at=at, date=date)


@pytest.fixture
def told(tmp_path, monkeypatch, capsys):
    """Writes the workshop's brief with more below it, gives a command and hands back status, words and complaints."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "300")

    def give(more: str, *words: str) -> tuple[int, str, str]:
        Path("brief.toml").write_text(SHORT + more, "utf-8")
        status = main([*words[:1], "brief.toml", *words[1:]])
        said = capsys.readouterr()
        assert [path.name for path in tmp_path.iterdir()] == ["brief.toml"]
        return status, said.out, said.err

    return give


def shortfalls(text: str) -> list[dict]:
    found = json.loads(text)["alternatives"][0]["findings"]
    return [f for f in found if f["verdict"] == "falls short"]


def test_who_accepted_stands_beside_the_finding_and_in_the_count(told):
    status, out, _ = told(entry(), "answer")
    _, before, _ = told("", "answer")
    assert status == 1
    assert WHOLE in out
    assert "(1 accepted)" in out.splitlines()[-1]
    assert "accepted" not in before.splitlines()[-1]


def test_number_verdict_and_exit_status_stay(told):
    _, before, _ = told("", "answer", "--json")
    status, after, _ = told(entry(), "answer", "--json")
    assert status == 1
    accepted = [f.pop("accepted") for f in shortfalls(after) if f["id"] == FACTOR]
    assert accepted == [{"reason": "Boats only; nobody stays there.", "name": "A. Owner", "date": "2026-11-20"}]
    kept = [[f[k] for k in ("id", "value", "limit", "margin")] for f in shortfalls(before)]
    assert kept == [[f[k] for k in ("id", "value", "limit", "margin")] for f in shortfalls(after)]


def test_only_when_asked_for_does_an_accepted_shortfall_end_with_nought(told):
    ids = {f["id"] for f in shortfalls(told("", "answer", "--json")[1])}
    everything = "".join(entry(id) for id in sorted(ids))
    assert told(everything, "answer")[0] == 1
    assert told(everything, "answer", "--accepted-ok")[0] == 0
    assert told("", "answer", "--accepted-ok")[0] == 1
    assert told(everything, "compare", "--accepted-ok")[0] == 0


def test_one_that_is_not_accepted_still_ends_with_one(told):
    more = '\n[[alternative]]\nname = "z"\nset = { "floor.available-depth" = "20 in" }\n'
    shallow = SHORT.replace('available-depth = "10 in"', 'available-depth = "9 in"')
    Path("brief.toml").write_text(shallow + entry() + more, "utf-8")
    assert main(["answer", "brief.toml", "--accepted-ok"]) == 1


def test_side_by_side_shows_it_too(told):
    assert WHOLE in " ".join(told(entry(), "compare")[1].split())


def test_a_day_may_be_typed_without_quotes(told):
    assert WHOLE in told(entry(date="2026-11-20"), "answer")[1]


def test_an_entry_can_say_which_one_it_means(told):
    assert WHOLE in told(entry(at='at = { edge = "A" }'), "answer")[1]


def test_a_distance_is_typed_as_a_measure(told):
    status, _, err = told(entry("heat.floor-coldest", 'at = { distance = "1 m" }'), "answer", "--json")
    assert (status, err) == (1, "")


def test_an_entry_with_nothing_left_to_accept_is_told_as_a_note(told):
    status, out, _ = told(entry("height.total"), "answer")
    assert status == 1
    assert "accept.1: nothing is left to accept. Thickness of the build-up: stated." in out
    assert "Accepted by" not in out


@pytest.mark.parametrize(
    ("more", "words"),
    [
        (entry(f"{FACTOR}s"), ("accept.1.finding", f"{FACTOR}s", f"The nearest is {FACTOR}.")),
        (entry("soup"), ("No finding of this brief is called soup.", f"What falls short: {FACTOR} (Surface factor")),
        (entry("Surface factor of the floor"), ("No finding of this brief", f"The nearest is {FACTOR}.")),
        (entry(at='at = { edge = "Z" }'), ("accept.1.at", f"There is no {FACTOR} there.", 'edge = "A"')),
        (entry(at='at = { distance = "2 soups" }'), ("accept.1.at", f"There is no {FACTOR} there.")),
        (entry("heat.floor-coldest", 'at = { distance = "5 m" }'), ("accept.1.at", 'distance = "1 m"')),
        (entry(at='at = "A"'), ("accept.1.at", 'Write at = { edge = "A" }.')),
        (entry(at="at = { edge = true }"), ("accept.1.at", 'Write at = { edge = "A" }.')),
        (entry() + entry(), ("accept.2", "accept.1 has accepted this finding already.")),
        (entry(date='"2026-02-30"'), ("accept.1.date", "2026-02-30 is no day of the calendar.")),
        (entry(date="2026-11-20T08:00:00"), ("accept.1.date", "is no day of the calendar")),
        (entry().replace('"A. Owner"', '"  "'), ("accept.1.name", "Words are wanted here.")),
        (entry().replace('name    = "A. Owner"\n', ""), ("accept.1.name", "needs name")),
        (entry().replace("reason ", "reson "), ("accept.1.reson", "The nearest is reason.")),
    ],
)  # fmt: skip
def test_an_entry_that_cannot_be_meant_is_told(told, more, words):
    status, out, err = told(more, "answer")
    assert (status, out) == (2, "")
    assert all(word in err for word in words), err
    assert "brief.toml:" in err


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("to = 3", ("handover.to", 'Write ["one line", "another"].')),
        ("to = [3]", ("handover.to", "Words are wanted here.")),
        ('number = ""', ("handover.number", "Words are wanted here.")),
        ("number = 12", ("handover.number", "Words are wanted here.")),
        ('nummer = "12"', ("handover.nummer", "The nearest is number.")),
        ("references = { a = 1 }", ("handover.references",)),
    ],
)
def test_a_first_sheet_that_cannot_be_read_is_told(told, typed, words):
    status, out, err = told(f"\n[handover]\n{typed}\n", "answer")
    assert (status, out) == (2, "")
    assert all(word in err for word in words), err
