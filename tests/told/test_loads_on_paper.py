"""The sheets about loads in the submittal: for the engineer who signs, for the concrete contractor, for each trade."""

from __future__ import annotations

from functools import cache
from typing import Any

import pytest

from underpour.answer import answer
from underpour.brief import reads
from underpour.dossier import Dossier
from underpour.handouts.pictures import borne
from underpour.papers.carried import carried

from .test_loads_answered import BRIEF
from .test_plan_of_loads import BRIEF as PLAN


@cache
def dossier(text: str = BRIEF) -> Dossier:
    return answer(reads(text))


@cache
def told(text: str = BRIEF) -> Any:
    return carried(dossier(text), "US")


def plain(words: str) -> str:
    return words.replace("\u2009", " ").replace("\u00a0", " ")


def test_the_engineer_reads_both_methods_side_by_side_and_what_governs() -> None:
    (row,) = told()["engineer"]["rows"]
    assert {key: plain(row[key]) for key in ("plate", "spread", "through", "concrete")} == {
        "plate": "1.18 psi",
        "spread": "25.4 psi",
        "through": "181 psi",
        "concrete": "279 psi",
    }
    assert row["by-hand"] and row["bent"] and "stands for good" in row["words"]
    (governs,) = map(plain, told()["engineer"]["governs"])
    assert governs.startswith("Load 1: the concrete governs. Of what each may bear is used: concrete 1")


def test_the_engineer_finds_what_it_was_worked_out_with() -> None:
    values = {row["name"]: plain(row["value"]) for row in told()["engineer"]["carrier"]}
    assert values["Young's modulus E"] == "3.60 million psi (24.9 GPa)"  # 57,000 √4000 psi
    assert values["Rupture"].startswith("474 psi")  # 7.5 √4000 psi
    assert values["Slab"] == "5 in (127 mm)"
    assert " to " in values["k of foam, bed and ground"] and " to " in values["k over the ground's whole range"]
    below, concrete = told()["engineer"]["combination"]
    assert below.startswith("Foam and ground: loads as they are, without factors")
    assert concrete == "Concrete under load 1: allowable stress, factor 1.7."


def test_nothing_is_called_a_structural_design_where_it_is_read() -> None:
    for sheet in ("engineer", "contractor"):
        assert told()[sheet]["caution"].startswith("Nothing here is a structural design.")
    assert len(told()["engineer"]["confirm"]) > 4


def test_the_contractor_reads_how_thick_what_may_go_on_bare_foam_and_what_to_look_at() -> None:
    crew = told()["contractor"]
    assert plain(crew["thick"]) == (
        "5 in (127 mm) everywhere. Half an inch too thin, and the concrete feels about 23 % more below the same load."
    )  # (5 / 4.5)² = 1.235
    assert any(line.startswith("Keep off the foam") for line in crew["bare"])
    assert any(line.startswith("Only on one sheet of plywood") for line in crew["bare"])
    assert "Thickness of the concrete" in [row["at"] for row in crew["look"]]


def test_where_loads_stand_on_the_plan_the_contractor_is_led_to_their_picture() -> None:
    assert told()["contractor"]["where"] == ""
    assert told(PLAN)["contractor"]["where"].startswith("All loads seen from above has each at its place")
    assert next(each.name for each in borne(dossier(PLAN))) == "All loads seen from above"


def test_the_engineer_reads_shear_and_settlement_with_their_limits() -> None:
    (row,) = told()["engineer"]["rows"]
    assert plain(row["shear-limit"]).endswith(" psi") and plain(row["settlement-limit"]) == "1.00 in"
    assert row["now"] and row["later"] and plain(row["shear"]).endswith(" psi")
    one, two = told(PLAN)["engineer"]["rows"]
    assert one["plate"] and one["concrete"] and two["plate"] and two["concrete"]


def test_each_trade_has_a_sentence_to_repeat() -> None:
    said = {each["who"]: plain(each["words"]) for each in told()["trades"]}
    assert set(said) == {"Engineer", "Concrete contractor", "Whoever supplies the foam"}
    assert said["Concrete contractor"].startswith("5 in (127 mm) of concrete everywhere, no tyre on bare boards")
    assert "the rule of 45 degrees would ask for" in said["Whoever supplies the foam"]


def test_the_pictures_of_the_load_that_uses_most_go_with_them() -> None:
    names = [each.name for each in borne(dossier())]
    assert names == ["What each load uses", "Load 1 seen from above", "Load 1 cut through"]
    assert all(each.alt for each in borne(dossier()))


@pytest.mark.parametrize("text", [BRIEF.split("[[load]]", maxsplit=1)[0], BRIEF.replace('plate = "6 in x 6 in"', "")])
def test_a_floor_without_loads_that_can_be_told_has_no_such_sheets(text: str) -> None:
    assert told(text) is None
    assert borne(dossier(text)) == ()


def test_by_a_method_with_factors_on_loads_the_row_holds_the_factored_value_to_the_factored_limit() -> None:
    text = BRIEF.replace('inside = "68 F"', 'inside = "68 F"\nconcrete-method = "en-1990"')
    (row,) = told(text)["engineer"]["rows"]
    felt, may = (float(plain(row[key]).removesuffix(" psi")) for key in ("bent", "concrete"))
    (share,) = (each for each in dossier(text).as_briefed.borne[0].shares if each.part == "concrete")
    assert felt / may == pytest.approx(share.used, rel=0.01)
    assert "EN 1990" in told(text)["engineer"]["combination"][1]
