"""The page for one reader: what it says, what it leaves out, and that it says what it leaves out."""

from __future__ import annotations

import re
from dataclasses import replace

import paper_cases as cases
import pytest
from sheets import sheets, words

from underpour.findings import Finding
from underpour.laying.records import Confirmer
from underpour.papers import for_one
from underpour.papers.letters import Letters
from underpour.papers.one_page import READERS, _small, left_out, one_page

DAY = "2026-11-27"


def pictures():
    """As narrow as the command draws them for one page."""
    drawn = cases.pictures()
    return replace(
        drawn,
        comparison=tuple(replace(p, wide=92.0) for p in drawn.comparison),
        sections=tuple(replace(p, wide=113.0) for p in drawn.sections),
    )


def page(reader: str, dossier=None, **more) -> str:
    return " ".join(words(for_one(dossier or cases.dossier(), pictures(), reader, date=DAY, **more).pdf).split())


def parts(reader: str, dossier=None) -> dict[str, list[str]]:
    told = one_page(dossier or cases.dossier(), pictures(), "27 November 2026", reader, draft=False, letters=Letters())
    return {part["title"]: [item["words"] for item in part["items"]] for part in told["parts"]}


def crowded():
    """Far more works, points and confirmers than one sheet can hold."""
    briefed = cases.dossier().as_briefed
    many = replace(
        briefed,
        sequence=tuple(replace(cases.WORKS[0], number=n, what=f"Work {n} " + "and so on " * 12) for n in range(1, 60)),
        inspection=tuple(replace(cases.POINTS[0], number=n) for n in range(1, 60)),
        confirmers=cases.CONFIRMERS * 30,
        summary=tuple(f"Layer {n}, {cases.LONG}" for n in range(40)),
    )
    return replace(cases.dossier(), alternatives=(many,))


@pytest.mark.parametrize("reader", READERS)
def test_each_page_has_its_cautions_and_the_shortfall_that_was_accepted(reader):
    told = page(reader)
    for caution in cases.dossier().cautions[:4]:
        assert caution in told
    assert "Accepted by A. Owner" in told and "on 20 November 2026: Storage only" in told


@pytest.mark.parametrize("reader", READERS)
@pytest.mark.parametrize("paper", ["a4", "us-letter"])
def test_however_much_there_is_it_stays_one_sheet_and_counts_the_rest(reader, paper):
    made = for_one(crowded(), pictures(), reader, date=DAY, paper=paper)
    (sheet,) = sheets(made.pdf)
    assert not sheet.off_the_margins() and not sheet.on_each_other()
    assert re.search(r"and \d+ more( \([^)]+\))?: see the submittal", " ".join(words(made.pdf).split()))


def test_the_owner_is_told_in_plain_words_and_what_to_do_first():
    told = parts("owner")
    assert list(told) == [
        "What is proposed",
        "Is it warm?",
        "Is it dry?",
        "What does it lose?",
        "What does it cost?",
        "What to do",
        "Accepted shortfalls",
        "Cautions",
    ]
    assert told["Is it warm?"][0].startswith("The floor at the wall falls to this in February.")
    assert told["What does it cost?"] == ["Not worked out: this answer holds no prices."]
    assert "Carry the foam over the footing" in told["What to do"][0]
    assert (
        told["What to do"][1]
        == "Find out floor.available-depth: Depth from finished floor to dug ground cannot be told without it."
    )
    assert told["What to do"][-1].startswith("Ask the structural engineer, before the order: the slab;")


def test_the_contractor_is_told_the_order_and_where_the_work_stops():
    told = parts("contractor")
    assert told["In what order"][0] == "1. Dig and level."
    assert (
        told["To look at, and who looks"][0].startswith("1. Gravel") and "Sides fall in." in told["Mind while you work"]
    )
    assert "stop" in page("contractor")


def test_the_official_is_told_which_code_worst_first_with_sources_and_who_signs():
    told = parts("official")
    assert "Held to: no code edition is named in the brief." in told["What is asked"]
    assert told["Does it hold?"][0].startswith("Coldest place where floor and wall meet")
    assert "ISO 10211:2017, as quoted by another source" in page("official")
    assert told["Who confirms and signs"][0].startswith("Structural engineer, before the order: The slab.")
    assert any("type floor.available-depth" in line for line in told["What was not checked"])


def test_nothing_is_said_to_be_accepted_where_nobody_accepted_it():
    briefed = cases.dossier().as_briefed
    nobody = replace(briefed, findings=tuple(replace(f, accepted=None) for f in briefed.findings))
    assert "Accepted shortfalls" not in parts("official", replace(cases.dossier(), alternatives=(nobody,)))


