"""The submittal's sheet of the order: its numbers are those of `takeoff --json`, read back out of the paper."""

import json
from dataclasses import replace
from pathlib import Path

import paper_cases as cases
import pypdfium2
import pytest
from sheets import sheets

from underpour.brief import read
from underpour.cli import hear
from underpour.handouts.ordered import order_of, panel_plans
from underpour.measure import say
from underpour.papers import submittal

EXAMPLES = Path(__file__).parents[2] / "examples"
DAY = "2026-11-28"
HEADING = "Whattoorderandhowitislaid"


def plain(words):
    """Without spaces and offered breaks: a line of a column may end between any two words."""
    return "".join(words.replace("\u200b", "").split())


def text_of(pdf):
    sheets = [page.get_textpage().get_text_bounded() for page in pypdfium2.PdfDocument(pdf)]
    return plain(" ".join(sheets).replace("\ufffe", ""))


@pytest.mark.parametrize("name", ["court-and-bay-house", "raft-with-channels", "far-leg"])
def test_its_numbers_are_those_of_the_json(name):
    brief = EXAMPLES / name / "brief.toml"
    told = json.loads(hear(["takeoff", str(brief), "--json"]).text)
    takeoff = order_of(read(brief))
    pictures = replace(cases.pictures(), laid=panel_plans(takeoff))
    text = text_of(submittal(cases.dossier(), pictures, date=DAY, takeoff=takeoff).pdf)
    part = text[text.rindex(HEADING) :]
    for item in told["items"]:
        assert plain(item["what"]) in part
        counted = f"{item['count']} {item['of']}" if item["count"] is not None else ""
        bought = say.value(item["ordered"], item["unit"], takeoff.system)
        assert plain(counted or bought) in part
        assert plain(say.value(item["needed"], item["unit"], takeoff.system)) in part
        if item["cost"]:
            assert plain(f"{item['cost']['amount']:,.2f} {item['cost']['currency']}") in part
    for layer in told["layers"]:
        assert plain(f"{layer['takeoff.panels']} panels of {layer['size']}") in part
        assert plain(f"takes fewer than {layer['takeoff.bound']}, counted {layer['bound-counted']}") in part
        assert plain(f"{100 * layer['takeoff.waste']:.1f} % left over") in part
        if layer["rest"]:
            assert plain(f"The rest takes {layer['rest']['panels']} panels") in part
    for total in told["totals"]:
        assert plain(f"Priced in all: {total['amount']:,.2f} {total['currency']}") in part
    for words in ("Backs are hurt", "Wind takes loose boards", "Foam is combustible"):
        assert plain(words) in part


def test_its_letters_lie_within_the_margins_and_off_each_other():
    takeoff = order_of(read(EXAMPLES / "court-and-bay-house" / "brief.toml"))
    pictures = replace(cases.pictures(), laid=panel_plans(takeoff))
    for paper in ("a4", "us-letter"):
        for one in sheets(submittal(cases.dossier(), pictures, date=DAY, paper=paper, takeoff=takeoff).pdf):
            assert not one.off_the_margins()
            assert not one.on_each_other()


def test_without_a_takeoff_there_is_no_such_sheet():
    assert HEADING not in text_of(submittal(cases.dossier(), cases.pictures(), date=DAY).pdf)


def test_the_command_prints_it_behind_the_order_of_the_work(tmp_path):
    out = tmp_path / "s.pdf"
    hear(["submittal", str(EXAMPLES / "daylight-basement" / "brief.toml"), "-o", str(out), "--draft"])
    text = text_of(out.read_bytes())
    before, behind = (text.rindex(plain(each)) for each in ("In what order it is laid", "What to look at, and when"))
    assert before < text.rindex(HEADING) < behind
    assert plain("no plan in rows takes fewer than 97, counted by area") in text
