"""Pictures of frost: the section at its deepest, the front through the winter, the stages; true to the findings."""

from __future__ import annotations

import re
from functools import cache
from xml.etree import ElementTree

import numpy as np
import pytest

from underpour.answer import answer
from underpour.brief import reads
from underpour.checks.frozen import Wintered
from underpour.cli import main
from underpour.dossier import Answer, Dossier
from underpour.drawings import frost_winter
from underpour.drawings.frost_front import HIGH, front_drawn, span_of
from underpour.drawings.frost_words import frost_in_words, worst_place, worst_winter
from underpour.drawings.paper import plain
from underpour.handouts.pictures import frost, page
from underpour.measure import say
from underpour.papers.content import content
from underpour.papers.pictures import Pictures

from .page_cases import taken_apart
from .test_frost_told import HOUSE, WALK, without_index

STAGED = HOUSE + "".join(
    f'\n[[stage]]\nwhat = "{what}"\nfrom = "{day}"\n' for what, day in (("roofed", "1 December"), ("heated", "1 March"))
) + '\n[[alternative]]\nname = "no wing"\nset = { "edge.A.insulation" = [] }\n'  # fmt: skip
MOST = 200_000  # bytes of one picture


@cache
def dossier(text: str) -> Dossier:
    return answer(reads(text))


def staged() -> Answer:
    return dossier(STAGED).as_briefed


def texts(svg: str) -> list[str]:
    return [part.text or "" for part in ElementTree.fromstring(svg).iter() if part.tag.endswith("}text")]


@pytest.mark.parametrize("system", ["US", "SI"])
@pytest.mark.parametrize("text", [STAGED, WALK], ids=["house", "walk"])
def test_a_picture_of_frost_is_small_sound_and_the_same_twice(text: str, system: str) -> None:
    answers = dossier(text).alternatives
    svg = frost_winter(answers, "A", system, width=170.0)
    assert svg == frost_winter(answers, "A", system, width=170.0)
    assert len(svg.encode()) < MOST and "nan" not in svg
    root = ElementTree.fromstring(svg)
    high = float(root.get("viewBox", "").split()[3])
    for node in (each for each in root.iter() if each.tag.endswith("}text")):
        wide, x = float(node.get("textLength", "0")), float(node.get("x", "0"))
        left = x - {"start": 0.0, "middle": wide / 2.0, "end": wide}[node.get("text-anchor", "start")]
        assert left >= -0.1 and left + wide <= 170.1, node.text
        assert 2.0 < float(node.get("y", "0")) < high, node.text


def test_every_stage_is_named_with_the_depth_of_its_finding() -> None:
    said = texts(frost_winter([staged()], "A", "SI", width=170.0))
    for stage, name in (("in use", "in use"), ("roofed", "closed, not heated"), ("heated", "first winter of heat")):
        depth = staged().find("frost.depth", stage=stage, place="footing").value
        behind = said[said.index(name) + 1]
        assert behind == ("none" if depth < 1e-3 else plain(say.value(depth, "m", "SI")))
    assert any(each.startswith("first winter of heat: ") for each in said), "the section's stage"


def test_the_front_is_drawn_as_deep_as_it_is_on_every_day() -> None:
    """The lowest point of each stage's line, put back into metres."""
    winters = staged().wintered
    place = worst_place(winters)
    span = span_of(winters, place)
    drawn, _ = front_drawn(winters, place, span, (0.0, 0.0, 80.0), "SI")
    lines = re.findall(
        r'<path d="M([-\d. ]+)((?:l[-\d. ]+)*)" fill="none" stroke="[^"]+" stroke-width="0.7" stroke-dash', drawn
    )
    lowest = []
    for start, steps in lines:
        y = float(start.split()[1]) + np.cumsum([0.0, *(float(step.split()[1]) for step in steps.split("l")[1:])])
        lowest.append(y.max() / HIGH * span.deepest)
    frozen = [
        w.reaches[place].deepest for w in winters if w.stage in ("roofed", "heated") and w.reaches[place].deepest > 0
    ]
    assert len(lowest) >= len(frozen) >= 2
    assert max(lowest) == pytest.approx(max(frozen), abs=0.01)


def test_the_section_is_that_of_the_worst_stage_at_its_deepest() -> None:
    worst = worst_winter(staged().wintered, "footing")
    assert worst.reaches["footing"].deepest == max(w.reaches["footing"].deepest for w in staged().wintered) > 0.5
    reach = worst.reaches["footing"]
    below = worst.y < reach.top - reach.deepest - 0.1
    near = worst.y > reach.top - 0.9 * reach.deepest
    ground = worst.x < -0.5
    assert np.nanmin(worst.field[np.ix_(near & (worst.y < reach.top), ground)]) < 0.0
    assert np.nanmin(worst.field[np.ix_(below, worst.x > 0.5)]) > 0.0


def test_where_no_frost_comes_the_section_is_drawn_when_open_ground_is_frozen() -> None:
    (alone,) = dossier(HOUSE).as_briefed.wintered
    assert alone.reaches["footing"].deepest == 0.0
    assert (alone.field[:, 0] < 0.0).any()


def test_the_words_of_the_picture_hold_its_numbers() -> None:
    winters: tuple[Wintered, ...] = staged().wintered
    said = frost_in_words(winters, "SI")
    for each in winters:
        depth = each.reaches["footing"].deepest
        assert ("none" if depth < 1e-3 else say.value(depth, "m", "SI")) in said
    assert "the footing ends" in said


def test_the_submittal_has_a_sheet_of_frost_with_its_cautions() -> None:
    made = dossier(STAGED)
    pictures = frost(made)
    assert [each.name for each in pictures] == ["Frost at edge A"]
    told = content(made, Pictures(frost=pictures), "28 November 2026")
    assert len(told["winters"]) == 1
    assert any("building official" in each for each in told["frozen"]["cautions"])
    short = [
        f for f in made.as_briefed.findings if f.id.startswith("frost.") and f.verdict in ("falls short", "cannot tell")
    ]
    assert len(told["frozen"]["rows"]) == len(short) >= 1 and told["frozen"]["holds"] == ""


def test_a_floor_that_asks_about_no_frost_has_no_picture_of_it(tmp_path, capsys) -> None:
    text = without_index(STAGED).partition("\n[[stage]]")[0] + '\n[[alternative]]\nname = "bare"\nremove = ["board"]\n'
    assert frost(dossier(text)) == ()
    file = tmp_path / "brief.toml"
    file.write_text(text, encoding="utf-8")
    assert main(["compare", str(file), "-o", str(tmp_path / "frost.svg"), "--frost"]) == 2
    assert "site.freezing-index" in capsys.readouterr().err
    assert not (tmp_path / "frost.svg").exists()


def test_compare_draws_every_alternative_and_so_does_the_page(tmp_path, capsys) -> None:
    file, out = tmp_path / "brief.toml", tmp_path / "frost.svg"
    file.write_text(STAGED, encoding="utf-8")
    assert main(["compare", str(file), "-o", str(out), "--frost"]) in (0, 1)
    assert "The picture of frost at edge A is in" in capsys.readouterr().out
    said = texts(out.read_text(encoding="utf-8"))
    assert {"As briefed", "No wing"} <= set(said)
    told = taken_apart(page(dossier(STAGED), "A"))
    assert told.one("div", class_="damp cold") is not None
