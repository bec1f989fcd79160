"""How the boards of the floor are laid: which way rows go, which size, what a crew keeps to."""

from __future__ import annotations

import re
from typing import Annotated, Literal

from pydantic import PlainValidator, WithJsonSchema

from ... import measure
from ...mistakes import Mistake
from .. import kinds
from .as_laid import AsLaid
from .table import Table, key

LEAST_PANEL, LARGEST_PANEL = 0.2, 15.0  # m
EXAMPLE = 'Write width and length: "4 ft x 8 ft".'


def panel_size(value: object) -> kinds.Breadth:
    """Width and length of a panel, with an x between.

    Raises
    ------
    PydanticCustomError
        No two lengths, or no size that a panel has.
    """
    if isinstance(value, kinds.Breadth):
        return value
    words = re.split(r"\s*[x×]\s*", value.strip()) if isinstance(value, str) else []
    if len(words) != 2:
        raise kinds.as_error(Mistake("", "", "The size of a panel is two lengths, width first.", EXAMPLE))
    try:
        sizes = tuple(measure.length(word) for word in words)
    except Mistake as mistake:
        raise kinds.as_error(mistake) from None
    if not all(LEAST_PANEL <= each.si <= LARGEST_PANEL for each in sizes):
        raise kinds.as_error(Mistake("", "", f"{value} is no size that a panel has.", EXAMPLE))
    return kinds.Breadth(sizes, str(value).strip())


def row_direction(value: object) -> str | int:
    """Along x, along y, or along a side by its number."""
    if value in ("x", "y") or (isinstance(value, int) and not isinstance(value, bool) and value >= 1):
        return value
    wrong = "Rows go along x, along y or along a side."
    raise kinds.as_error(Mistake("", "", wrong, 'Write "x", "y", or the number of a side of the outline: 3.'))


PanelSize = Annotated[
    kinds.Breadth,
    PlainValidator(panel_size),
    WithJsonSchema({"type": "string", "title": "Size of a panel", "examples": ["4 ft x 8 ft"]}),
]


def corner_number(value: object) -> int:
    """A corner of the outline by its number."""
    if isinstance(value, int) and not isinstance(value, bool) and value >= 1:
        return value
    wrong = "The corner to begin at is a number."
    raise kinds.as_error(Mistake("", "", wrong, "Count the corners of the outline as they are typed: 1 is the first."))


Direction = Annotated[
    str | int,
    PlainValidator(row_direction),
    WithJsonSchema({"oneOf": [{"enum": ["x", "y"]}, {"type": "integer", "minimum": 1}]}),
]

CornerNumber = Annotated[
    int,
    PlainValidator(corner_number),
    WithJsonSchema({"type": "integer", "minimum": 1}),
]


class Laying(Table):
    """How the boards of the floor are laid; what is left out is chosen, or taken from practice."""

    rows: Direction | None = key(
        "Which way the rows of the lowest layer go: along x, along y or along a side by its number; whichever takes "
        "the fewest panels unless this says.",
        "x",
        3,
        default=None,
    )
    start: CornerNumber | None = key(
        "The corner of the outline where the crew begins, by its number: a row lies full width along it, with a whole "
        "panel in the corner unless that would make another piece too short. Rows and pieces are counted from the end "
        "of the floor that it lies at.",
        1,
        default=None,
    )
    bond: Literal["chain", "half", "third"] | None = key(
        "How joints of one row lie to those of the next: chain, what is cut from the end of one row begins the next; "
        "half or third, each row so much of a panel further on. Unless this says, whatever takes the fewest panels.",
        "half",
        "chain",
        default=None,
    )
    size: PanelSize | None = key(
        "Size of the panels, width first; the first in the product's record unless this says.",
        "4 ft x 4 ft",
        default=None,
    )
    stagger: kinds.Extent | None = key("How far joints of neighbouring rows lie apart.", "12 in", default=None)
    least: kinds.Extent | None = key("The shortest piece that may lie in a row.", "12 in", default=None)
    kerf: kinds.Gap | None = key("What a cut takes: 0 for a knife.", "3 mm", "1/8 in", default=None)
    laid: AsLaid | None = key(
        "What lies already, typed back from the site: the rest is counted again with what is left.",
        {"rows": 6, "panels": 48, "offcuts": ["4 ft x 30 in"]},
        default=None,
    )
