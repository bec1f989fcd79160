"""What we recommend, on paper: the numbers are those of the JSON, each refusal has its finding's words."""

from __future__ import annotations

import io
import json
import re
from pathlib import Path

import choice_cases as cases
import paper_cases
import pytest
from pypdf import PdfReader

from underpour.brief import read
from underpour.choosing import choose
from underpour.choosing.choice_json import as_json
from underpour.choosing.winning import told_apart
from underpour.cli import main
from underpour.measure import say
from underpour.papers import submittal
from underpour.papers.recommended import SHOWN, recommended

ROOT = Path(__file__).parents[2]
DAY = "2026-11-28"
HEADING = "What we recommend, and why not the others"


def squeezed(text: str) -> str:
    return "".join(text.replace("\N{ZERO WIDTH SPACE}", "").split())


def sheets(choice) -> str:
    """All sheets of a submittal, without spaces."""
    pdf = submittal(paper_cases.dossier(), paper_cases.pictures(), date=DAY, choice=choice).pdf
    return squeezed("".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages))


@pytest.fixture(scope="module")
def printed() -> str:
    return sheets(cases.choice())


@pytest.fixture(scope="module")
def workshop():
    return choose(read(ROOT / "examples" / "frost-wall-workshop" / "brief.toml"))


def stands(words: str, printed: str) -> None:
    assert squeezed(words) in printed, words


def test_a_submittal_says_it_only_where_it_is_asked_for(printed):
    stands(HEADING, printed)
    assert squeezed(HEADING) not in sheets(None)


def test_the_numbers_on_paper_are_those_of_the_json(workshop):
    printed, told = sheets(workshop), json.loads(as_json(workshop))
    system = told["units"]
    for words in told["says"]:
        stands(words, printed)
    for row in told["rows"]:
        if row["rank"] and row["rank"] > SHOWN and not row["roles"]:
            continue
        line = [str(row["rank"] or ""), row["name"]]
        numbers = [say.value(row["heat"], "W", system), say.value(row["height"], "m", system)]
        if row["first_cost"]:
            numbers = [
                f"{row['first_cost']['amount']:,.0f} {row['first_cost']['currency']}",
                f"{row['carbon']['value']:,.0f} kgCO2e",
                *numbers,
            ]
        roles = [role for role in row["roles"] if role != row["name"]]
        named = {"no foam": "bare slab"}
        said = ", ".join(named.get(role, role) for role in roles if role != row["name"])
        stands("".join([*line, f" ({said})" if said else "", *numbers]), printed)
    shown = recommended(workshop)["refused"]
    by_name = {row["name"]: row for row in (*told["rows"], *told["refused"]) if row["refusals"] and not row["rank"]}
    more = sum(int(number) for each in shown for number in re.findall(r"refuses (\d+) more", each["more"]))
    assert len(shown) + more == len(by_name), "each stands for itself or is counted"
    for each in shown:
        row = by_name[each["name"].partition(" (")[0] if each["name"] not in by_name else each["name"]]
        first = {refusal["id"]: refusal for refusal in reversed(row["refusals"])}
        assert set(first) <= {said["id"] for said in each["reasons"]}
        for refusal in first.values():
            stands(refusal["title"], printed)
            stands(refusal["id"], printed)
            if refusal["unit"] != "count":
                value, limit = told_apart(refusal["value"], refusal["limit"], refusal["unit"], system)
                stands(f"{value}, {refusal['sense']} {limit}", printed)
        stands(each["more"], printed)
        for said in each["reasons"]:
            stands(said["words"], printed)
    stands(f"{told['candidates']['tried']:,} ways were looked at", printed)
    for bound in told["candidates"]["bounds"]:
        stands(f"{bound['count']:,} by {bound['id']}", printed)
    stands(told["cautions"][0], printed)


def test_it_says_why_the_second_is_second_and_what_would_let_it_win(printed):
    stands("2 in of Plain 25. It meets as well, and its foam costs more: 235 USD against 171 USD.", printed)
    stands("The second wins below 171 USD.", printed)


def test_a_way_that_several_findings_refuse_stands_once_with_all_of_them(printed):
    assert printed.count(squeezed("5 in of Plain 15")) == 1
    for words in ("height.depth", "moisture.mould", "84 %, at most 80 %", "10.4 in (265 mm), at most 10 in (254 mm)"):
        stands(words, printed)


def test_two_other_products_stand_beside_the_recommended_one_with_what_changes(printed):
    stands("2 in of Plain 152 in of Plain 25 (number 2)2 in of Grey 15 (number 3)", printed)
    stands("price of the foam171 USD235 USD290 USD", printed)
    stands("build-up8 in8 in7½ in", printed)


def test_it_says_whether_the_submittal_proposes_what_is_recommended(printed):
    stands("the brief as it was typed: another way to build it than is recommended here", printed)
    same = recommended(cases.choice(rows=(cases.row("as briefed", "as briefed", "recommended", rank=1, changes=()),)))
    assert same["proposed"] == "What this submittal proposes is what is recommended."


def test_what_falls_short_whichever_is_taken_and_what_cannot_be_told_stand_there(printed):
    stands("frost.footing", printed)
    stands("moisture.film: type floor.build-up.2.vapour-retarder in the brief", printed)


@pytest.mark.parametrize(
    ("by", "more", "words"),
    [
        (
            "foam",
            {"foam": 3.1},
            "It meets as well, and takes more foam: 4.05 yd³ (3.10 m³) against 3.27 yd³ (2.50 m³).",
        ),
        ("height", {"height": 0.254}, "It meets as well, and is higher: 10 in (254 mm) against 8 in (203 mm)."),
        ("price of the foam", {}, "It meets as well, and its foam costs as much: 171 USD."),
    ],
)
def test_the_second_is_held_against_what_ranks(by, more, words):
    rows = (cases.row("first", "recommended", rank=1), cases.row("second", "runner-up", rank=2, **more))
    assert squeezed(recommended(cases.choice(by=by, rows=rows))["second"]["why"]).startswith(squeezed(words))


def test_nothing_that_serves_is_told_without_a_second(tmp_path):
    told = recommended(cases.choice(rows=(), says=("No product of the lines in hand can serve here.",), to_win=()))
    assert (told["best"], told["second"], told["instead"], told["proposed"]) == ("", None, None, "")
    stands(
        "No product of the lines in hand can serve here.", sheets(cases.choice(rows=(), to_win=(), says=told["says"]))
    )


def test_one_page_for_a_reader_has_no_room_for_it(tmp_path, capsys):
    brief = ROOT / "examples" / "frost-wall-workshop" / "brief.toml"
    paper = tmp_path / "paper.pdf"
    assert main(["submittal", str(brief), "-o", str(paper), "--choose", "--for", "owner"]) == 2
    assert "no room for why the others were refused" in capsys.readouterr().err
    assert not paper.exists()
