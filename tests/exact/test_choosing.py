"""A choice against whole answers: nothing that bounds put aside would have held, and every way tried gives the same."""

import random
import time
from pathlib import Path

import numpy as np
import pytest

from underpour.brief import read
from underpour.choosing import bounds, ways
from underpour.choosing.confirming import Answers, beyond_foam, findings_of
from underpour.choosing.heat import Known, name_of, sketched
from underpour.trying import as_taken

ROOT = Path(__file__).parents[2]
BRIEFS = ("frost-wall-workshop", "daylight-basement", "house-in-the-heat", "warehouse-with-racks", "raft-in-maine")


def looked_over(path: Path) -> ways.Search:
    reading = read(path)
    return ways.search(reading, as_taken(reading), Known())


def holding(found: ways.Search, answers: Answers, candidates: list[int]) -> list[int]:
    """Those of which a whole answer says that nothing falls short but what no foam mends."""
    ends = (answers.at(*each) for each in ways.ends(found.wanted))
    beyond = beyond_foam([findings_of(found.taken.findings), *ends])
    return [n for n in candidates if not answers.of(n).unbuildable and not answers.of(n).lacking(beyond)]


@pytest.mark.parametrize("brief", BRIEFS[:2])
def test_no_way_that_was_put_aside_would_have_held(brief: str) -> None:
    """A seeded tenth of the two hundred of the proof."""
    put_aside_do_not_hold(brief, 10)


@pytest.mark.proof
@pytest.mark.parametrize("brief", BRIEFS)
def test_none_of_two_hundred_ways_that_were_put_aside_would_have_held(brief: str) -> None:
    put_aside_do_not_hold(brief, 40)


def put_aside_do_not_hold(brief: str, many: int) -> None:
    found = looked_over(ROOT / "examples" / brief / "brief.toml")
    gone = np.flatnonzero(~found.alive).tolist()
    some = random.Random(20261128).sample(gone, min(many, len(gone)))
    held = holding(found, Answers(found.wanted, found.columns, found.taken), some)
    assert [(found.wanted.floors[found.columns.floor[n]].words, found.columns.edge[n]) for n in held] == []


def test_all_ways_answered_wholly_give_the_same_order(tmp_path: Path) -> None:
    """One board, one layer, four details: each way is answered, and those that hold are put in order."""
    typed = (ROOT / "examples" / "frost-wall-workshop" / "brief.toml").read_text("utf-8")
    path = tmp_path / "brief.toml"
    choose = '[choose]\nboards = ["plain-15"]\nlayers = 1\ndetails = ["none", "slab-edge", "outside"]\n'
    path.write_text(f"{typed}\n{choose}", "utf-8")
    choice = ways.choose(read(path))
    found = looked_over(path)
    answers = Answers(found.wanted, found.columns, found.taken)
    every = list(range(len(found.columns)))
    assert len(every) == 8 * 13
    held = sorted(holding(found, answers, every), key=lambda n: (round(found.columns.first[n], 2), n))
    assert len(held) > 10
    told = [dict(row.changes) for row in choice.rows if row.rank is not None]
    assert told == [dict(found.wanted.written(*ways.parts_of(found, n))) for n in held[:10]]


@pytest.mark.parametrize("brief", BRIEFS[:3])
def test_what_lies_between_solved_sections_is_as_near_as_is_said(brief: str) -> None:
    """Ways cut and solved on the same grid: flow within 3 % or what is told of it, places within what bounds allow."""
    found = looked_over(ROOT / "examples" / brief / "brief.toml")
    heat, table, fresh = found.heat, found.columns, Known()
    assert heat is not None
    known = np.flatnonzero(~np.isnan(heat.flow)).tolist()
    for n in random.Random(7).sample(known, min(15, len(known))):
        made = sketched(found.wanted, found.wanted.floors[table.floor[n]], found.wanted.edges[table.edge[n]], fresh)
        assert heat.flow[n] == pytest.approx(made.flow, rel=0.03, abs=heat.flow_within[n])
        for each in made.held:
            name = name_of(each)
            allowed = bounds.DOUBT * heat.within[name][n] + float(bounds.doubt_of(each, heat.values[name][n]))
            assert each.value == pytest.approx(heat.values[name][n], abs=allowed)


def test_parts_put_together_are_the_brief_with_the_same_words_typed() -> None:
    """Floor and edges in numbers, joined without reading the brief again, against the text changed and read."""
    found = looked_over(ROOT / "examples" / "frost-wall-workshop" / "brief.toml")
    wanted = found.wanted
    for n in random.Random(3).sample(range(len(found.columns)), 25):
        floor, edge = ways.parts_of(found, n)
        together, typed = wanted.parts(floor, edge), wanted.with_these(floor, edge)
        boards = [[each for each in whole.floor if each.kind == "board"] for whole in (together, typed)]
        assert boards[0] == boards[1]
        assert [each.label for each in together.floor] == [each.label for each in typed.floor]
        assert [each.pieces for each in together.edges] == [each.pieces for each in typed.edges]


def test_thousands_are_looked_over_again_within_a_second_of_processor_time() -> None:
    """Sections kept from the first look, as the desk keeps them: what is held is everything but whole answers."""
    reading = read(ROOT / "examples" / "frost-wall-workshop" / "brief.toml")
    taken, known = as_taken(reading), Known()
    first = ways.search(reading, taken, known)
    begun = time.process_time()
    again = ways.search(reading, taken, known)
    assert time.process_time() - begun < 1.0
    assert len(again.columns) > 4500 and (again.alive == first.alive).all()
