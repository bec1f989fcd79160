"""A place of the brief as it can be typed over where it stands: what is typed there, what is taken, what may be."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from functools import cache
from types import UnionType
from typing import Any, Literal, Union, get_args, get_origin

from ... import catalogue
from ...brief.alternatives import edge_names
from ...brief.model import fields
from ...brief.paths import walked
from ...brief.typed import Typed
from ...catalogue.codes import every_edition
from ...catalogue.fluids import mixtures
from ...catalogue.products import Products
from ...catalogue.tubes import tube_sizes
from ...findings import Assumed
from ...measure import System, say
from ...resolve import Resolved
from ..words import say as words_of

Part = dict[str, Any]
Choice = dict[str, str]


class Places:
    """The places of one brief as typed, with what was assumed where nothing is."""

    def __init__(self, tree: Typed, resolved: Resolved, *, fixed: bool = False) -> None:
        self.tree, self.resolved = tree, resolved
        self.names = edge_names(tree)
        self.assumed = {each.path: each for each in resolved.assumed}
        self.fixed = fixed  # whether what is shown is an alternative's, which is not typed over here

    def plain(self, path: str) -> Any:
        """What is typed at a path, as plain data; None where nothing is."""
        found = self.tree.at(walked(path, self.names))
        return found.plain() if found is not None else None

    def field(self, path: str, shown: str = "", choices: str = "") -> Part:
        """The part of a sentence that is that place.

        ``shown`` is what to read where nothing is typed, ``choices`` the name of the list to choose from.
        """
        plain = self.plain(path)
        typed = "" if plain is None or isinstance(plain, dict) else _words(plain)
        taken = self.taken(path)
        state = "typed" if plain is not None else "assumed" if taken else "open"
        named = _called(choices).get(typed, "") if typed else ""
        key = unnumbered(path)
        help_, examples = help_of(key)
        return {
            "path": path,
            "typed": typed,
            "words": (named or typed) if plain is not None and typed else shown or taken,
            "state": state,
            "help": help_,
            "examples": examples,
            "keys": keys(examples, self.resolved.system) if not choices else [],
            "choices": choices,
            "fixed": self.fixed,
        }

    def taken(self, path: str) -> str:
        """What was taken at or below a path, in words; "" where nothing was."""
        own = self.assumed.get(path)
        below = own or next((each for at, each in self.assumed.items() if at.startswith(f"{path}.")), None)
        return value_words(below, self) if below else ""


def value_words(each: Assumed, places: Places) -> str:
    """What was taken, in both systems."""
    return say.of_any_unit(each.value, each.unit, places.resolved.system)


def unnumbered(path: str) -> str:
    """The path of a key without the numbers of lists and the letters of edges.

    >>> unnumbered("floor.build-up.2.thickness"), unnumbered("edge.door side.depth")
    ('floor.build-up.thickness', 'edge.depth')
    """
    steps = path.split(".")
    if steps[0] == "edge":
        del steps[1:2]
    return ".".join(step for step in steps if not step.isdecimal())


NONE = "[]"  # a list that is there, with nothing in it
YES_NO = "yes-no"
LENGTHS = {"US": ("in", "ft", "'", '"', "/", " ", "mm", "-"), "SI": ("mm", "m", "in", "ft", "/", " ", "-")}


def keys(examples: Iterable[str], system: System) -> list[str]:
    """What a number pad lacks for a measure of these examples: units of both systems, signs, room between two numbers.

    >>> keys(["68 F", "20 C"], "US"), keys(["all"], "SI")
    (['F', 'C', '-'], [])
    """
    units = [found[1] for each in examples if (found := re.fullmatch(r"-?\d[\d.,/ ]*?\s*([^\d\s.,/].*)", each))]
    if any(unit in ("in", "ft", "mm", "m") for unit in units):
        return list(LENGTHS[system])
    return [*dict.fromkeys(units), "-"] if units else []


@cache
def help_of(key: str) -> tuple[str, list[str]]:
    """What a key is, and how it may be typed."""
    if key not in fields():
        return "", []
    _, field = fields()[key]
    return field.description or "", [_words(each) for each in field.examples or () if not isinstance(each, dict)][:3]


def _words(plain: Any) -> str:
    if isinstance(plain, list):
        return ", ".join(_words(each) for each in plain if not isinstance(each, dict)) if plain else NONE
    if isinstance(plain, bool):
        return "true" if plain else "false"
    return str(plain)


@cache
def uses() -> dict[str, str]:
    words = {use.key: use.label for use in catalogue.uses()}
    also = {alias: catalogue.called(alias) for use in catalogue.uses() for alias in use.aliases}
    return dict(sorted((words | also).items(), key=lambda each: each[1]))


@cache
def grounds() -> dict[str, str]:
    return {ground.key: ground.label for ground in catalogue.grounds()}


@cache
def editions() -> dict[str, str]:
    return {edition.key: edition.title for edition in every_edition()}


@cache
def loads() -> dict[str, str]:
    return {load.key: load.label for load in catalogue.named_loads()}


@cache
def tubes() -> dict[str, str]:
    return {size.key: size.label for size in tube_sizes()}


@cache
def fluids() -> dict[str, str]:
    return {mixture.key: mixture.key.replace("-", " ") for mixture in mixtures()}


def yes_no() -> dict[str, str]:
    return {"true": words_of("sheet.yes"), "false": words_of("sheet.no")}


@cache
def literals(key: str) -> dict[str, str]:
    """The words that a key may hold, where the brief knows only those."""
    _, field = fields()[key]
    return {word: word.replace("-", " ") for word in _literals(field.annotation)}


def _literals(annotation: Any) -> Iterable[str]:
    for each in get_args(annotation):
        if isinstance(each, str):
            yield each
        else:
            yield from _literals(each)


@cache
def literal_keys() -> frozenset[str]:
    """Keys that hold one of a few words and nothing else."""
    return frozenset(key for key, (_, field) in fields().items() if _is_literal(field.annotation))


def _is_literal(annotation: Any) -> bool:
    if get_origin(annotation) in (Union, UnionType):
        held = [each for each in get_args(annotation) if each is not type(None)]
        return len(held) == 1 and _is_literal(held[0])
    return get_origin(annotation) is Literal


def _is_yes_no(annotation: Any) -> bool:
    """Whether a key holds yes or no and nothing else."""
    if get_origin(annotation) in (Union, UnionType):
        held = [each for each in get_args(annotation) if each is not type(None)]
        return len(held) == 1 and _is_yes_no(held[0])
    return annotation is bool or getattr(annotation, "__origin__", None) is bool


LISTED = {  # by the last word of a key: the list that it is chosen from
    "board": "boards",
    "vapour-retarder": "retarders",
    "covering": "coverings",
}
NAMED = {
    "project.use": "uses",
    "project.code": "editions",
    "site.ground": "grounds",
    "load.like": "loads",
    "tube.size": "tubes",
    "tube.fluid": "fluids",
}


def chosen_from(key: str) -> str:
    """The name of the list that a key is chosen from; "" where it is written."""
    if key in literal_keys():
        return key
    if key in fields() and _is_yes_no(fields()[key][1].annotation):
        return YES_NO
    return NAMED.get(key) or LISTED.get(key.rpartition(".")[2], "")


def choices(products: Products) -> dict[str, list[Choice]]:
    """Every list that a field may be chosen from, by its name: what to type, and how it is called."""
    lists = {
        "uses": uses(),
        "grounds": grounds(),
        "editions": editions(),
        "boards": {board.key: board.label for board in products.boards()},
        "retarders": {film.key: film.label for film in products.retarders()},
        "coverings": {covering.key: covering.label for covering in catalogue.coverings()},
        "loads": loads(),
        "tubes": tubes(),
        "fluids": fluids(),
        YES_NO: yes_no(),
        **{key: literals(key) for key in sorted(literal_keys())},
    }
    return {name: [{"typed": typed, "words": words} for typed, words in held.items()] for name, held in lists.items()}


def _called(choices: str) -> dict[str, str]:
    """How the entries of a list are called, where that is another word than the one to type."""
    if choices in literal_keys():
        return literals(choices)
    return _CALLED[choices]() if choices in _CALLED else {}


_CALLED: dict[str, Callable[[], dict[str, str]]] = {
    "uses": uses,
    "grounds": grounds,
    "editions": editions,
    "loads": loads,
    "tubes": tubes,
    "fluids": fluids,
    YES_NO: yes_no,
}
