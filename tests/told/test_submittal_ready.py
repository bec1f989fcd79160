"""A submittal with an empty part is not handed over: nothing is written, every gap is told with the key to type."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import paper_cases as cases
import pytest
from sheets import sheets, words

from underpour.brief.tables.handover import Handover
from underpour.cli import main
from underpour.papers import Pictures, gaps, submittal

DEMO = (Path(__file__).parents[2] / "examples" / "daylight-basement" / "brief.toml").read_text("utf-8")
DRAFT = "Draft, not for construction"


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return tmp_path


def without(*keys: str) -> str:
    """The demo's brief without these lines."""
    return "".join(line for line in DEMO.splitlines(keepends=True) if not line.startswith(keys))


def handed(**typed: object):
    """The made-up dossier with another first sheet."""
    kept = {
        key: value
        for key, value in cases.HANDOVER.model_dump(by_alias=True, exclude_unset=True).items()
        if key not in typed
    }
    changed = {key: value for key, value in typed.items() if value is not None}
    return replace(cases.dossier(), handover=Handover.model_validate({**kept, **changed}))


briefed = cases.dossier().as_briefed


def answered(**changed: object):
    return replace(cases.dossier(), alternatives=(replace(briefed, **changed),))


GAPS = {
    "project.title": (replace(cases.dossier(), title=""), "the slab has no name"),
    "handover.number": (handed(number=None), "the paper has no number"),
    "handover.to": (handed(to=None), "nobody is named as the one who gets it"),
    "handover.from": (handed(**{"from": None}), "nobody is named as the one who sends it"),
    "handover.prepared-by": (handed(**{"prepared-by": None}), "nobody is named as the one who made it"),
    "handover.references": (handed(references=None), "no drawing or specification is named"),
    "floor.build-up": (answered(products=()), "no product is laid, and the brief does not say so"),
    "edge": (answered(findings=()), "nothing was worked out"),
    "project.use": (replace(cases.dossier(), cautions=()), "no caution is said"),
}


def test_a_whole_submittal_has_no_gap():
    assert gaps(cases.dossier(), cases.pictures()) == ()


@pytest.mark.parametrize("key", GAPS)
def test_each_part_that_would_be_empty_is_named_with_its_key(key):
    dossier, said = GAPS[key]
    (gap,) = gaps(dossier, cases.pictures())
    assert (gap.key, gap.words) == (key, said)
    told = str(gap.mistake("brief.toml"))
    assert told.startswith(f"brief.toml  {key}\n  Not ready to hand over: {said}.") and f"Type {key}" in told


def test_a_paper_without_sections_or_points_to_look_at_is_not_ready():
    (no_section,) = gaps(cases.dossier(), Pictures())
    assert no_section.words == "no section is drawn"
    (no_point,) = gaps(answered(inspection=()), cases.pictures())
    assert no_point.words == "there is nothing to look at before the pour"


def test_no_references_at_all_are_typed_as_an_empty_list():
    dossier = handed(references=[])
    assert gaps(dossier, cases.pictures()) == ()
    assert "specifications\nNone." in words(submittal(dossier, cases.pictures(), date="2026-11-27").pdf).replace(
        "\r", ""
    )


def test_nothing_is_written_where_something_is_missing(folder, capsys):
    Path("brief.toml").write_text(without("to  ", "number", "references"), "utf-8")
    Path("slab.pdf").write_text("the older one", "utf-8")
    assert main(["submittal", "brief.toml", "-o", "slab.pdf", "--keep", "kept.json"]) == 2
    told = capsys.readouterr().err
    assert "Nothing was made: 3 things are missing.\n  With --draft it is made" in told
    assert "Not ready to hand over: nobody is named as the one who gets it.\n  Type handover.to = " in told
    assert told.index("handover.number") < told.index("handover.to") < told.index("handover.references")
    assert Path("slab.pdf").read_text("utf-8") == "the older one" and not Path("kept.json").exists()
    assert sorted(path.name for path in folder.iterdir()) == ["brief.toml", "slab.pdf"]


def test_a_draft_is_made_all_the_same_says_so_on_each_sheet_and_lists_the_gaps(folder, capsys):
    Path("brief.toml").write_text(without("to  ", "number"), "utf-8")
    assert main(["submittal", "brief.toml", "-o", "slab.pdf", "--draft"]) == 0
    assert "The submittal, a draft, is in slab.pdf." in capsys.readouterr().out
    pdf = Path("slab.pdf").read_bytes()
    for n, sheet in enumerate(sheets(pdf), 1):
        assert DRAFT.replace(" ", "") in "".join(one.sign for one in sheet.letters), f"sheet {n}"
    told = " ".join(words(pdf).split())
    assert "Still missing" in told and "Nobody is named as the one who gets it: type handover.to." in told


def test_a_whole_paper_says_draft_only_where_it_was_asked(folder, capsys):
    Path("brief.toml").write_text(DEMO, "utf-8")
    assert main(["submittal", "brief.toml", "-o", "slab.pdf"]) == 0
    assert main(["submittal", "brief.toml", "-o", "draft.pdf", "--draft"]) == 0
    assert DRAFT not in words(Path("slab.pdf").read_bytes())
    assert DRAFT in words(Path("draft.pdf").read_bytes()) and "Still missing" not in words(
        Path("draft.pdf").read_bytes()
    )


@pytest.mark.parametrize("reader", ["owner", "contractor", "official"])
def test_a_page_for_one_reader_asks_for_no_first_sheet(folder, capsys, reader):
    Path("brief.toml").write_text(without("to  ", "number", "from", "prepared-by", "references"), "utf-8")
    assert main(f"submittal brief.toml -o page.pdf --for {reader}".split()) == 0
    assert f"The answer for the {reader} is in page.pdf." in capsys.readouterr().out


def test_another_reader_is_told_whom_there_are_pages_for(folder, capsys):
    Path("brief.toml").write_text(DEMO, "utf-8")
    assert main(["submittal", "brief.toml", "-o", "page.pdf", "--for", "oficial"]) == 2
    assert "Did you mean official? To choose from: owner, contractor, official." in capsys.readouterr().err


def test_a_logo_with_a_script_stops_the_paper(folder, capsys):
    Path("brief.toml").write_text(DEMO.replace("[handover]\n", '[handover]\nlogo = "logo.svg"\n'), "utf-8")
    Path("logo.svg").write_text('<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>', "utf-8")
    assert main(["submittal", "brief.toml", "-o", "slab.pdf"]) == 2
    told = capsys.readouterr().err
    assert told.startswith('brief.toml  handover.logo = "logo.svg"\n  It holds a script.')
    assert not Path("slab.pdf").exists()
