"""Words beside upright dimension lines: read on one ground or in air, never across the layers of a floor."""

from __future__ import annotations

from dataclasses import replace

import drawing_cases as cases

from underpour.drawings.airs import outdoors_name, words_that_fit_outdoors
from underpour.drawings.dimensions import dimension_lines
from underpour.drawings.one_section import framed
from underpour.drawings.visible import showing
from underpour.sections.parts import Dimension, Section


def frame(section: Section):
    return framed(section, 0.0, 0.0, 170.0)


def test_the_depth_of_a_footing_is_not_written_across_the_layers():
    through = Dimension((0.6, 0.0), (0.6, -0.7), "27.6 in (700 mm)")
    section = replace(cases.section(), dimensions=(through,))
    (words,) = dimension_lines(section, frame(section), ()).words
    corners = [(x, y) for x in (words.left, words.right) for y in (words.top, words.bottom)]
    under = {int(showing(section.parts, *frame(section).metres(x, y))) for x, y in corners}
    assert len(under) == 1, "the words lie on more than one body"


def test_outdoors_is_named_above_the_floor_where_the_ground_lies_below_it():
    high, low = cases.section(), replace(cases.section(), ground_level=-0.2)
    for section in (high, low):
        _, (box,) = outdoors_name(section, frame(section), "outdoors")
        assert box.bottom <= frame(section).y(max(section.ground_level, section.corner[1]))


def test_outdoors_is_named_without_its_temperature_where_both_do_not_fit():
    section, field = cases.section(), cases.field(cases.section())
    wide, narrow, none = (framed(section, 0.0, 0.0, size) for size in (170.0, 50.0, 5.0))
    said = [words_that_fit_outdoors(section, field, each, 0.125, "SI") for each in (wide, narrow, none)]
    assert said[0].startswith("outdoors") and said[1] in (said[0], "outdoors") and said[2] == ""
