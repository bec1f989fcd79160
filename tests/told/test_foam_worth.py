"""What an alternative's foam saves beside the one without any, what less foam would save, and where to lay none."""

from __future__ import annotations

import re
from functools import cache
from math import pi
from pathlib import Path

import numpy as np
from pytest import approx

from underpour.answer import answer
from underpour.brief import Reading, read, reads
from underpour.cli.side_by_side import comparison_text
from underpour.dossier import Dossier
from underpour.measure import say
from underpour.papers.compared import compared
from underpour.resolve.air import air
from weather_files import GOLDEN, tmy3

BRIEF = """
[project]
use = "{use}"
units = "SI"
[site]
monthly = [{months}]
ground = "clay-or-silt"
[plan]
unit = "m"
outline = ["0 0", "16 0", "16 12", "0 12"]
[floor]
inside = {inside}
humidity = "45 %"
build-up = [{{ concrete = "100 mm" }}]
[[edge]]
sides = "all"
kind = "frost-wall"
depth = "1.2 m"
[[alternative]]
name = "at the edge"
set = {{ "edge.A.insulation" = [{{ board = "plain-15", thickness = "2 in", face = "outside" }}] }}
[[alternative]]
name = "edge and middle"
[alternative.set]
"edge.A.insulation" = [{{ board = "plain-15", thickness = "2 in", face = "outside" }}]
"floor.build-up" = [{{ concrete = "100 mm" }}, {{ board = "plain-15", thickness = "2 in" }}]
"""
COLD = (-10, -8, -2, 5, 12, 17, 20, 18, 13, 7, 0, -7)
HOT = (11, 13, 17, 21, 25, 29, 31, 31, 28, 22, 16, 12)
FREEZING = '"-20 C"'


@cache
def told(months: tuple[int, ...], inside: str, use: str = "dwelling") -> Dossier:
    typed = ", ".join(f'"{t} C"' for t in months)
    return answer(reads(BRIEF.format(months=typed, inside=inside, use=use)))


def words(dossier: Dossier) -> list[str]:
    thin = "\N{THIN SPACE}"
    return [a.find("heat.loss-mean", of="floor").words.replace(thin, " ") for a in dossier.alternatives]


def losses(dossier: Dossier) -> list[float]:
    return [a.find("heat.loss-mean", of="floor").value or 0.0 for a in dossier.alternatives]


def test_in_the_cold_foam_says_what_it_saves_and_how_much_of_it_the_edge_alone_would() -> None:
    dossier = told(COLD, '"20 C"')
    bare, edge, both = losses(dossier)
    none, alone, whole = words(dossier)
    assert none == ""
    assert f"{100.0 * (bare - edge) / bare:.0f} % of what leaves through the floor without any." in alone
    assert f"{100.0 * (bare - both) / bare:.0f} % of what leaves through the floor without any." in whole
    share = re.search(r"“at the edge” saves (\d+) % of that with (\d+) % of the foam\.", whole)
    assert share is not None
    assert int(share[1]) == round(100.0 * (bare - edge) / (bare - both))
    # 56 m of edge, 0.95 m down to the footing at 1.2 - 0.25 m; 192 m² of floor; the same 2 in
    assert int(share[2]) == round(100.0 * 56.0 * 0.95 / (56.0 * 0.95 + 192.0))
    assert "do not insulate" not in " ".join(words(dossier))


def test_foam_at_one_side_is_counted_by_that_side() -> None:
    """16 m of the 56, 0.95 m down; then 192 m² of floor too. Derived."""
    text = BRIEF.format(months=", ".join(f'"{t} C"' for t in COLD), inside='"20 C"', use="dwelling")
    rest = '[[edge]]\nsides = "rest"\nkind = "frost-wall"\ndepth = "1.2 m"\n[[alternative]]'
    one_side = text.replace('sides = "all"', "sides = [1]").replace("[[alternative]]", rest, 1)
    *_, whole = words(answer(reads(one_side)))
    share = re.search(r"with (\d+) % of the foam\.", whole)
    assert share is not None and int(share[1]) == round(100.0 * 16.0 * 0.95 / (16.0 * 0.95 + 192.0))


def test_in_the_heat_it_says_where_to_lay_none() -> None:
    _, alone, whole = words(told(HOT, '{ winter = "19 C", summer = "26 C" }'))
    assert "do not insulate" not in alone
    assert "what is laid beyond “at the edge” keeps in" in whole
    assert whole.endswith("where the room is cooled then, do not insulate here for the heat.")


def test_a_room_colder_than_the_ground_is_told_which_way_the_heat_goes() -> None:
    dossier = told(COLD, FREEZING, "cold-store")
    assert losses(dossier)[0] < 0.0
    bare, *foamed = words(dossier)
    assert bare == "Negative: on the mean of the year heat comes into the room here."
    assert all(each.startswith(f"{bare} Without foam the ground would bring ") for each in foamed)
    assert all(each.endswith(" more into the room.") for each in foamed)


def test_foam_below_a_rink_saves_no_heat_that_the_rink_wants() -> None:
    """A hall at 8 degC loses heat to colder ground, which ice wants; a workshop as cold is told what foam saves."""
    bare, *foamed = words(told(COLD, '"8 C"', "rink"))
    assert bare == "" and losses(told(COLD, '"8 C"', "rink"))[0] > 0.0
    for each in foamed:
        assert each.startswith("Without foam the ground would take ")
        assert each.endswith(" more from this floor, which wants no heat: foam lies here against frost in the ground.")
    assert all(each.startswith("Foam saves ") for each in words(told(COLD, '"8 C"', "workshop"))[1:])


