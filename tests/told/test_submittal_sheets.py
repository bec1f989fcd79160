"""Sheets as another program reads them: nothing off its margins, nothing on something else, every number there."""

from __future__ import annotations

import io
import json
import os
import subprocess
import sys
from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import paper_briefs
import paper_cases as cases
import pikepdf
import pypdfium2
import pytest
from pypdf import PdfReader
from sheets import POINT, sheets, words

from answered import once
from underpour.answer import answer
from underpour.brief import reads
from underpour.dossier import Dossier
from underpour.dossier_json import as_json
from underpour.handouts.pictures import for_one_page, for_submittal
from underpour.measure import say
from underpour.papers import Pictures, for_one, gaps, submittal
from underpour.papers.one_page import READERS

DAY = "2026-11-27"
PAPERS = ("a4", "us-letter")
EXAMPLES = sorted(Path(__file__).parents[2].glob("examples/*/brief.toml"))
DEMO = Path(__file__).parents[2] / "examples" / "daylight-basement" / "brief.toml"
BARS = {"1 m": 1000.0, "500 mm": 500.0, "200 mm": 200.0, "100 mm": 100.0, "3 ft": 914.4, "1 ft": 304.8, "6 in": 152.4}
OFTEN = (1, 11, 21)  # the tenth of the seeds that is looked at every time
SEEDS = [*range(1, 31), *range(101, 131)]
NUMBERS = ("value", "limit")


def squeezed(text: str) -> str:
    """Without spaces, line ends, offered breaks and the mark of a broken line."""
    return "".join(c for c in text if not c.isspace() and c not in "\u200b\u00ad\ufffe\u0002\r")


@cache
def answered(text: str, file: str) -> Dossier:
    path = Path(file)
    if path in EXAMPLES and text == path.read_text(encoding="utf-8"):
        return once(path)
    return answer(reads(text, file))


@cache
def drawn(text: str, file: str) -> tuple[Pictures, Pictures]:
    return for_submittal(answered(text, file)), for_one_page(answered(text, file))


def is_sound(pdf: bytes) -> None:
    """Read strictly by one program, checked by another, tagged for screen readers as PDF/UA-1."""
    reader = PdfReader(io.BytesIO(pdf), strict=True)
    assert all(page.extract_text() for page in reader.pages)
    with pikepdf.open(io.BytesIO(pdf)) as opened:
        assert opened.check_pdf_syntax() == []
        assert opened.Root.MarkInfo.Marked and "/StructTreeRoot" in opened.Root
        with opened.open_metadata() as told:
            assert told["pdfuaid:part"] == "1"


def is_well_set(pdf: bytes) -> None:
    for n, sheet in enumerate(sheets(pdf), 1):
        off, on = sheet.off_the_margins(), sheet.on_each_other()
        assert not off, f"sheet {n}, off the margins: {''.join(one.sign for one in off)[:60]} at {off[0]}"
        assert not on, f"sheet {n}, on each other: {[(a.sign, b.sign, a.left, a.top) for a, b in on[:6]]}"


def holds_every_number(pdf: bytes, dossier: Dossier) -> None:
    """Value and limit of every finding, from the public JSON, printed in the paper's digits."""
    printed = squeezed(words(pdf))
    told = json.loads(as_json(dossier))
    for finding in told["alternatives"][0]["findings"]:
        for name in NUMBERS:
            if finding[name] is not None:
                said = say.both(finding[name], finding["unit"], dossier.units)
                assert squeezed(said) in printed, (finding["id"], said)


def looked_at(text: str, file: str) -> None:
    """Every paper of a brief, on both sizes of sheet."""
    dossier, (whole, single) = answered(text, file), drawn(text, file)
    assert gaps(dossier, whole) == ()
    for paper in PAPERS:
        made = submittal(dossier, whole, date=DAY, paper=paper)
        is_well_set(made.pdf)
        is_sound(made.pdf)
        holds_every_number(made.pdf, dossier)
        printed = squeezed(words(made.pdf))
        for said in (dossier.title, *dossier.handover.to, *(a.name for a in dossier.alternatives)):
            assert squeezed(said) in printed, said
        for reader in READERS:
            page = for_one(dossier, single, reader, date=DAY, paper=paper).pdf
            is_well_set(page)
            assert len(list(sheets(page))) == 1, (reader, paper)
            assert squeezed(dossier.cautions[0]) in squeezed(words(page))


@pytest.mark.parametrize("seed", OFTEN)
def test_a_brief_with_long_names_is_set_within_its_margins(seed):
    looked_at(*paper_briefs.brief(seed))


@pytest.mark.proof
@pytest.mark.parametrize("seed", [seed for seed in SEEDS if seed not in OFTEN])
def test_every_brief_with_long_names_is_set_within_its_margins(seed):
    looked_at(*paper_briefs.brief(seed))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.parent.name)
