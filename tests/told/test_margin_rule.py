"""The margin rule tells by its shape whether a finding holds."""

from __future__ import annotations

from dataclasses import replace
from xml.etree import ElementTree

import pytest

from underpour.drawings.margin import margin_picture, margin_rule, margin_words, pointer
from underpour.findings import Finding

COLD = Finding("heat.floor-coldest", "Coldest floor", 14.0, "degC", limit=15.0, sense="at least")
WARM = replace(COLD, value=17.5)
ASKS = replace(COLD, value=None, missing="floor.humidity")
STATED = replace(COLD, limit=None, sense=None)


def plain(words: str) -> str:
    return words.replace("\u2009", " ")


def test_past_the_notch_it_meets():
    assert plain(margin_rule(WARM, "SI")) == "├──────┼───▲──┤  2.5 K in hand"


def test_short_of_the_notch_the_gap_is_dotted():
    assert plain(margin_rule(COLD, "SI")) == "├─────▲┼──────┤  1.0 K short"
    assert plain(margin_rule(replace(COLD, value=11.5), "US")) == "├─▲····┼──────┤  6.3 °F short"


def test_on_the_limit_it_meets_and_the_pointer_stands_on_the_notch():
    assert "▲" in margin_rule(replace(COLD, value=15.0), "SI")[7]
    assert "in hand" in margin_rule(replace(COLD, value=15.0), "SI")


def test_a_hair_short_never_looks_like_met():
    assert margin_rule(replace(COLD, value=14.999), "SI").startswith("├─────▲┼")


def test_what_cannot_be_told_is_a_dotted_ruler_without_a_pointer():
    assert margin_rule(ASKS, "SI") == "├ · · ·┼· · · ┤"


def test_what_has_no_limit_has_no_ruler():
    assert margin_rule(STATED, "SI") == "" == margin_picture(STATED, "SI") == margin_words(STATED, "SI")


@pytest.mark.parametrize("sense,value,side", [("at most", 80.0, 1), ("at most", 120.0, -1), ("at least", 120.0, 1)])
def test_right_of_the_notch_is_the_good_side_whatever_the_sense(sense, value, side):
    at = pointer(Finding("bearing.foam-long", "Foam", value, "kPa", limit=100.0, sense=sense))
    assert at is not None and at * side > 0


@pytest.mark.parametrize("value", [-500.0, 0.0, 14.0, 1e9])
def test_the_pointer_never_leaves_the_ruler(value):
    at = pointer(replace(COLD, value=value))
    assert at is not None and -1 <= at <= 1
    assert margin_rule(replace(COLD, value=value), "SI")[:15].count("▲") == 1


def test_the_picture_says_the_same_in_words():
    for finding, said in ((COLD, "falls short"), (WARM, "meets"), (ASKS, "cannot tell")):
        root = ElementTree.fromstring(margin_picture(finding, "SI"))
        assert said in (root.findtext("{http://www.w3.org/2000/svg}desc") or "")
