"""A floor of ice, or of frozen goods: what is told of the ground below it, and who is named."""

from __future__ import annotations

import pytest

from underpour.answer import answer
from underpour.brief import reads
from underpour.dossier import Dossier
from underpour.papers.content import content
from underpour.papers.pictures import Pictures

BRIEF = """
[project]
use = "{use}"
[site]
monthly = ["-9 C", "-8 C", "-3 C", "3 C", "9 C", "14 C", "16 C", "15 C", "10 C", "4 C", "-2 C", "-7 C"]
ground  = {{ conductivity = "1.5 W/(m·K)", heat-capacity = "3 MJ/(m³·K)" }}
[plan]
outline = ["0 0", "30 0", "30 20", "0 20"]
unit    = "m"
[floor]
inside   = "{inside}"
humidity = "50 %"
build-up = [{{ concrete = "150 mm" }}, {{ board = "s701-4", thickness = "100 mm" }}]
[[edge]]
sides  = "all"
kind   = "raft"
ground = "-150 mm"
above  = [{{ masonry = "200 mm" }}]
"""


def dossier(use: str, inside: str) -> Dossier:
    return answer(reads(BRIEF.format(use=use, inside=inside)))


@pytest.mark.parametrize(
    ("use", "inside", "ice"), [("rink", "8 C", True), ("rink", "-5 C", False), ("freezer", "-20 C", False)]
)
def test_the_ground_below_ice_or_a_freezer_has_its_caution_and_its_designer(use: str, inside: str, ice: bool) -> None:
    told = dossier(use, inside)
    ground = [f for f in told.as_briefed.findings if f.id == "heat.ground-temperature"]
    assert "unless heat is put in below the foam" in ground[0].caution and ground[0].caution in told.cautions
    assert all(("No ice is counted" in f.words) == ice for f in ground)
    assert not any("does not freeze" in f.words for f in ground)
    mould = told.as_briefed.find("moisture.surface-factor")
    assert (mould.verdict, "kept cold on purpose" in mould.words) == ("does not apply", True)
    assert "Designer of cold stores" in [c.who for c in told.as_briefed.confirmers]


def test_a_metre_from_the_wall_of_a_freezer_nobody_is_said_to_stay() -> None:
    for use, title in (
        ("freezer", "Coldest floor a metre from the wall"),
        ("warehouse", "Coldest floor where people stay"),
    ):
        assert (
            dossier(use, "-2 C" if use == "freezer" else "12 C")
            .as_briefed.find("heat.floor-coldest", distance=1.0)
            .title
            == title
        )


@pytest.mark.parametrize(("typed", "words"), [("", "bare, as warm as the air, assumed"), ('surface = "turf"', "turf")])
def test_what_lies_on_the_ground_outside_is_asked_in_words(typed: str, words: str) -> None:
    text = BRIEF.format(use="warehouse", inside="12 C").replace("[plan]", f"{typed}\n[plan]")
    rows = {row["name"]: row["words"] for row in content(answer(reads(text)), Pictures(), "25 November 2026")["asked"]}
    assert rows["On the ground outside"] == words


def test_an_ordinary_room_is_told_nothing_of_ice() -> None:
    told = dossier("warehouse", "12 C")
    assert told.as_briefed.find("moisture.surface-factor").verdict in ("meets", "falls short")
    said = [f.words + f.caution for f in told.as_briefed.findings] + list(told.cautions)
    assert not any("ice" in words.split() or "freezer" in words for words in said)
    assert "Designer of cold stores" not in [c.who for c in told.as_briefed.confirmers]