def test_each_example_is_one_sheet_for_each_reader_on_both_sizes(path):
    dossier, (_, single) = (made(path.read_text("utf-8"), str(path)) for made in (answered, drawn))
    for reader in READERS:
        for paper in PAPERS:
            page = for_one(dossier, single, reader, date=DAY, paper=paper).pdf
            assert len(list(sheets(page))) == 1, (reader, paper)
            is_well_set(page)


def test_made_up_papers_full_of_hostile_text_are_well_set_and_sound():
    dossier = replace(cases.dossier(), moved=cases.moved())
    for paper in PAPERS:
        pdf = submittal(dossier, cases.pictures(), date=DAY, paper=paper, draft=True).pdf
        is_well_set(pdf)
        is_sound(pdf)


def test_what_lies_on_something_else_or_off_its_margin_is_seen():
    """The reader of sheets itself: two words set on each other, one off the sheet's margin."""
    import typst

    page = b"#set page(width: 210mm, height: 297mm, margin: 20mm)\n#place(dx: 40mm)[Words]#place(dx: 41mm)[Other]"
    (sheet,) = sheets(typst.compile(page, format="pdf"))
    assert sheet.on_each_other() and not sheet.off_the_margins()
    page = b"#set page(width: 210mm, height: 297mm, margin: 20mm)\n#place(dx: 165mm)[Overfull]"
    (sheet,) = sheets(typst.compile(page, format="pdf"))
    assert sheet.off_the_margins() and not sheet.on_each_other()


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("system", ["US", "SI"])
def test_the_section_on_the_sheet_measures_what_its_scale_says(paper, system):
    """The bar, measured in dots of the drawn sheet, against the scale named beside it."""
    text = DEMO.read_text("utf-8").replace('units = "US"', f'units = "{system}"')
    dossier, (whole, _) = (made(text, str(DEMO)) for made in (answered, drawn))
    pdf = submittal(dossier, whole, date=DAY, paper=paper).pdf
    scale = whole.sections[0].name.partition("scale ")[2]
    ratio = int(scale.rpartition(":")[2].rstrip(")"))
    n, (words_of_bar, right, base) = bar_words(pdf, scale)
    long = bar_length(pdf, n, right, base)
    assert long * ratio == pytest.approx(BARS[words_of_bar], rel=0.01)


def bar_words(pdf: bytes, scale: str) -> tuple[int, tuple[str, float, float]]:
    """The sheet with the section, the words at its scale bar, their right end and base line. [mm]"""
    for n, sheet in enumerate(sheets(pdf)):
        signs = "".join(one.sign for one in sheet.letters)
        at = signs.find(squeezed(f"SectionA,scale{scale}"))
        if at >= 0:
            for said in BARS:
                found = signs.find(squeezed(said), at)
                if found >= 0 and sheet.letters[found].left > sheet.wide / 2:
                    last = sheet.letters[found + len(squeezed(said)) - 1]
                    if abs(last.bottom - sheet.letters[at].bottom) < 2.0:
                        return n, (said, last.right, last.bottom)
    raise AssertionError(f"no section to the scale {scale}")


def bar_length(pdf: bytes, n: int, right: float, base: float) -> float:
    """From end stroke to end stroke of the bar that follows the words: the strokes stand above the bar. [mm]"""
    dots = 40.0  # for each mm
    with pypdfium2.PdfDocument(pdf) as document:
        drawn_page = np.asarray(document[n].render(scale=dots * POINT, grayscale=True).to_numpy())
    row = drawn_page[int((base - 1.5) * dots), int((right + 0.6) * dots) : int((right + 62.0) * dots)]
    dark = np.flatnonzero(row < 128)
    return float(dark[-1] - dark[0] - 0.35 * dots) / dots


def made_apart(folder: Path, seed: str) -> bytes:
    """The demo's submittal, made by the command in a process of its own."""
    target = folder / f"{seed}.pdf"
    command = [sys.executable, "-m", "underpour", "submittal", str(DEMO), "-o", str(target), "--date", DAY]
    subprocess.run(command, check=True, capture_output=True, env={**os.environ, "PYTHONHASHSEED": seed})
    return target.read_bytes()


def test_two_makings_have_the_same_bytes(tmp_path):
    assert made_apart(tmp_path, "1") == made_apart(tmp_path, "2")


def test_a_brief_with_many_edges_is_set_on_twenty_sheets_and_more():
    dossier = answered(many_edges(), str(DEMO))
    pdf = submittal(dossier, for_submittal(dossier), date=DAY).pdf
    assert len(list(sheets(pdf))) >= 20


def many_edges() -> str:
    """The workshop with an edge of its own for each two of its sides."""
    text = (DEMO.parents[1] / "frost-wall-workshop" / "brief.toml").read_text("utf-8")
    head, _, rest = text.partition("[[edge]]")
    edge, _, others = rest.partition("[[alternative]]")
    edges = "".join("[[edge]]" + edge.replace('"all"', f"[{n}, {n + 1}]") for n in (1, 3, 5))
    return f"{head}{edges}[[alternative]]{others}"
