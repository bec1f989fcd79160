"""Mould and health, flood water and electricity, poison in the ground: said in the terminal, on the page and on paper.

Each names who decides. Words are read out of the PDF by another program than the one that set it.
"""

from __future__ import annotations

import re
from contextlib import redirect_stdout
from io import StringIO
from pathlib import Path

import pypdfium2
import pytest

from underpour.cli import main

BRIEF = """\
[project]
use = "basement"
units = "US"
[site]
place = "Houston, TX"
ground = "clay-or-silt"
humidity = ["75 %"]
flood-level = "12 in"
drain-outlet = "sump"
termites = "very-heavy"
[plan]
outline = ["0 0", "30 0", "30 24", "0 24"]
unit = "ft"
[floor]
inside = "66 F"
humidity = "60 %"
touched-by = []
build-up = [
  { concrete = "4 in" },
  { vapour-retarder = "sheet-15" },
  { board = "xps-25", thickness = "2 in" },
  { gravel = "4 in" },
]
[[edge]]
sides = "all"
kind = "footing-wall"
depth = "20 in"
ground = "54 in"
wall = [{ concrete = "8 in" }]
[[alternative]]
name = "no foam"
remove = ["board"]
"""
SAID = {  # what harms, and who decides
    "mould": ("Mould can make people ill", "a physician or the health authority says"),
    "flood": ("Flood water carries sewage, fuel and live current", "the utility or an electrician says when"),
    "pump": ("A pump and water are an electrician's matter",),
    "termites": ("Poison against termites harms people, wells and fish", "building official decides which foam"),
}


def words(text: str) -> str:
    """One line of plain words: breaks, soft hyphens and curly marks do not count."""
    plain = text.replace("\N{RIGHT SINGLE QUOTATION MARK}", "'").replace("&#39;", "'").replace("\ufffe", "-")
    return " ".join(re.sub(r"<[^>]+>", " ", plain).split())


def of_paper(path: Path) -> str:
    return " ".join(page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(path))


@pytest.fixture(scope="module")
def told(tmp_path_factory) -> dict[str, str]:
    at = tmp_path_factory.mktemp("job")
    (at / "brief.toml").write_text(BRIEF, "utf-8")
    brief = str(at / "brief.toml")
    with redirect_stdout(StringIO()) as printed:
        assert main(["answer", brief]) == 1
    assert main(["compare", brief, "-o", str(at / "page.html")]) == 1
    assert main(["submittal", brief, "-o", str(at / "paper.pdf"), "--draft", "--date", "2026-11-28"]) == 1
    page, paper = (at / "page.html").read_text("utf-8"), of_paper(at / "paper.pdf")
    return {"terminal": words(printed.getvalue()), "page": words(page), "paper": words(paper)}


@pytest.mark.parametrize("where", ["terminal", "page", "paper"])
@pytest.mark.parametrize("harm", SAID)
def test_what_may_harm_is_said_where_it_is_read_with_who_decides(told, where, harm):
    for each in SAID[harm]:
        assert each in told[where]
