"""What may vary where a choice is asked for: products, layers, details, and by what the best is told."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import PlainValidator, StrictBool, WithJsonSchema

from ...measure import Measure
from ...measure.read import read
from ...mistakes import Mistake
from .. import kinds
from .table import Table, key

LeastBy = Literal["life-cycle cost", "first cost", "foam", "carbon", "height"]
DetailKey = Literal["none", "as-briefed", "slab-edge", "inside", "inside-24", "outside", "wing", "wide-wing"]


def _area(typed: str) -> Measure:
    return read(typed, "area")


Area = Annotated[
    Measure,
    PlainValidator(kinds.typed_measure(_area)),
    WithJsonSchema({"type": "string", "title": "Area", "examples": ["960 ft²", "90 m²"]}),
]


def _layers(value: object) -> int:
    if value in (1, 2) and not isinstance(value, bool | float):
        return int(str(value))
    wrong = "One product lies in 1 or 2 layers; more are not tried."
    raise kinds.as_error(Mistake("", "", wrong, "Write layers = 1, or layers = 2."))


Layers = Annotated[int, PlainValidator(_layers), WithJsonSchema({"enum": [1, 2], "title": "Layers on one another"})]


class OnHand(Table):
    """Boards that are there already and cost nothing more."""

    board: str = key("The board, by its name in the catalogue.", "plain-25")
    thickness: kinds.BoardThickness = key("How thick it is.", "2 in", "50 mm")
    area: Area = key("How much of it there is.", "960 ft²", "90 m²")


class Choose(Table):
    """What `choose` may take, and by what the best is told; all of it may be left out."""

    least_by: LeastBy | None = key(
        "By what the best is told: life-cycle cost where [money] prices heat, else first cost, else the price of the "
        "foam, unless this says.",
        "first cost",
        "carbon",
        "height",
        default=None,
    )
    foams: tuple[str, ...] | None = key(
        "Which foams may be taken, as `catalogue list boards` calls them.", ["EPS", "XPS"], default=None
    )
    boards: tuple[str, ...] | None = key(
        "Which boards may be taken, by their names in the catalogue; every flat board of the lines unless this says.",
        ["plain-15", "plain-25"],
        default=None,
    )
    faced: StrictBool | None = key(
        "Whether boards with a film on them are taken: true alone, false never.", True, default=None
    )
    layers: Layers | None = key("How many layers may lie on one another under the floor.", 1, 2, default=None)
    details: tuple[DetailKey, ...] | None = key(
        "How foam may lie at the edges: none, as-briefed, slab-edge, inside, inside-24, outside, wing, wide-wing.",
        ["none", "slab-edge"],
        default=None,
    )
    on_hand: tuple[OnHand, ...] = key(
        "Boards that are there already.",
        [{"board": "plain-25", "thickness": "2 in", "area": "960 ft²"}],
        default=(),
    )
