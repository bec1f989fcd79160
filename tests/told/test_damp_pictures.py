"""Pictures of damp: humidity by month, the vapour line, which way vapour goes; small and true to the findings."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache
from pathlib import Path
from xml.etree import ElementTree

import pytest

from underpour.answer import answer
from underpour.brief import read, reads
from underpour.cli import main
from underpour.dossier import Answer, Dossier
from underpour.drawings import drive_strip, humid_strip, vapour_line
from underpour.drawings.damp_words import drive_in_words, humid_places, humidity_in_words, line_in_words, way
from underpour.drawings.water_lines import density, filled
from underpour.handouts.pictures import damp, page
from underpour.papers.content import content
from underpour.papers.pictures import Pictures
from underpour.physics.moisture.vapour import PERMEABILITY_OF_AIR

from .page_cases import taken_apart
from .test_moisture_told import BRIEF, HUMID
from .test_slabs_outdoors import text as outdoors

MOST = 90_000  # bytes of one picture
BARE = BRIEF.replace('  { vapour-retarder = "film-15-mil" },\n', "").replace('  { covering = "vinyl-sheet" },\n', "")
RINK = Path(__file__).parents[2] / "examples/rink-hall/brief.toml"


@cache
def dossier(text: str) -> Dossier:
    return answer(reads(text))


@cache
def rink() -> Dossier:
    return answer(read(RINK))


def wet() -> Answer:
    return next(each for each in rink().alternatives if max(max(m) for of in each.vapour for m in of.water) > 0.3)


def texts(svg: str) -> list[str]:
    return [part.text or "" for part in ElementTree.fromstring(svg).iter() if part.tag.endswith("}text")]


def drawn(of: Answer, system: str) -> dict[str, str]:
    return {
        "humid": humid_strip({of.name: of.findings}, system, width=170.0),
        **{f"line {t.place}": vapour_line(t, system, width=170.0) for t in of.vapour},
        **{f"drive {t.place}": drive_strip(t, width=170.0) for t in of.vapour},
    }


@pytest.mark.parametrize("system", ["US", "SI"])
@pytest.mark.parametrize("which", ["film", "bare", "wet rink"])
def test_each_picture_of_damp_is_small_sound_and_the_same_twice(which: str, system: str) -> None:
    of = wet() if which == "wet rink" else dossier(BRIEF if which == "film" else BARE).as_briefed
    again = drawn(of, system)
    for name, svg in drawn(of, system).items():
        assert svg == again[name]
        assert len(svg.encode()) < MOST, name
        assert "nan" not in svg
        root = ElementTree.fromstring(svg)
        high = float(root.get("viewBox", "").split()[3])
        for node in (each for each in root.iter() if each.tag.endswith("}text")):
            wide, x = float(node.get("textLength", "0")), float(node.get("x", "0"))
            left = x - {"start": 0.0, "middle": wide / 2.0, "end": wide}[node.get("text-anchor", "start")]
            assert left >= -0.1 and left + wide <= 170.1, (name, node.text)
            assert 2.0 < float(node.get("y", "0")) < high, (name, node.text)


def test_every_cell_of_the_strip_is_the_finding_s_own_month() -> None:
    found = humid_places(dossier(BRIEF).as_briefed.findings)
    assert len(found) == 6
    numbers = [said for said in texts(drawn(dossier(BRIEF).as_briefed, "SI")["humid"]) if said.isdecimal()]
    assert numbers == [f"{each:.0f}" for finding in found for each in finding.months or ()]


def test_five_densities_of_level_lines_stand_for_more_and_more_humidity() -> None:
    lines = [filled((0.0, 0.0, 8.0, 3.2), density(each)).count("M") for each in (50.0, 65.0, 75.0, 85.0, 95.0)]
    assert lines == [1, 2, 3, 4, 6]
    assert density(79.99) < density(80.0)


def test_a_month_above_its_limit_has_a_bold_frame_and_no_other_has() -> None:
    of = dossier(BRIEF).as_briefed
    found = humid_places(of.findings)
    over = sum(each > (f.limit or 0.0) for f in found for each in f.months or ())
    bold = drawn(of, "SI")["humid"].count('stroke-width="0.5"')
    assert over > 0 and bold == over + 1  # and the one that the key explains
    calm = [replace(each, limit=100.0, months=(50.0,) * 12) for each in found]
    assert humid_strip({"": calm}, "SI", width=170.0).count('stroke-width="0.5"') == 1


def test_what_cannot_be_told_is_dotted_and_says_so() -> None:
    open_to = dossier(BRIEF.replace(HUMID, "")).as_briefed
    svg = drawn(open_to, "SI")["humid"]
    assert "cannot tell" in texts(svg) and 'stroke-dasharray="0.4 1.1"' in svg
    assert "type site.humidity" in humidity_in_words(humid_places(open_to.findings), "SI")
    assert "stroke-dasharray" not in drawn(dossier(BRIEF).as_briefed, "SI")["humid"]


def test_the_vapour_line_ends_at_the_room_s_vapour_and_at_saturation_and_never_lies_beyond() -> None:
    for of in (dossier(BRIEF).as_briefed, wet()):
        for through in of.vapour:
            for here, most in zip(through.pressure, through.saturated, strict=True):
                assert here[-1] == pytest.approx(most[-1])
                assert all(p <= held * (1.0 + 1e-9) for p, held in zip(here, most, strict=True))


def test_the_strongest_drive_that_is_drawn_is_the_finding_s() -> None:
    of = dossier(BRIEF).as_briefed
    drive = of.find("moisture.drive")
    (through, *_) = [each for each in of.vapour if each.place == "centre"]
    assert drive.months is not None
    for month, told in enumerate(drive.months):
        assert through.pressure[month][-1] - through.pressure[month][0] == pytest.approx(told, abs=1e-6)
        way_up = "up" if told > 0.0 else "down"
        assert {way(through, n, month) for n in range(len(through.layers) + 1)} <= {way_up, "still", "gathers", "dries"}


def test_vapour_through_a_film_is_its_permeance_times_the_pressure_across_it() -> None:
    of = dossier(BRIEF).as_briefed
    through = of.vapour[0]
    (film,) = [n for n, layer in enumerate(through.layers) if layer.film]
    permeance = next(each.value for each in of.findings if each.id == "moisture.film" and each.unit.startswith("ng"))
    for month in range(12):
        across = through.pressure[month][film + 1] - through.pressure[month][film]
        assert through.up[month][film] == pytest.approx(permeance * 1e-12 * across, rel=1e-6)
    assert PERMEABILITY_OF_AIR == 2e-10


def test_where_water_lies_the_line_says_how_much_and_the_strip_says_when_it_gathers_and_dries() -> None:
    of = wet()
    (through,) = [each for each in of.vapour if each.place == "edge"]
    told = of.find("moisture.within", of="most", edge=through.edge, place="edge")
    assert told.value is not None and told.month == through.decides
    assert max(through.water[through.decides - 1]) == pytest.approx(told.value)
    assert any("of water" in said for said in texts(vapour_line(through, "SI", width=170.0)))
    assert "of water" in line_in_words(through, "SI") and "gathers in" in drive_in_words(through)
    dry = dossier(BRIEF).as_briefed.vapour[0]
    assert not any("of water" in said for said in texts(vapour_line(dry, "SI", width=170.0)))


def test_water_lines_fill_the_space_only_where_vapour_would_be_more_than_the_air_holds() -> None:
    through = next(each for each in wet().vapour if each.place == "edge")
    pen = r'<path d="(M[^"]*)" fill="none" stroke="#182A2E" stroke-width="0.25"/>'

    def level(of: object) -> int:
        svg = vapour_line(of, "SI", width=170.0)  # type: ignore[arg-type]
        return sum(data.count("H") for data in re.findall(pen, svg) if "V" not in data and "L" not in data)

    calm = replace(through, unhindered=tuple(tuple(0.9 * p for p in row) for row in through.saturated))
    assert level(through) > level(calm)


def test_the_submittal_shows_them_beside_what_falls_short_and_its_caution() -> None:
    from underpour.drawings import vapour_line as line_of

    made = dossier(BRIEF)
    pictures = damp(made)
    assert pictures[0].name == "How humid it is"
    assert all(each.alt and each.headed for each in pictures)
    told = content(made, Pictures(damp=pictures), "28 November 2026")
    assert len(told["damp"]) == len(pictures) == 1 + 2 * len(made.as_briefed.vapour)
    assert told["dry"]["cautions"] and "Mould can make people ill" in told["dry"]["cautions"][0]
    short = [f for f in made.as_briefed.findings if f.id.startswith("moisture.") and f.verdict == "falls short"]
    assert len([row for row in told["dry"]["rows"] if row["verdict"] == "falls short"]) == len(short) > 0
    assert line_of(made.as_briefed.vapour[0], "SI", width=170.0) == pictures[1].svg


def test_a_slab_outdoors_has_no_picture_of_damp_and_is_told_why(tmp_path, capsys) -> None:
    walk = outdoors()
    assert damp(dossier(walk)) == ()
    file = tmp_path / "brief.toml"
    file.write_text(walk, "utf-8")
    assert main(["compare", str(file), "-o", str(tmp_path / "damp.svg"), "--damp"]) == 2
    assert "No room lies over this slab" in capsys.readouterr().err


def test_compare_draws_every_alternative_s_damp_into_one_picture_and_onto_the_page(tmp_path, capsys) -> None:
    file = tmp_path / "brief.toml"
    file.write_text(BRIEF + '[[alternative]]\nname = "bare slab"\nremove = ["board"]\n', "utf-8")
    out = tmp_path / "damp.svg"
    assert main(["compare", str(file), "-o", str(out), "--damp"]) in (0, 1)
    assert "The picture of the damp is in" in capsys.readouterr().out
    assert {"As briefed", "Bare slab"} <= set(texts(out.read_text("utf-8")))
    made = answer(read(file))
    told = taken_apart(page(made, "A"))
    figure = told.one("div", class_="damp")
    assert "As briefed: Floor, behind furniture" in figure.words and "Bare slab: Floor" in figure.words
    assert "Mould can make people ill" in figure.words
