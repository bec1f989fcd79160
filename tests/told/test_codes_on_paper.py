"""Clauses on paper: edition, clause, what is asked, what is proposed, the verdict, how it was seen, and the doubt."""

from __future__ import annotations

import subprocess
import sys
from functools import cache
from pathlib import Path

import pypdf
import pytest
from test_codes_told import WORKSHOP

from underpour.answer import answer
from underpour.brief import read, reads
from underpour.dossier import Dossier
from underpour.papers.clauses import clauses, open_first
from underpour.papers.letters import Letters
from underpour.papers.one_page import one_page
from underpour.papers.pictures import Pictures

COUNTY = Path(__file__).parents[2] / "examples" / "basement-held-to-county" / "brief.toml"
PLAIN = "\N{THIN SPACE}"


@cache
def workshop() -> Dossier:
    return answer(reads(WORKSHOP))


@cache
def basement() -> Dossier:
    return answer(read(COUNTY))


def rows(dossier: Dossier) -> list[dict]:
    return clauses(dossier.as_briefed.findings, dossier.editions, "US")


def test_a_row_says_clause_what_is_asked_what_is_proposed_verdict_and_how_it_was_seen():
    row = next(r for r in rows(workshop()) if r["about"] == "Foam at the slab's edge, resistance as labelled, edge A")
    assert row["clause"].startswith("Table N1102.1.2 and N1102.2.10")
    assert (row["asks"], row["proposed"]) == ("at least R-10.0 (RSI 1.76)", "R-8.1 (RSI 1.43)")
    assert (row["verdict"], row["seen"], row["doubtful"]) == ("falls short", "as quoted by another source", "")
    assert row["edition"] == "irc-2018" and row["source"] == "International Residential Code 2018"


def test_a_doubt_stands_beside_its_verdict():
    doubtful = [row for row in rows(workshop()) if row["doubtful"]]
    assert {(row["about"].partition(",")[0], row["verdict"]) for row in doubtful} == {
        ("Foam at the heated slab's edge", "falls short"),
        ("Foam under the heated slab", "meets"),
    }
    assert all(row["short"]["seen"].endswith(", doubtful") for row in doubtful)


def test_every_finding_of_a_code_has_its_row_edition_by_edition():
    found = [f for f in basement().as_briefed.findings if f.id.startswith("code.")]
    told = rows(basement())
    assert len(told) == len(found)
    assert [key for n, key in enumerate(r["edition"] for r in told) if n == 0 or told[n - 1]["edition"] != key] == [
        "ny-2025",
        "irc-2024",
        "house-rules",
    ]


def test_a_countys_row_says_whose_it_is_on_the_page_that_has_no_room():
    row = next(r for r in rows(basement()) if r["clause"] == "section 14-203, zone 5")
    assert row["short"]["clause"] == "section 14-203, zone 5, Example County amendments"
    assert row["source"] == "Example County amendments"


def test_what_is_open_comes_first_whatever_its_edition():
    verdicts = [row["verdict"] for row in open_first(rows(basement()))]
    short = verdicts.count("falls short")
    assert short > 3 and verdicts[:short] == ["falls short"] * short
    assert "cannot tell" not in verdicts[short + verdicts.count("cannot tell") :]


def test_the_officials_page_tells_codes_by_clause_and_not_a_second_time():
    told = one_page(basement(), Pictures((), ()), "1 March 2026", "official", draft=False, letters=Letters())
    parts = {part["title"]: part for part in told["parts"]}
    by_clause = parts["What the code asks, clause by clause"]
    assert by_clause["as"] == "clauses"
    open_ = sum(item["verdict"] in ("falls short", "cannot tell") for item in by_clause["items"])
    assert min(by_clause["leaves"]) >= open_, "what falls short never leaves the page"
    assert not [item for item in parts["Does it hold?"]["items"] if "slab's edge" in item["words"]]


@pytest.mark.parametrize("reader", ["official", ""])
def test_the_papers_print_the_clauses(tmp_path, reader):
    paper = tmp_path / "paper.pdf"
    words = [*(["--for", reader] if reader else []), "--draft"]
    made = [sys.executable, "-m", "underpour", "submittal", str(COUNTY), "-o", str(paper), *words]
    assert subprocess.run(made, capture_output=True, check=False).returncode == 1
    pages = pypdf.PdfReader(paper).pages
    text = " ".join(" ".join(page.extract_text().split()) for page in pages).replace(PLAIN, " ")
    assert "What the code asks, clause by clause" in text
    assert "section 14-203" in text and "Example County amendments" in text
    assert "Local code and the authority having jurisdiction decide." in text
    assert not reader or len(pages) == 1


def test_without_a_code_no_paper_speaks_of_clauses():
    bare = answer(reads(WORKSHOP.replace('code  = "irc-2018"\n', "")))
    assert clauses(bare.as_briefed.findings, bare.editions, "US") == []
    told = one_page(bare, Pictures((), ()), "1 March 2026", "official", draft=False, letters=Letters())
    assert "What the code asks, clause by clause" not in [part["title"] for part in told["parts"]]
