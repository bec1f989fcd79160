"""A zone where a code needs it: what is credited, what `ask` offers to type, and where every zone asks the same."""

from __future__ import annotations

import re

import pytest
from tests.told.test_bad_briefs import GOOD, PLACE

from underpour.answer import answer
from underpour.ask import asking
from underpour.brief import reads
from underpour.catalogue import zones
from underpour.dossier import Dossier
from underpour.findings import Finding
from underpour.resolve import resolve

TUBE = '[tube]\nsize = "1/2 in"\nspacing = "9 in"\n'
BARE = re.sub(r"\n *\{ vapour-retarder = [^\n]*", "", GOOD[: GOOD.index("[[alternative]]")])
# What else could turn a verdict is typed, so that the zone is among what is asked.
TOLD = BARE.replace("[floor]", '[floor]\navailable-depth = "12 in"', 1)


def brief(site: str, code: str, tube: bool = False, told: str = TOLD) -> str:
    text = told.replace(PLACE, site, 1).replace('use = "workshop"', f'use = "dwelling"\ncode = "{code}"')
    return f"{text}\n{TUBE}" if tube else text


def held_to(site: str, code: str, tube: bool = False) -> Dossier:
    return answer(reads(brief(site, code, tube), "brief.toml"))


def edge(dossier: Dossier) -> Finding:
    return next(f for f in dossier.as_briefed.findings if f.id == "code.slab-edge")


@pytest.mark.parametrize(
    ("site", "code", "country"),
    [
        (PLACE, "irc-2018", "US"),
        (PLACE, "irc-2021", "US"),  # it cannot be told, and what it was is printed
        ('place = "Toronto, ON"', "nbc-2020", "CA"),
        (f'{PLACE}\nzone = "6A"', "irc-2018", "US"),  # the map differs, and that is printed
        (f'{PLACE}\nzip = "55802"', "", "US"),
        (f'{PLACE}\nzone = "7"', "irc-2018", ""),
        (PLACE, "good-practice", ""),
        ('place = "Dublin, IE"', "ie-tgd-l-2022", ""),
    ],
)
def test_whose_data_a_zone_was_looked_up_in_is_credited_and_only_where_it_was(site, code, country):
    text = brief(site, code) if code else TOLD.replace(PLACE, site, 1)
    told = resolve(reads(text, "brief.toml").brief).credits
    held = {of: zones.credit(of) in told for of in ("US", "CA")}
    assert held == {"US": country == "US", "CA": country == "CA"}


def test_the_credit_stands_on_the_answer():
    assert zones.credit("CA") in held_to('place = "Toronto, ON"', "nbc-2020").credits


def test_where_every_zone_that_it_may_be_asks_the_same_the_code_is_answered_and_says_so():
    """9.36.2.8 asks RSI 1.96 at the edge in zones 6 and 7A alike; Calgary may be either."""
    found = edge(held_to('place = "Calgary, AB"', "nbc-2020"))
    assert (found.verdict, found.limit) == ("falls short", 1.96)
    assert "Zone 6 or 7A, by degree-days" in found.words
    assert "Whichever of them it is, the same is asked here." in found.words
    assert "Give the zone" not in found.words


def test_where_the_zones_ask_differently_it_still_cannot_be_told():
    """Heated floors: RSI 2.32 in zone 6 and 2.84 in 7A (from memory)."""
    found = held_to('place = "Calgary, AB"', "nbc-2020", tube=True).as_briefed.findings
    heated = next(f for f in found if f.id == "code.heated-slab")
    assert (heated.verdict, heated.missing) == ("cannot tell", "site.zone")


def test_the_row_that_was_seen_least_surely_speaks_for_all_of_them():
    """Zone 4 was quoted and zone 5 remembered: a town that may be either is told the doubt."""
    found = edge(held_to('place = "Victoria, BC"', "nbc-2020"))
    assert "Zone 4 or 5" in found.words and "Doubtful:" in found.words


@pytest.mark.parametrize(
    ("site", "code", "tube", "line"),
    [
        ('place = "Calgary, AB"', "nbc-2020", True, 'zone = "6"'),
        (PLACE, "irc-2021", False, 'zone = "7"'),
        ('place = "37.85 N, 122.05 W"', "irc-2018", False, 'zip = "94507"'),
        ('place = "51.11 N, 114.02 W"\nzone = "5A"', "nbc-2020", False, 'zone = "4"'),
    ],
)
def test_what_ask_offers_to_type_is_taken_where_the_site_is(site, code, tube, line, monkeypatch):
    monkeypatch.setattr(asking, "MOST", 99)  # beyond the three of one telephone call
    key = line.split()[0]
    (question,) = [q for q in asking.asked(reads(brief(site, code, tube))).questions if q.about.path == f"site.{key}"]
    assert question.line == line
    typed = re.sub(rf"\n{key} = .*", "", site)
    zone = resolve(reads(brief(f"{typed}\n{question.line}", code, tube)).brief).zone
    told = zone.canada() if code.startswith("nbc") else zone.us(2018)
    assert told.zone and not told.missing
