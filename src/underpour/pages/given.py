"""What the teaching page is given. Nothing else reaches it: a test compares these lists with what is sent."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import Annotated, Any

from markupsafe import Markup


@dataclass(frozen=True, slots=True)
class Panel:
    """One alternative at one edge."""

    name: Annotated[str, "the alternative's name"]
    picture: Annotated[Markup, "its section, drawn for the moment that is shown first"]
    layers: Annotated[tuple[str, ...], "what is proposed there, one line a layer or edge"]
    words: Annotated[tuple[str, ...], "what the comparison teaches about it"]
    accepted: Annotated[tuple[str, ...], "its shortfalls that somebody accepted, and who"]


@dataclass(frozen=True, slots=True)
class Edge:
    """One edge, all its alternatives."""

    letter: Annotated[str, "its letter on the plan"]
    named: Annotated[str, "what stands there, in words: edge A, footing wall"]
    lesson: Annotated[str, "which corner is warm and which is cold at the moment shown first"]
    panels: Annotated[tuple[Panel, ...], "the alternatives that have this edge"]


@dataclass(frozen=True, slots=True)
class Mark:
    """One letter of the month strip."""

    letter: Annotated[str, "the letter; the whole name for the mean of the year"]
    name: Annotated[str, "the month's name, for a screen reader"]


@dataclass(frozen=True, slots=True)
class Cell:
    """One alternative's answer in the table."""

    alternative: Annotated[str, "its name, said in the cell where the table is too narrow for columns"]
    value: Annotated[str, "the value in the brief's own units, the others in brackets"]
    verdict: Annotated[str, "the verdict word; empty where a value is stated without a limit"]


@dataclass(frozen=True, slots=True)
class Row:
    """One finding that is not the same everywhere."""

    named: Annotated[str, "what was asked, and where"]
    cells: Annotated[tuple[Cell, ...], "the answers, in the order of the alternatives"]


@dataclass(frozen=True, slots=True)
class Material:
    """One line of the key of materials."""

    swatch: Annotated[Markup, "a small body of it"]
    name: Annotated[str, "its name"]


@dataclass(frozen=True, slots=True)
class Shown:
    """One picture that stands still."""

    label: Annotated[str, "what it shows, for a screen reader"]
    picture: Annotated[Markup, "the drawing"]


@dataclass(frozen=True, slots=True)
class Sheet:
    """All that is set on the page."""

    title: Annotated[str, "title of the brief"]
    asked: Annotated[str, "use and place"]
    place: Annotated[str, "place alone, for the title strip"]
    version: Annotated[str, "version of the program that made the page"]
    alternatives: Annotated[tuple[str, ...], "names of all alternatives, as briefed first"]
    edges: Annotated[tuple[Edge, ...], "the edges, that shown first in front"]
    when: Annotated[str, "the moment shown first, in words"]
    months: Annotated[tuple[Mark, ...], "the month strip, the mean of the year last"]
    first_month: Annotated[int, "position in ``months`` of the moment shown first"]
    legend: Annotated[Markup, "the row of tints with the values between them"]
    frost: Annotated[Markup, "what the frost line is; empty where nothing freezes"]
    materials: Annotated[tuple[Material, ...], "hatch and name of everything that is drawn"]
    rows: Annotated[tuple[Row, ...], "the findings that tell the alternatives apart"]
    counts: Annotated[tuple[str, ...], "how many findings fall short, cannot tell, meet, for each alternative"]
    damp: Annotated[Markup, "how humid it is month by month, all alternatives; empty where no room lies over the slab"]
    damp_words: Annotated[tuple[str, ...], "the same in words, one line an alternative, then its cautions"]
    cold: Annotated[tuple[Shown, ...], "each edge through its winters, all alternatives; empty where none is told"]
    cold_words: Annotated[tuple[str, ...], "the same in words, one line an alternative and edge, then the cautions"]
    heated: Annotated[tuple[Shown, ...], "heated floors between their tubes, then month by month; empty where none is"]
    heated_words: Annotated[tuple[str, ...], "the same in words, one line an alternative, then their cautions"]
    gas: Annotated[Markup, "how soil gas is drawn off, all alternatives; empty where no pipe is laid"]
    gas_words: Annotated[tuple[str, ...], "the same in words, one line an alternative, then its cautions"]
    cautions: Annotated[tuple[str, ...], "what to mind; never left out"]
    assumed: Annotated[tuple[str, ...], "what was assumed, because the brief does not say, and why"]
    unchecked: Annotated[tuple[str, ...], "subjects of which the page says nothing"]
    notes: Annotated[tuple[str, ...], "what to know of the data"]
    credits: Annotated[tuple[str, ...], "where data and fonts come from"]
    packed: Annotated[str, "what the script reads from (``Readings``), deflated, in letters of base 64"]


@dataclass(frozen=True, slots=True)
class Readings:
    """All that the script is handed. It adds mean and swing for a moment, and looks words up; it knows no unit."""

    moments: Annotated[list[dict[str, Any]], "words, cosine and sine of each moment of the month strip"]
    degrees: Annotated[dict[str, Any], "temperatures as words: first [degC], step [K], words"]
    heights: Annotated[dict[str, Any], "heights against the floor's top as words: first [m], step [m], words"]
    across: Annotated[dict[str, Any], "places beside the wall's face as words: first [m], step [m], words"]
    airs: Annotated[dict[str, str], "what to call room and outdoors"]
    edges: Annotated[
        list[dict[str, Any]],
        "each edge: letter, window [m], place on the sheet [mm], lessons by moment; each of its alternatives: name, "
        "labels and layers by moment, the place watched, bodies, airs and temperatures",
    ]


def entries(given: Sheet | Readings) -> dict[str, Any]:
    """What is given, by name, as it stands."""
    return {entry.name: getattr(given, entry.name) for entry in fields(given)}
