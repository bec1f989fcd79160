"""The reply: three sentences that a caller understands."""

from pathlib import Path

import pytest

from underpour.desk.live.whole import Whole
from underpour.desk.shown.reply import reply

EXAMPLES = Path(__file__).parents[2] / "examples"


@pytest.fixture(scope="module")
def church():
    text = (EXAMPLES / "church" / "brief.toml").read_text(encoding="utf-8")
    return Whole().told(text, lambda: False).dossier


def test_a_floor_without_foam_is_said_to_have_none(church):
    assert reply(church, ())[0].startswith("With no foam under the slab, the floor in Philadelphia, PA ")


def test_what_falls_short_at_each_edge_is_told_once_at_the_worst_of_them(church):
    short = [f for f in church.as_briefed.findings if f.verdict == "falls short"]
    assert len({f.title for f in short}) < len(short)
    for title in {f.title for f in short}:
        assert reply(church, ())[1].lower().count(title.lower()) == 1


def test_what_is_still_needed_is_told_in_words_with_its_key_behind_them(church):
    needed = reply(church, ())[2]
    assert "top of the finished floor down to the dug ground" in needed and "(floor.available-depth)" in needed


def test_a_caller_hears_of_no_film_or_distance(church):
    assert "film for" not in reply(church, ())[1] and "distance" not in reply(church, ())[1]
