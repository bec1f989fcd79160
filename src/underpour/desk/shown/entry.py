"""A key of the brief typed where an answer lacks it or rests on it: one form for all, from the brief's own models."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from typing import Any, Literal, get_args, get_origin

from ...brief.model import fields, keys_of
from ...brief.retyped import as_text
from ...brief.tables.table import Table
from ...findings import Finding
from .fields import Part, Places, chosen_from, help_of, unnumbered
from .on_floor import put_in

Shape = Literal["one", "words", "table"]  # one value; a list of such; a table or a list of tables
EXAMPLES = 3
BY_BOARD = ("foam.long-term-stress", "foam.modulus", "foam.modulus-for-good", "foam.water")  # tables with a row a board


def entry(places: Places, path: str) -> Part | None:
    """The field for a key with its help and its examples; None for what is no key of the brief.

    A key of a list's entry that is not there yet is asked for with all that the entry cannot be without: ``within``.
    """
    there = _numbered(places, path)
    if key_of(there) not in fields():
        return None
    part = _field(places, there)
    if there == "load":
        part |= next(iter(put_in(places, there)), {})
    elif there != path and part["shape"] == "table":
        part["within"] = _within(places, there, path)
    return part


def _within(places: Places, listed: str, path: str) -> list[Part]:
    """Fields of an entry that is still to come: those it cannot be without, and the one that is asked for."""
    table, asked = key_of(listed), path.rpartition(".")[2]
    number = len(places.plain(listed) or ()) + 1
    keys = [key for key in keys_of(table) if key == asked or fields()[f"{table}.{key}"][1].is_required()]
    return [_field(places, f"{listed}.{number}.{key}") for key in keys]


def _field(places: Places, path: str) -> Part:
    key = key_of(path)
    _, field = fields()[key]
    of_a_board = key in BY_BOARD and key != path
    shape = "one" if of_a_board else shape_of(field.annotation)
    part = {**places.field(path, choices=chosen_from(key)), "shape": shape}
    part["help"], part["examples"] = help_of(key)
    plain = places.plain(path)
    if shape == "table" or (shape == "one" and isinstance(plain, list)):
        part["typed"] = "" if plain is None else as_text(plain)
        part["words"] = part["typed"] or part["words"]
    examples = list(field.examples or ())[:EXAMPLES]
    if of_a_board:
        part["examples"] = [str(held) for each in examples for held in each.values()]
    elif shape != "words":
        part["examples"] = [each if isinstance(each, str) else as_text(each) for each in examples]
    return part


def entries(places: Places, findings: Iterable[Finding]) -> dict[str, Part]:
    """By path, everything typed or taken that the findings rest on; tables are changed in the text."""
    paths = dict.fromkeys(path for finding in findings for path in finding.rests_on)
    made = ((path, entry(places, path)) for path in paths)
    return {path: part for path, part in made if part is not None and part["shape"] != "table"}


def of_papers(places: Places) -> dict[str, Part]:
    """What a paper says of who gets it and who made it: typed where the paper lacks it."""
    return {path: _field(places, path) for key in keys_of("handover") if (path := f"handover.{key}")}


def key_of(path: str) -> str:
    """The path without letters of edges, numbers and names of boards.

    >>> key_of("edge.A.props"), key_of("foam.modulus.plain-25"), key_of("load.2.plate")
    ('edge.props', 'foam.modulus', 'load.plate')
    """
    return next((key for key in BY_BOARD if path.startswith(f"{key}.")), unnumbered(path))


def shape_of(annotation: Any) -> Shape:
    """What a key holds, as its model says."""
    kinds = set(_kinds(annotation))
    if kinds == {"table"}:
        return "table"
    return "words" if kinds == {"words"} else "one"


@cache
def _table(annotation: Any) -> bool:
    return isinstance(annotation, type) and issubclass(annotation, Table)


def _kinds(annotation: Any) -> Iterator[Shape]:
    """The shapes that may stand there, nothing apart."""
    if annotation is type(None):
        return
    if _table(annotation) or get_origin(annotation) in (dict, Mapping):
        yield "table"
    elif get_origin(annotation) is tuple:
        of = set(_kinds(get_args(annotation)[0]))
        yield "table" if of == {"table"} else "words"
    elif get_origin(annotation) is Literal or not get_args(annotation):
        yield "one"
    elif hasattr(annotation, "__metadata__"):
        yield from _kinds(get_args(annotation)[0])
    else:
        for each in get_args(annotation):
            yield from _kinds(each)


def _numbered(places: Places, path: str) -> str:
    """The path through the first entry of a list where none is numbered; the list itself where it has no such entry."""
    steps = path.split(".")
    for n in range(1, len(steps)):
        above = ".".join(steps[:n])
        if steps[n - 1].isdecimal() or (steps[0] == "edge" and n < 3) or not _of_tables(above):
            continue
        if not steps[n].isdecimal():
            steps = [*steps[:n], "1", *steps[n:]]
            return _numbered(places, ".".join(steps)) if places.plain(f"{above}.1") else above
        if places.plain(f"{above}.{steps[n]}") is None:
            return above
    return path


def _of_tables(path: str) -> bool:
    """Whether a list of tables stands at a path."""
    key = unnumbered(path)
    if key not in fields():
        return False
    annotation = fields()[key][1].annotation
    return shape_of(annotation) == "table" and _listed(annotation)


def _listed(annotation: Any) -> bool:
    if get_origin(annotation) is tuple:
        return True
    return any(_listed(each) for each in get_args(annotation) if each is not type(None))
