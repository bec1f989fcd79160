"""Suction below the floor as a picture: the weakest corner ringed and named, pits numbered, a key."""

import xml.etree.ElementTree as ET
from dataclasses import replace

import pytest
from test_suction_told import FAR_LEG

from underpour.brief import reads
from underpour.checks.soil_gas.seen import seen
from underpour.drawings.vacuum_plan import vacuum_in_words, vacuum_plan
from underpour.resolve import resolve


@pytest.fixture(scope="module")
def crossed():
    return resolve({name: brief for name, brief, *_ in reads(FAR_LEG).alternatives}["ways through the footing"])


def words(svg):
    return [node.text for node in ET.fromstring(svg).iter("{http://www.w3.org/2000/svg}text")]


@pytest.mark.parametrize(("system", "unit"), [("SI", "Pa"), ("US", "in. w.c.")])
def test_the_weakest_corner_is_ringed_and_named_in_the_reader_s_unit(crossed, system, unit):
    """An inch of water column is 249.089 Pa."""
    found = seen(crossed)
    weakest = "weakest: 27\u00a0Pa" if system == "SI" else f"{found.weakest[2] / 249.089:.3f}"
    drawn = words(vacuum_plan(crossed.plan.floor, found, system, width=170.0))
    assert any(weakest in each for each in drawn), drawn
    assert "pit 1" in drawn and unit in drawn


def test_what_is_drawn_is_what_the_finding_says(crossed):
    found = seen(crossed)
    assert found.weakest[2] == pytest.approx(27.26, abs=0.4)
    assert float(found.net[found.net == found.net].min()) == pytest.approx(found.weakest[2], abs=0.5)
    assert "one pit" in vacuum_in_words(found, "SI") and "27 Pa" in vacuum_in_words(found, "SI").replace("\u2009", " ")


def test_nothing_is_drawn_where_no_fan_draws(crossed):
    assert seen(replace(crossed, soil_gas=replace(crossed.soil_gas, system="rough-in"))) is None
    assert seen(replace(crossed, soil_gas=None)) is None