def test_letters_that_no_font_draws_are_named_on_the_page():
    assert "no font here draws: U+6F22" in page("owner", replace(cases.dossier(), title="漢"))


def test_a_page_can_be_a_draft():
    assert "Draft, not for construction" in page("owner", draft=True)


def test_the_longest_list_gives_way_first_and_a_later_turn_after_it():
    first, second, last = ({"leaves": [4, 3], "turn": 0}, {"leaves": [2, 1, 0], "turn": 0}, {"leaves": [9], "turn": 1})
    assert left_out([last, second, first]) == [[1, 2], [1, 1], [2, 4], [1, 0], [2, 3], [0, 9]]


def busy(n: int):
    """A day's work of so many steps, each fourth with a stop and each with its own caution, and as many looks."""
    works = tuple(
        replace(cases.WORKS[0], number=k, what=f"Work {k}", stops=k % 4 == 0, mind=f"Danger {k} is near.")
        for k in range(1, n + 1)
    )
    points = tuple(replace(cases.POINTS[0], number=k, look_at=f"Look {k}") for k in range(1, n + 1))
    return replace(
        cases.dossier(), alternatives=(replace(cases.dossier().as_briefed, sequence=works, inspection=points),)
    )


def test_twenty_works_with_all_their_cautions_stops_and_looks_stand_on_the_contractors_page():
    told = page("contractor", busy(20))
    for k in range(1, 21):
        assert f"{k}. Work {k}." in told and f"Danger {k} is near." in told and f"{k}. Look {k}," in told
    assert "see the submittal" not in told.partition("Cautions")[0]


def test_where_the_works_are_too_many_it_says_by_number_which_are_left_out_and_keeps_stops_and_cautions():
    told = page("contractor", busy(34))
    left = re.search(r"and (\d+) more \(([0-9, to]+)\): see the submittal", told)
    assert left, told
    missing = [k for k in range(1, 35) if f" {k}. Work {k}." not in told]
    assert len(missing) == int(left[1]) and all(k % 4 for k in missing)
    numbers = [[int(end) for end in run.split(" to ")] for run in left[2].split(", ")]
    assert missing == [k for run in numbers for k in range(run[0], run[-1] + 1)]
    assert all(f"Danger {k} is near." in told for k in range(1, 35))


def test_general_cautions_are_shortened_to_a_line_before_the_crew_loses_a_step_and_stay_whole_for_others():
    long = "Keep off. " + "Foam burns with much smoke and nobody sees the way out of it any more. " * 3
    loud = replace(busy(20), cautions=(long.strip(), *(f"{long}{n}." for n in range(9))))
    told = page("contractor", loud)
    assert all(f"{k}. Work {k}." in told for k in range(1, 21)) and "Keep off." in told
    assert long.strip() not in told and "In full: see the submittal." in told
    assert long.strip() in page("official", loud) and long.strip() in page("owner", loud)


def test_the_owner_is_not_told_to_ask_the_owner():
    briefed = cases.dossier().as_briefed
    falls_short = next(f for f in briefed.findings if f.verdict == "falls short")
    own = Confirmer(
        "Owner", (f"{falls_short.title}: too cold.", "That it is used as a church."), "before the order", "", ()
    )
    asked = replace(cases.dossier(), alternatives=(replace(briefed, confirmers=(own,)),))
    to_do = parts("owner", asked)["What to do"]
    assert to_do[-1] == "You confirm, before the order: that it is used as a church."
    assert not [line for line in to_do if "too cold" in line or "sk the owner" in line]


def test_what_an_engineer_signs_for_keeps_its_doubt_on_the_officials_page():
    doubt = "Those who take 25 % would not allow it."
    pressed = Finding(
        "bearing.foam-long", "Pressure on the foam", 81.4, "kPa", limit=82.7, sense="at most", words=doubt
    )
    briefed = cases.dossier().as_briefed
    dossier = replace(cases.dossier(), alternatives=(replace(briefed, findings=(*briefed.findings, pressed)),))
    held = [words for words in parts("official", dossier)["Does it hold?"] if "Pressure on the foam" in words]
    assert len(held) == 1 and held[0].endswith(doubt)


@pytest.mark.parametrize(("words", "within"), [("EPS, type II", "EPS, type II"), ("Concrete, 4 in", "concrete, 4 in")])
def test_within_a_sentence_capitals_that_are_a_name_stay(words, within):
    assert _small(words) == within
