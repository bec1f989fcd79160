"""Pictures of heated floors: true to the findings, within their sheet, no words on one another, told in words too."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import combinations
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest
from ask_cases import bare

from underpour.answer import answer
from underpour.brief import reads
from underpour.checks.warm.seen import Heated
from underpour.cli import main
from underpour.dossier import Answer, Dossier
from underpour.drawings import colours, heated_flow, heated_from_cold, heated_section, heated_year
from underpour.drawings.heated_flow import BAND, _field
from underpour.drawings.heated_section import _laid, _sheet, section_drawn, shared_scale
from underpour.drawings.heated_words import flow_in_words, flow_number, flow_words, section_in_words, year_in_words
from underpour.drawings.lettering import CAPITAL, HEADING
from underpour.drawings.paper import Box
from underpour.handouts.pictures import for_submittal, heated, page
from underpour.measure import say
from underpour.measure.table import System
from underpour.papers.content import content
from underpour.papers.pictures import Pictures

from .page_cases import taken_apart

TUBE = '\n[tube]\nsize = "16 mm"\nspacing = "200 mm"\ndepth-from-top = "40 mm"\nload = "45 W/m²"\n'
CABLE = '\n[tube]\nheat = "electric"\nspacing = "100 mm"\nload = "45 W/m²"\n'
CASES = {
    "tubes": TUBE,
    "cables": CABLE,
    "much heat, few loops": f'{TUBE.replace("45 W/m²", "130 W/m²")}loops = 3\nwarm-within = "6 h"\n',
    "glycol": f'{TUBE}fluid = "propylene-glycol-40"\nsource = "heat-pump"\nwarm-within = "8 h"\n',
}
MOST = 90_000  # bytes of one picture
WIDE = 170.0


@cache
def dossier(case: str, use: str = "dwelling") -> Dossier:
    return answer(reads(bare(use, "raft") + CASES.get(case, case)))


def floor(case: str) -> Heated:
    of = dossier(case).as_briefed.heated
    assert of is not None
    return of


def told(case: str, id: str, **at: str) -> Answer:
    return dossier(case).as_briefed.find(id, **at)  # type: ignore[return-value]


@cache
def drawn(case: str, system: System) -> dict[str, str]:
    of = floor(case)
    made = {
        "section": heated_section(of, system, width=WIDE),
        "from cold": heated_from_cold(of, system, width=WIDE),
        "year": heated_year({"as briefed": of}, system, width=WIDE),
        "years": heated_year({"as briefed": of, "another": of}, system, width=WIDE),
    }
    return made if of.electric else made | {"flow": heated_flow(of, system, width=WIDE)}


def words(svg: str) -> list[tuple[str, Box]]:
    """All letters with the room they take."""
    found = []
    for node in (each for each in ElementTree.fromstring(svg).iter() if each.tag.endswith("}text")):
        wide, x, y = (float(node.get(name, "0")) for name in ("textLength", "x", "y"))
        left = x - {"start": 0.0, "middle": wide / 2.0, "end": wide}[node.get("text-anchor", "start")]
        high = float(node.get("font-size", "0")) * CAPITAL
        found.append((node.text or "", Box(left, y - high, left + wide, y)))
    return found


def texts(svg: str) -> str:
    return " | ".join(said for said, _ in words(svg))


@pytest.mark.parametrize("system", ["US", "SI"])
@pytest.mark.parametrize("case", CASES)
def test_each_picture_is_small_sound_and_the_same_twice(case: str, system: System) -> None:
    for name, svg in drawn(case, system).items():
        assert len(svg.encode()) < MOST, name
        assert "nan" not in svg.lower(), name
        root = ElementTree.fromstring(svg)
        assert [child.tag.rpartition("}")[2] for child in root][:2] == ["title", "desc"]
        assert len(root[1].text or "") > 80, name
    of = floor(case)
    assert heated_section(of, system, width=WIDE) == drawn(case, system)["section"]


@pytest.mark.parametrize("system", ["US", "SI"])
@pytest.mark.parametrize("case", CASES)
def test_no_words_run_off_the_sheet_or_over_one_another(case: str, system: System) -> None:
    for name, svg in drawn(case, system).items():
        high = float(ElementTree.fromstring(svg).get("viewBox", "").split()[3])
        for said, box in words(svg):
            assert box.left >= -0.1 and box.right <= WIDE + 0.1, (name, said)
            assert box.top > 0.5 and box.bottom < high, (name, said)
        for (one, box), (other, beside) in combinations(words(svg), 2):
            assert not box.meets(beside), f"{name}: {one!r} and {other!r}"


@pytest.mark.parametrize("case", CASES)
def test_the_section_s_numbers_are_the_findings(case: str) -> None:
    surface = told(case, "warm.surface")
    said = texts(drawn(case, "SI")["section"])
    above = "above a cable" if case == "cables" else "above a tube"
    assert f"{say.value(surface.value, 'degC', 'SI')} {above}" in said.replace("\u00a0", "\u2009")
    assert f"{say.value(surface.limit, 'degC', 'SI')}, held to" in said.replace("\u00a0", "\u2009")
    of = floor(case)
    assert of.month == surface.month and float(of.around.surface.max()) == pytest.approx(surface.value, abs=0.01)


def test_the_line_of_the_surface_is_the_uppermost_row_of_the_temperatures_below_it() -> None:
    around = floor("tubes").around
    assert np.interp(around.along, around.x, around.degrees[-1]) == pytest.approx(around.surface, abs=0.01)


def test_tints_reach_from_one_end_of_the_drawing_to_the_other() -> None:
    of = floor("tubes")
    laid = _laid(of, WIDE, 40.0)
    field = _sheet(of, laid)
    assert (field.x[0], field.x[-1]) == pytest.approx((laid.frame.left, laid.frame.right), abs=0.01)
    assert (np.diff(field.x) > 0.0).all() and (np.diff(field.y) > 0.0).all()
    middle = float(laid.frame.y(-of.axis))
    beside = np.array([laid.middle(n, of) + 1.5 * of.outside * laid.frame.scale for n in range(laid.tubes)])
    assert np.ptp(field.at(beside, np.full(laid.tubes, middle))) < 0.05


def test_animals_are_held_to_no_limit_so_none_is_drawn() -> None:
    barn = dossier(TUBE, "barn").as_briefed.heated
    assert barn is not None and barn.limit is None and barn.at_edge is None
    said = texts(heated_section(barn, "SI", width=WIDE))
    assert "held to" not in said and "strip" not in said and "held to" in texts(drawn("tubes", "SI")["section"])


def test_layers_far_below_the_foam_are_not_drawn_and_the_tubes_grow_larger() -> None:
    of = floor("tubes")
    gravel = of.layers[-1]
    deep = replace(of, layers=(*of.layers[:-1], replace(gravel, thickness=0.3), gravel))
    assert texts(heated_section(deep, "SI", width=WIDE)).count("Gravel") == 1
    bare_floor = replace(of, layers=tuple(each for each in deep.layers if "foam" not in each.hatch))
    assert texts(heated_section(bare_floor, "SI", width=WIDE)).count("Gravel") == 2


@pytest.mark.parametrize("case", [case for case in CASES if case != "cables"])
def test_the_curve_goes_through_the_pressure_that_is_told(case: str) -> None:
    pressure, runs = told(case, "warm.pressure"), floor(case).pumped
    assert runs is not None
    assert runs.loss == pytest.approx(pressure.value) and runs.most == pressure.limit
    assert float(np.interp(runs.flow, runs.flows, runs.losses)) == pytest.approx(pressure.value, rel=1e-3)
    said = texts(drawn(case, "SI")["flow"]).replace("\u00a0", "\u2009")
    assert f"coldest day {flow_words(runs.flow, 'SI')}, {say.value(pressure.value, 'kPa', 'SI')}" in said
    assert f"{say.value(pressure.limit, 'kPa', 'SI')}, the pump's" in said
    litres = next(step for step in pressure.steps if step.symbol == "V").result
    assert flow_words(runs.flow, "SI").replace("\u2009", " ") == litres


def test_of_unlike_loops_the_curve_is_that_of_the_longest_and_all_of_them_are_added_up() -> None:
    alike, unlike = (f"{TUBE}loop-lengths = {lengths}\n" for lengths in ('["85 m", "85 m"]', '["95 m", "75 m"]'))
    told_apart, even = floor(unlike).pumped, floor(alike).pumped
    assert told_apart is not None and even is not None
    assert (told_apart.length, told_apart.count, told_apart.longest) == (95.0, 2, True)
    pressure = told(unlike, "warm.pressure")
    assert told_apart.loss == pytest.approx(pressure.value) and told_apart.loss > even.loss
    assert told_apart.flow > told_apart.whole / 2.0 and even.flow == pytest.approx(even.whole / 2.0)
    assert "The longest of 2 loops" in flow_in_words(told_apart, "SI")
    assert f"go {flow_words(told_apart.whole, 'SI')}" in flow_in_words(told_apart, "SI")


def test_a_heat_pump_s_months_stand_below_the_water_s_and_a_boiler_has_none() -> None:
    pump = told("glycol", "warm.heat-pump")
    said = [each for each, _ in words(drawn("glycol", "SI")["year"])]
    heated_months = [n for n in range(12) if floor("glycol").year.heated[n]]
    row = said[said.index("heat pump, times") + 1 :][: len(heated_months)]
    assert pump.months is not None and row == [f"{pump.months[n]:.1f}" for n in heated_months]
    assert "heat pump, times" not in [each for each, _ in words(drawn("tubes", "SI")["year"])]


@pytest.mark.parametrize("case", [case for case in CASES if case != "cables"])
@pytest.mark.parametrize("share", [1.0, 0.3])
def test_the_words_at_the_working_point_keep_off_the_curve(case: str, share: float) -> None:
    of = floor(case)
    assert of.pumped is not None
    slow = share * of.pumped.flow
    loss = float(np.interp(slow, of.pumped.flows, of.pumped.losses))
    runs = replace(of.pumped, flow=slow, loss=loss)
    svg = heated_flow(replace(of, pumped=runs), "SI", width=WIDE)
    (box,) = [box for said, box in words(svg) if said.startswith("coldest day")]
    field = _field(runs, "SI", HEADING * CAPITAL + 4.0 + BAND, WIDE)
    for flow, felt in zip(runs.flows, runs.losses, strict=True):
        x, y = field.x(flow_number(float(flow), "SI")), field.y(float(felt))
        assert not (box.left < x < box.right and box.top < y < box.bottom), (flow, felt)


def test_two_curves_are_drawn_only_where_it_is_not_sure_how_the_water_flows() -> None:
    runs = floor("tubes").pumped
    assert runs is not None
    between = (runs.flows > runs.layers_until) & (runs.flows < runs.eddies_from)
    assert between.any() and (runs.least[between] < runs.losses[between]).all()
    assert runs.least[~between] == pytest.approx(runs.losses[~between])
    assert float(runs.flows[-1]) > runs.eddies_from
    assert runs.eddies_from / runs.layers_until == pytest.approx(4000.0 / 2300.0)


def test_slow_flow_in_layers_goes_by_the_flow_itself() -> None:
    runs = floor("glycol").pumped
    assert runs is not None
    slow = runs.flows < runs.layers_until
    assert slow.sum() > 5
    assert runs.losses[slow] / runs.flows[slow] == pytest.approx(float(runs.losses[0] / runs.flows[0]), rel=1e-4)


@pytest.mark.parametrize("case", CASES)
def test_from_cold_it_is_warm_at_the_hour_that_is_told(case: str) -> None:
    warm, cold = told(case, "warm.warm-up"), floor(case).from_cold
    assert cold.reached == pytest.approx(warm.value) and cold.within == warm.limit
    assert float(np.interp(cold.reached, cold.hours, cold.floor)) == pytest.approx(cold.wanted, abs=0.01)
    said = texts(drawn(case, "SI")["from cold"]).replace("\u00a0", "\u2009")
    assert f"warm after {say.value(warm.value, 'h', 'SI')}" in said
    assert ("asked for" in said) == (warm.limit is not None)
    assert cold.floor[0] == cold.start and (np.diff(cold.floor) > -1e-3).all()


def test_a_floor_that_never_gets_there_says_so() -> None:
    of = floor("tubes")
    never = replace(of, from_cold=replace(of.from_cold, reached=None, wanted=60.0))
    assert "does not get to 60.0" in heated_from_cold(never, "SI", width=WIDE).replace("\u2009", " ")
    assert "warm after" not in texts(heated_from_cold(never, "SI", width=WIDE))


@pytest.mark.parametrize("case", CASES)
def test_both_shares_of_the_season_are_the_findings(case: str) -> None:
    year = floor(case).year
    up, down = (sum(each for each, on in zip(of, year.heated, strict=True) if on) for of in (year.up, year.down))
    shares = {"up": down / up, "total": down / (up + down)}
    said = [each.replace("\u00a0", " ") for each, _ in words(drawn(case, "SI")["year"])]
    for of, share in shares.items():
        finding = told(case, "warm.downward", of=of)
        assert 100.0 * share == pytest.approx(finding.value)
        assert f"{finding.value:.0f} %" in said  # by itself, beside the columns
    supply = [f for f in dossier(case).as_briefed.findings if f.id == "warm.supply"]
    assert (year.supply is None) == (not supply)
    if supply and year.supply:
        others = [n for n in range(12) if n + 1 != supply[0].month]
        assert [year.supply[n] for n in others] == pytest.approx([supply[0].months[n] for n in others])


def test_months_without_heat_have_no_column_and_are_named() -> None:
    of = floor("tubes")
    less = replace(of, year=replace(of.year, heated=(True,) * 4 + (False,) * 5 + (True,) * 3))
    said = year_in_words({"": less}, "SI")
    assert "No heat from May to September." in said
    always = replace(of, year=replace(of.year, heated=(True,) * 12, up=(20.0,) * 12, down=(3.0,) * 12))
    seldom = replace(always, year=replace(always.year, heated=less.year.heated))
    columns = [heated_year({"": each}, "SI", width=WIDE).count('stroke-width="0.25"/>') for each in (always, seldom)]
    assert columns[0] == columns[1] + 5


def test_versions_share_one_scale_so_that_half_the_heat_is_half_the_column() -> None:
    of = floor("tubes")
    half = replace(of, year=replace(of.year, up=tuple(each / 2.0 for each in of.year.up)))
    svg = heated_year({"as briefed": of, "half": half}, "SI", width=WIDE)
    rects = [node for node in ElementTree.fromstring(svg).iter() if node.tag.endswith("}rect") and node.get("stroke")]
    high = [float(node.get("height", "0")) for node in rects]
    assert len(high) % 2 == 0 and high[len(high) // 2] == pytest.approx(high[0] / 2.0, abs=0.02)


def test_someone_who_does_not_see_them_is_told_the_same() -> None:
    of = floor("tubes")
    assert "go up and" in section_in_words(of, "SI") and "It may be up to" in section_in_words(of, "SI")
    assert "It may be" not in section_in_words(replace(of, limit=None), "SI")
    for picture in heated(dossier("tubes")):
        assert picture.alt and picture.headed and picture.wide == WIDE


def test_a_floor_without_tubes_has_no_picture_and_no_sheet() -> None:
    plain = dossier("")
    assert plain.as_briefed.heated is None and heated(plain) == ()
    assert content(plain, Pictures(), "28 November 2026")["heating"] is None


@pytest.mark.parametrize(
    "case, trade, caution",
    [("tubes", "For the heating installer", "back-flow"), ("cables", "For the electrician", "earth-leakage")],
)
def test_the_submittal_has_a_sheet_for_who_lays_it_with_cautions_beside_their_findings(
    case: str, trade: str, caution: str
) -> None:
    made = dossier(case)
    assert len(for_submittal(made).heated) == (3 if case == "cables" else 4)
    sheet = content(made, Pictures(heated=heated(made)), "28 November 2026")["heating"]
    assert sheet["trade"] == trade
    rows = [*sheet["owner"], *sheet["installer"]]
    found = [f for f in made.as_briefed.findings if f.id.startswith("warm.")]
    assert len(rows) == len(found) and {row["caution"] for row in rows} == {f.caution for f in found}
    assert any(caution in row["caution"] for row in sheet["installer"])
    assert any("before the pour" in each or "before anything is poured" in each for each in sheet["lines"])
    assert any("during the pour" in each or "through the pour" in each for each in sheet["lines"])
    depth = next(row["value"] for row in sheet["laid"] if row["name"].startswith("From the finished floor"))
    assert "no drill" in depth
    assert (sheet["months"] is None) == (case == "cables")


def test_compare_draws_every_version_with_heat_and_refuses_a_floor_without(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file, out = tmp_path / "brief.toml", tmp_path / "warm.svg"
    file.write_text(
        bare("dwelling", "raft") + TUBE + '[[alternative]]\nname = "bare slab"\nremove = ["board"]\n', "utf-8"
    )
    assert main(["compare", str(file), "-o", str(out), "--heated"]) in (0, 1)
    assert "The picture of the heated floor is in" in capsys.readouterr().out
    assert {"As briefed", "Bare slab"} <= {said for said, _ in words(out.read_text("utf-8"))}
    file.write_text(bare("dwelling", "raft") + '[[alternative]]\nname = "bare slab"\nremove = ["board"]\n', "utf-8")
    out.unlink()
    assert main(["compare", str(file), "-o", str(out), "--heated"]) == 2
    assert "No tubes and no cables lie in this floor" in capsys.readouterr().err and not out.exists()


def test_the_web_page_shows_every_version_on_one_scale_and_its_months_with_their_cautions() -> None:
    bare_too = f'{TUBE}\n[[alternative]]\nname = "bare slab"\nremove = ["board"]\n'
    made = dossier(bare_too)
    figure = taken_apart(page(made, "A")).one("div", class_="damp heated")
    labels = [each.attributes["aria-label"] for each in figure.all("div") if "aria-label" in each.attributes]
    assert labels == [
        "as briefed: tubes in the floor, with temperatures, drawn",
        "bare slab: tubes in the floor, with temperatures, drawn",
        "as briefed: pressure of one loop by its flow, drawn",
        "as briefed: from cold, hour by hour, drawn",
        "What goes up and what goes down, month by month, drawn",
    ]
    assert "Bare slab: PE-X tube" in figure.words and "scalds" in figure.words and "back-flow" in figure.words
    floors = {answer.name: answer.heated for answer in made.alternatives if answer.heated is not None}
    scale = shared_scale(tuple(floors.values()), made.units)
    for name, of in floors.items():
        assert scale.levels[0] <= float(np.nanmin(of.around.degrees)) and of.water <= scale.levels[-1]
        assert section_drawn(of, made.units, width=WIDE, scale=scale, name=name, told=False).field in page(made, "A")
    assert "damp heated" not in page(dossier('\n[[alternative]]\nname = "bare slab"\nremove = ["board"]\n'), "A")


def test_what_lies_in_the_floor_keeps_its_ink_where_the_page_is_dark() -> None:
    drawn_in_parts = section_drawn(floor("tubes"), "SI", width=WIDE, scale=None, name="")
    assert colours.light()["shade"] in drawn_in_parts.around and "circle" in drawn_in_parts.field
    assert "<text" in drawn_in_parts.field and "room" in drawn_in_parts.around and "room" not in drawn_in_parts.field
