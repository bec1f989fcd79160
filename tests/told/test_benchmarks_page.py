"""The page of the benchmarks is made from one whole taking of times, and says what its JSON says."""

from __future__ import annotations

from types import SimpleNamespace

import numpy as np
import pytest
from benchmarks import table
from benchmarks.peers import mesher


@pytest.fixture
def given():
    import benchmarks_page

    return SimpleNamespace(made=benchmarks_page, found=benchmarks_page.read())


def test_the_page_and_its_picture_are_made_from_the_json(given):
    again = "made anew by: .venv/bin/python docs/making/benchmarks_page.py"
    assert given.made.PAGE.read_text("utf-8") == given.made.page(given.found), again
    assert given.made.PICTURE.read_text("utf-8") == given.made.drawn(given.found), again


def test_the_page_is_of_whole_sizes_with_every_theme_and_the_mesher(given):
    assert not given.found["tiny"]
    assert {row["theme"] for row in given.found["rows"]} == set(table.THEMES) == set(given.made.THEMES)
    assert given.found["machine"]["versions"]["gmsh"] != mesher.NOT_HERE
    assert given.found["machine"]["threads"] == 1


def test_a_ratio_changed_in_the_json_changes_the_page_and_the_picture(given):
    page, drawn = given.made.page(given.found), given.made.drawn(given.found)
    peer = next(each for row in given.found["rows"] for each in row["peers"] if each.get("goal"))
    peer["ratio"], peer["reached"] = 0.123, False
    assert "| 0.123 |" not in page and "| 0.123 |" in given.made.page(given.found)
    assert given.made.drawn(given.found) != drawn and "0.123 of" in given.made.drawn(given.found)


def test_each_ratio_of_the_page_is_that_of_the_medians_of_its_turns(given):
    for row in given.found["rows"]:
        ours = np.median(row["here"]["seconds"])
        for peer in row["peers"]:
            if "ratio" in peer:
                assert peer["ratio"] == pytest.approx(np.median(peer["seconds"]) / ours, rel=1e-12)
                assert len(peer["seconds"]) == len(row["here"]["seconds"])
