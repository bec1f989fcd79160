"""What a crew has laid so far, typed back."""

from __future__ import annotations

import re
from typing import Annotated

from pydantic import PlainValidator, WithJsonSchema

from ... import measure
from ...mistakes import Mistake
from .. import kinds
from .table import Table, key

SIDES = ("left end", "right end", "lower side", "upper side")  # as a cut list names them
EXAMPLE = (
    'Write along the row, then across it: "4 ft x 30 in"; what left the works may follow: ", left end, upper side".'
)
MOST = 10_000


def offcut(value: object) -> tuple[kinds.Breadth, tuple[str, ...]]:
    """Length along the row and height across it, then sides that are as they left the works.

    Raises
    ------
    PydanticCustomError
        No two lengths, or a side that a panel has not.
    """
    if isinstance(value, tuple):
        return value
    size, *sides = (part.strip() for part in value.split(",")) if isinstance(value, str) else [""]
    words = re.split(r"\s*[x×]\s*", size)
    if len(words) != 2:
        raise kinds.as_error(Mistake("", "", "The size of an offcut is two lengths.", EXAMPLE))
    try:
        long, high = (measure.length(word) for word in words)
    except Mistake as mistake:
        raise kinds.as_error(mistake) from None
    if min(long.si, high.si) <= 0.0:
        raise kinds.as_error(Mistake("", "", f"{size} is nothing.", EXAMPLE))
    for side in sides:
        if side not in SIDES:
            raise kinds.as_error(Mistake("", "", f"A panel has no {side}.", f"It has: {', '.join(SIDES)}."))
    return kinds.Breadth((long, high), str(value).strip()), tuple(sides)


def whole_number(value: object) -> int:
    """How many, from nought up."""
    if isinstance(value, int) and not isinstance(value, bool) and 0 <= value <= MOST:
        return value
    raise kinds.as_error(Mistake("", "", "How many is a whole number.", "Count them: 6."))


Count = Annotated[int, PlainValidator(whole_number), WithJsonSchema({"type": "integer", "minimum": 0, "maximum": MOST})]
OffcutSize = Annotated[
    tuple[kinds.Breadth, tuple[str, ...]],
    PlainValidator(offcut),
    WithJsonSchema({"type": "string", "title": "Size of an offcut", "examples": ["4 ft x 30 in"]}),
]


class AsLaid(Table):
    """How far a crew has come with one layer, so that the rest can be counted again."""

    layer: Count = key("Which layer of panels, counted from the ground up.", 2, default=1)
    rows: Count = key("Rows that lie whole, counted from where the crew began.", 6)
    panels: Count = key("Panels that were taken from the stacks for them, sawn and broken ones too.", 48)
    left: Count | None = key(
        "Whole panels that are left on the site; the plan's number less those taken unless this says.", 50, default=None
    )
    offcuts: tuple[OffcutSize, ...] = key(
        "Offcuts at hand, each along the row, then across it, as a cut list has them; of panels that hold each other "
        "with the sides that are as they left the works.",
        ["4 ft x 30 in", "26 in x 4 ft, left end, upper side"],
        default=(),
    )