def test_the_sentences_stand_in_compare_and_in_the_submittal() -> None:
    dossier = told(COLD, '"20 C"')
    said = " ".join(comparison_text(dossier, 120).split())
    assert "“at the edge” saves" in said
    (table,) = compared(dossier, "SI")
    assert any("“at the edge” saves" in each for column in table["words"] for each in column)


def test_the_years_kilowatt_hours_stand_side_by_side_and_harmful_and_useful_where_they_are_not_the_net() -> None:
    """Warmer than every month outdoors, harmful is the net; let go it is less; cooled, some is useful."""
    mild = (3, 5, 9, 13, 17, 20, 22, 21, 18, 13, 8, 4)
    for dossier, flows in (
        (told(COLD, '"21 C"'), ["net"]),
        (told(mild, '"20 C"'), ["net", "harmful"]),
        (told(mild, '"20 C"\ncooled = true'), ["net", "harmful", "useful"]),
    ):
        (table,) = compared(dossier, "SI")
        rows = [row for row in table["rows"] if row["title"].endswith(" over the year")]
        assert [row["title"].split()[0].casefold() for row in rows] == flows
        for flow, row in zip(flows, rows, strict=True):
            found = [a.find("heat.loss-year", of="floor", flow=flow) for a in dossier.alternatives]
            assert [cell["value"] for cell in row["cells"]] == [say.both(f.value, "kWh", "SI") for f in found]


def test_without_a_floor_that_is_bare_nothing_is_held_against_it() -> None:
    text = BRIEF.format(months=", ".join(f'"{t} C"' for t in COLD), inside='"20 C"', use="dwelling")
    foamed = text.replace(
        'build-up = [{ concrete = "100 mm" }]\n',
        'build-up = [{ concrete = "100 mm" }, { board = "plain-15", thickness = "1 in" }]\n',
        1,
    )
    assert words(answer(reads(foamed))) == ["", "", ""]


WARM = '{{ winter = "21 C", summer = "26 C" }}{}'


def beyond(said: str) -> tuple[float, float]:
    """Kilowatt hours that foam keeps in while it is warmer outdoors, and those that it saves in the rest."""
    found = re.search(r"beyond “at the edge” keeps in (\S+) kWh.*?(?:it saves|against) (\S+) kWh", said)
    assert found is not None, said
    return float(found[1]), float(found[2])


def test_what_foam_keeps_in_and_saves_is_what_the_years_months_say() -> None:
    """Foam of the middle: the months of heat.loss-year, split by outdoors being warmer than 21 to 26 degC."""
    dossier = told(HOT, WARM.format(""))
    edge, both = (a.find("heat.loss-year", of="floor", flow="net").months for a in dossier.alternatives[1:])
    saved = [b - f for b, f in zip(edge, both, strict=True)]
    warm = [n for n, outdoors in enumerate(HOT) if outdoors > 23.5 + 2.5 * np.cos(2 * pi * (n + 0.5 - 6.5) / 12)]
    kept, rest = beyond(words(dossier)[2])
    assert kept == approx(sum(saved[n] for n in warm), rel=0.01)
    assert rest == approx(sum(saved) - sum(saved[n] for n in warm), rel=0.01)


def test_a_room_that_is_cooled_is_told_outright_and_one_that_is_let_go_is_told_nothing_of_summer() -> None:
    cooled, let_go = (words(told(HOT, WARM.format(f"\ncooled = {each}")))[2] for each in ("true", "false"))
    assert "do not insulate here for the heat." in cooled and "where the room is cooled" not in cooled
    assert "do not insulate" not in let_go and "keeps in" not in let_go
    assert let_go.endswith(" kWh; in the others it is let go.")
    _, saved = beyond(cooled)
    assert f"what is laid beyond “at the edge” saves {saved:.1f} kWh" in let_go


def test_with_a_weather_file_it_is_told_by_its_hours(tmp_path: Path) -> None:
    """The months of heat.loss-year by hours again; those of the year's wave alone differ by more than it is told to."""
    (tmp_path / "golden.csv").write_text(tmy3(GOLDEN, None), encoding="utf-8")
    typed = BRIEF.format(months="{}", inside='"16 C"', use="dwelling").replace(
        "monthly = [{}]", 'weather = "golden.csv"'
    )
    (tmp_path / "brief.toml").write_text(typed, encoding="utf-8")
    reading = read(tmp_path / "brief.toml")
    dossier = answer(reading)
    edge, both = (a.find("heat.loss-year", of="floor", flow="net").months for a in dossier.alternatives[1:])
    kept, rest = beyond(words(dossier)[2])
    saved = [b - f for b, f in zip(edge, both, strict=True)]
    wants = next(s for s in dossier.as_briefed.find("heat.loss-year", flow="useful").steps if s.symbol == "wants")
    assert wants.numbers == "heat from October to May; nothing from June to September"
    assert kept == approx(sum(saved[5:9]), rel=0.01) and rest == approx(sum(saved) - sum(saved[5:9]), rel=0.01)
    means = ", ".join(f'"{t} C"' for t in reading_months(reading))
    by_months = words(answer(reads(BRIEF.format(months=means, inside='"16 C"', use="dwelling"))))[2]
    assert abs(beyond(by_months)[0] / kept - 1.0) > 0.01


def reading_months(reading: Reading) -> tuple[float, ...]:
    return air(reading.brief.site, "SI").months
