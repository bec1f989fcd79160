"""Orders of layers that fail in practice: each is found where it stands, said with its remedy, and not elsewhere.

All of them common practice, no source, but for stone above the film (ACI 302.1R since 2001, from memory).
"""

from __future__ import annotations

from dataclasses import dataclass

import pytest

from underpour.brief import reads
from underpour.checks import order
from underpour.findings import Finding
from underpour.resolve import resolve

CONCRETE, GRAVEL, SAND = '{ concrete = "4 in" }', '{ gravel = "4 in" }', '{ sand = "2 in" }'
FILM, BOARD, OLD = (
    '{ vapour-retarder = "film-15-mil" }',
    '{ board = "plain-15", thickness = "2 in" }',
    '{ old-slab = "4 in" }',
)
SCREED, AIR = '{ screed = "2 in" }', '{ air-space = "1 in" }'


def lies(name: str) -> str:
    return f'{{ covering = "{name}" }}'


@dataclass(frozen=True)
class Order:
    """One order that fails, and the same floor mended."""

    key: str
    use: str
    layers: tuple[str, ...]
    mended: tuple[str, ...]
    word: str  # of the sentence
    remedy: str
    site: str = ""
    mended_site: str = ""


WATER = 'water-table = "1 in"'
THICK = BOARD.replace("2 in", "4 in")
DRAINED = f"{WATER}\ndrained = true"
ORDERS = (
    Order(
        "sand-above-film",
        "dwelling",
        (CONCRETE, SAND, FILM, BOARD),
        (CONCRETE, FILM, BOARD, SAND),
        "fills with water",
        "Pour the slab on the film",
    ),
    Order(
        "film-below-stone",
        "garage",
        (CONCRETE, BOARD, GRAVEL, FILM),
        (CONCRETE, BOARD, FILM, GRAVEL),
        "pierce it",
        "Lay the film on the stone",
    ),
    Order(
        "two-films",
        "dwelling",
        (CONCRETE, FILM, BOARD, FILM, GRAVEL),
        (CONCRETE, FILM, BOARD, GRAVEL),
        "never dries",
        "Keep one of the two",
    ),
    Order(
        "screed-between",
        "dwelling",
        (lies("vinyl-sheet"), SCREED, FILM, CONCRETE, BOARD, GRAVEL),
        (lies("carpet"), SCREED, FILM, CONCRETE, BOARD, GRAVEL),
        "can go nowhere",
        "Dry it until it measures",
    ),
    Order(
        "covering-without-film",
        "dwelling",
        (lies("wood-glued"), CONCRETE, GRAVEL),
        (lies("wood-glued"), CONCRETE, FILM, GRAVEL),
        "bears little damp",
        "Lay a film below the slab",
    ),
    Order(
        "old-slab-without-film",
        "dwelling",
        (SCREED, BOARD, OLD),
        (SCREED, BOARD, FILM, OLD),
        "old slab has no film",
        "Lay a film on the old slab",
    ),
    Order(
        "no-capillary-break", "workshop", (CONCRETE,), (CONCRETE, GRAVEL), "like a wick", "four inches of washed stone"
    ),
    Order(
        "frozen-with-film-above",
        "cold-store",
        (CONCRETE, FILM, BOARD, GRAVEL),
        (CONCRETE, BOARD, FILM, GRAVEL),
        "freezes below it",
        "on the warm side",
    ),
    Order(
        "frozen-without-film",
        "rink",
        (CONCRETE, BOARD, SAND),
        (CONCRETE, BOARD, FILM, SAND),
        "freezes in the foam",
        "on the warm side",
    ),
    Order(
        "foil-in-concrete",
        "workshop",
        (CONCRETE, '{ sheet = "foil" }', BOARD, FILM, GRAVEL),
        (CONCRETE, FILM, BOARD, GRAVEL),
        "eats aluminium",
        "Take the foil out",
    ),
    Order(
        "foam-in-water",
        "workshop",
        (CONCRETE, THICK, FILM, GRAVEL),
        (CONCRETE, THICK, FILM, GRAVEL),
        "stands in water",
        "Drain the ground",
        WATER,
        DRAINED,
    ),
    Order(
        "air-below-slab",
        "workshop",
        (CONCRETE, BOARD, AIR, GRAVEL),
        (CONCRETE, BOARD, AIR, FILM, GRAVEL),
        "as damp as the ground",
        "film on the ground",
    ),
    Order(
        "coating-over-damp",
        "garage",
        (lies("epoxy"), CONCRETE, BOARD, GRAVEL),
        (lies("epoxy"), CONCRETE, FILM, BOARD, GRAVEL),
        "blisters",
        "Lay a film below",
    ),
)


def found(use: str, layers: tuple[str, ...], site: str) -> Finding:
    text = f"""\
[project]
use = "{use}"
units = "US"
[site]
place = "Duluth, MN"
ground = "clay-or-silt"
{site}
[plan]
outline = ["0 0", "40 0", "40 30", "0 30"]
unit = "ft"
[floor]
inside = "{"25 F" if use in ("rink", "cold-store") else "68 F"}"
touched-by = []
build-up = [{", ".join(layers)}]
[[edge]]
sides = "all"
kind = "frost-wall"
depth = "60 in"
ground = "-6 in"
wall = [{{ concrete = "8 in" }}]
"""
    (one,) = order.layers(resolve(reads(text).brief))
    return one


@pytest.mark.parametrize("row", ORDERS, ids=lambda row: row.key)
def test_an_order_that_fails_is_said_with_its_remedy(row: Order) -> None:
    told = found(row.use, row.layers, row.site)
    assert row.key in {step.symbol for step in told.steps}
    assert told.verdict == "falls short"
    assert row.word in told.words
    assert row.remedy in told.words


@pytest.mark.parametrize("row", ORDERS, ids=lambda row: row.key)
def test_the_mended_order_is_not_found_to_fail_so(row: Order) -> None:
    told = found(row.use, row.mended, row.mended_site or row.site)
    assert row.key not in {step.symbol for step in told.steps}
    assert told.verdict == "meets"


def test_every_order_of_the_list_is_tried_here_and_recognised() -> None:
    assert {row.key for row in ORDERS} == set(order.orders()) == set(order.WRONG)
    assert len(ORDERS) >= 12
