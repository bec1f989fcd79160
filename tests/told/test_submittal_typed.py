"""What a brief says is printed as it was typed: never markup, never code, never a formula of a spreadsheet."""

from __future__ import annotations

import tomllib
from dataclasses import replace
from pathlib import Path

import paper_cases as cases
import pytest
from sheets import words

from underpour.brief.tables.handover import Handover
from underpour.cli import main
from underpour.papers import Pictures, submittal
from underpour.papers.as_typed import LEFT_OUT, as_typed
from underpour.papers.content import content
from underpour.papers.letters import Letters
from underpour.papers.one_page import READERS
from underpour.papers.write import for_one

DAY = "2026-11-27"
STARTERS = sorted((Path(__file__).parents[2] / "src" / "underpour" / "starters" / "briefs").glob("*.toml"))
DEMO = (Path(__file__).parents[2] / "examples" / "daylight-basement" / "brief.toml").read_text("utf-8")
TYPED = {
    "a command of the typesetter": '#eval("1+1") #{ 1 } #import "a.typ": *',
    "a file of this machine": '#read("/etc/hosts") #image("/etc/hosts")',
    "sums and emphasis": "$x^2$ *bold* _low_ `raw` ```code```",
    "labels and references": "<label> @label [content] // gone? /* gone? */",
    "backslashes": "\\u{41} \\n \\ \\\\ C:\\folder",
    "markup of pages": "<script>alert(1)</script> <b>&amp; &lt;</b>",
    "sums of a spreadsheet": "=1+1 +1 -1 @SUM(A1:A9) =HYPERLINK(1)",
    "quotes": "'one' \"two\" “three” ‘four’ -- --- ...",
    "a list and a heading": "- one + two = three / four: five",
    "very long words": "Donaudampfschifffahrtselektrizitätenhauptbetriebswerkbauunterbeamtengesellschaft" * 2,
    "three scripts": "Ærøskøbing Łódź Ψηφίδα Αθήνα Щёлково Їжакевич Đặng",
    "picture signs": "slab \N{SNOWMAN} \N{HOUSE BUILDING} \N{WOMAN}\N{ZERO WIDTH JOINER}\N{PERSONAL COMPUTER} end",
    "turned reading": "a\N{RIGHT-TO-LEFT OVERRIDE}b\N{LEFT-TO-RIGHT MARK}c \N{HEBREW LETTER ALEF} d",
    "control signs": "a\x07b\x1b[31mc\x7fd",
    "accents put on afterwards": "e\N{COMBINING ACUTE ACCENT} o\N{COMBINING DIAERESIS} n\N{COMBINING TILDE}",
}


def squeezed(text: str) -> str:
    """Without spaces, line ends and offered breaks, which are the typesetter's own business."""
    return "".join(c for c in text if not c.isspace() and c not in "\u200b\u00ad\ufffe\u0002")


@pytest.mark.parametrize("case", TYPED)
def test_typed_text_is_read_back_from_every_paper_as_it_was_typed(case):
    typed = TYPED[case]
    given = Handover.model_validate(
        {
            "number": typed,
            "to": [typed],
            "from": typed,
            "prepared-by": typed,
            "references": [typed],
            "deviations": [typed],
        }
    )
    first, *others = cases.dossier().alternatives
    dossier = replace(
        cases.dossier(), title=typed, handover=given, alternatives=(first, replace(others[0], name=typed)), moved=None
    )
    expected = squeezed(Letters().drawable(typed))
    told = squeezed(words(submittal(dossier, Pictures(), date=DAY).pdf))
    assert told.count(expected) >= 5, "title, to, from, references, deviations"
    for reader in READERS:
        page = squeezed(words(for_one(dossier, Pictures(), reader, date=DAY).pdf))
        assert expected[:20] in page


@pytest.mark.parametrize("case", TYPED)
def test_typed_text_goes_to_the_typesetter_as_data_and_nothing_else(case):
    typed = TYPED[case]
    told = content(replace(cases.dossier(), title=typed), Pictures(), DAY)
    assert squeezed(told["title"]) == squeezed(Letters().drawable(typed))


@pytest.mark.parametrize("case", TYPED)
def test_the_command_takes_a_brief_that_says_so(tmp_path, monkeypatch, capsys, case):
    monkeypatch.chdir(tmp_path)
    typed = "".join(f"\\U{ord(c):08x}" for c in TYPED[case])
    brief = DEMO.replace('title = "Daylight basement, three ways to end the foam"', f'title = "{typed}"')
    assert tomllib.loads(brief)["project"]["title"] == TYPED[case]
    Path("brief.toml").write_text(brief, "utf-8")
    assert main(["submittal", "brief.toml", "-o", "slab.pdf"]) == 0
    said = capsys.readouterr().out
    assert all(c.isprintable() or c == "\n" for c in said)


COMMENTED = '''\
# a hint of the starter

[project]   # what it is
title = "Rack # 4"  # "quoted" comment
use = 'barn # two'
notes = """
# kept, with \\" and ""
"""  # gone
# gone
more = \'\'\'
# kept too\'\'\'
'''


def test_comments_are_left_out_and_said_to_be_and_every_value_stays():
    told = as_typed(COMMENTED)
    assert tomllib.loads(told["words"]) == tomllib.loads(COMMENTED)
    assert told["note"] == LEFT_OUT
    assert "gone" not in told["words"] and "hint" not in told["words"] and told["words"].count("kept") == 2
    assert "\n\n\n" not in told["words"] and not told["words"].startswith("\n")
    printed = " ".join(
        words(submittal(replace(cases.dossier(), brief_text=COMMENTED), Pictures(), date=DAY).pdf).split()
    )
    assert LEFT_OUT in printed and "hint of the starter" not in printed


@pytest.mark.parametrize("path", STARTERS, ids=lambda path: path.stem)
def test_a_starters_values_are_all_kept(path):
    text = path.read_text("utf-8")
    told = as_typed(text)["words"]
    assert tomllib.loads(told) == tomllib.loads(text) and "\n#" not in told
    assert len(told.splitlines()) < len(text.splitlines())


@pytest.mark.parametrize("text", ['use = "barn"', "use = 'a # b'", 'use = "torn # off', ""])
def test_a_brief_without_comments_or_without_sense_is_printed_as_it_is(text):
    assert as_typed(text) == {"words": text, "note": ""}
