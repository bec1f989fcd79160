"""A place of the brief as it can be typed over where it stands: what is typed there, what is taken, what may be."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache
from typing import Any, get_args

from ... import catalogue
from ...brief.alternatives import edge_names
from ...brief.model import fields
from ...brief.paths import walked
from ...brief.typed import Typed
from ...catalogue.codes import every_edition
from ...catalogue.products import Products
from ...findings import Assumed
from ...measure import System, say
from ...resolve import Resolved

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


LITERALS = (  # keys that hold one of a few words
    "edge.kind",
    "edge.insulation.face",
    "load.kind",
    "load.how-long",
    "joint.kind",
    "joint.along",
    "joint.transfer",
)
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
        return ", ".join(_words(each) for each in plain if not isinstance(each, dict))
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
        **{key: literals(key) for key in LITERALS},
    }
    return {name: [{"typed": typed, "words": words} for typed, words in held.items()] for name, held in lists.items()}


def _called(choices: str) -> dict[str, str]:
    """How the entries of a list are called, where that is another word than the one to type."""
    if choices in LITERALS:
        return literals(choices)
    return _CALLED[choices]() if choices in _CALLED else {}


_CALLED = {"uses": uses, "grounds": grounds, "editions": editions, "loads": loads}
