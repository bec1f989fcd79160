"""What the schema's library found wrong, in the brief's own words."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from typing import Any

from ..catalogue.named_loads import named_loads
from ..mistakes import Mistake, nearest
from .later import later_key, without_numbers
from .layers import LAYERS
from .model import fields, keys_of
from .paths import Path, written
from .typed import Typed


def told(errors: Sequence[Mapping[str, Any]], root: Typed) -> list[Mistake]:
    """The mistakes for a validation's errors.

    Parameters
    ----------
    errors : list of dict
        As ``ValidationError.errors()`` hands them on.
    root : Typed
        The brief that was validated.

    A key that is missing only because it is misspelt beside is told once, as the misspelling.
    """
    meant = misspelt(errors, root)
    found: list[Mistake] = []
    for error in errors:
        path = _path(error["loc"], root)
        if error["type"] != "missing" or path not in meant:
            found += _told(path, error)
    return found


def misspelt(errors: Sequence[Mapping[str, Any]], root: Typed) -> set[Path]:
    """The paths that were probably meant where a key is unknown."""
    unknown = [(_path(error["loc"], root), error["input"]) for error in errors if error["type"] == "extra_forbidden"]
    return {
        (*path[:-1], *nearest(str(path[-1]), keys_of(without_numbers(path[:-1]))))
        for path, value in unknown
        if later_key(path, value) is None
    }


def _path(loc: tuple[str | int, ...], root: Typed) -> Path:
    """The error's place with the library's own steps, such as the branch of a choice, left out."""
    path: Path = ()
    for depth, step in enumerate(loc):
        last = depth == len(loc) - 1
        if root.at((*path, step)) is not None or (last and (*_names(path), step) in _known()):
            path = (*path, step)
    return path


def _names(path: Path) -> tuple[str, ...]:
    return tuple(step for step in path if isinstance(step, str))


def _known() -> set[tuple[str, ...]]:
    return {tuple(path.split(".")) for path in fields()}


def _told(path: Path, error: Mapping[str, Any]) -> list[Mistake]:
    at, value = written(path), error["input"]
    match error["type"]:
        case "mistake":
            return [_under(at, mistake) for mistake in error["ctx"]["mistakes"]]
        case "extra_forbidden":
            return [later_key(path, value) or _unknown_key(path)]
        case "missing":
            return [_missing(path)]
        case "literal_error":
            return [_unknown_word(path, value, _expected(error))]
    if (len(path) == 1 or (len(path) == 2 and path[0] == "plan")) and isinstance(value, dict):
        return [Mistake(at, "", f"There may be several of {at}.", f"Write the heading with two brackets: [[{at}]].")]
    if len(path) == 1 and isinstance(value, list):
        return [Mistake(at, "", f"There is one {at} in a brief.", f"Write the heading with one bracket: [{at}].")]
    return [Mistake(at, "", f"{_key(path)} is {_WANTED.get(error['type'], 'something else')}.", _example(path))]


_WANTED = {
    "string_type": "a word in quotes",
    "int_type": "a whole number",
    "bool_type": "true or false, without quotes",
    "tuple_type": "a list",
    "dict_type": "a table",
    "greater_than_equal": "a whole number from 1 up",
    "less_than_equal": "more than there can be",
    "model_type": "a table",
    "model_attributes_type": "a table",
}


def _expected(error: Mapping[str, Any]) -> list[str]:
    """The words that the key can hold; empty where it is no choice of words."""
    return re.findall(r"'([^']*)'", str(error.get("ctx", {}).get("expected", "")))


def _under(at: str, mistake: Mistake) -> Mistake:
    """The mistake with its place, which was counted from the key ``at``, written in full."""
    return Mistake(f"{at}.{mistake.at}" if mistake.at else at, mistake.typed, mistake.wrong, mistake.instead)


def _unknown_key(path: Path) -> Mistake:
    *above, key = path
    known = keys_of(without_numbers(tuple(above)))
    near = nearest(str(key), known)
    place = f"{_singular(tuple(above))} has" if above else "A brief has"
    hint = f"The nearest is {near[0]}." if near else f"Its keys are {_listed(known)}."
    if near and place == "A layer has":
        hint += f" A layer is {_one_of(list(LAYERS))}."  # beside slab, old-slab looks nearest and means another job
    return Mistake(written(path), "", f"{place} no key {key}.", hint)


def _unknown_word(path: Path, value: object, known: list[str]) -> Mistake:
    near = nearest(value, known) if isinstance(value, str) else []
    hint = f"The nearest is {near[0]}. " if near and len(known) > 2 else ""
    wrong = f"No {path[-1]} is called {value}." if isinstance(value, str) else f"{_key(path)} is a word in quotes."
    if _names(path) == ("load", "kind") and (usual := _usual_load(value)):
        hint = f'A usual load says it: like = "{usual}", and all of them: underpour catalogue list loads. '
    return Mistake(written(path), "", wrong, f"{hint}It is {_one_of(known)}.")


def _usual_load(value: object) -> str:
    """The first usual load whose name or label begins with what was typed as a kind; "" where none does."""
    word = str(value).lower().replace("-", " ").strip()
    named = ((each.key.replace("-", " "), each) for each in named_loads())
    return next((each.key for key, each in named if word and (key.startswith(word) or each.label.startswith(word))), "")


def _missing(path: Path) -> Mistake:
    *above, key = path
    if not above:
        heading = "[[edge]]" if key == "edge" else f"[{key}]"
        return Mistake(
            str(key), "", f"The brief has no {heading}: {_help(path)}", f"Write {heading} with its keys below it."
        )
    return Mistake(written(path), "", f"{_singular(tuple(above))} needs {key}: {_help(path)}", _example(path))


def _singular(table: Path) -> str:
    """The table as a sentence names it: its heading, or what one entry of a list is."""
    names = {
        "floor.build-up": "A layer", "edge.wall": "A layer", "edge.above": "A layer",
        "edge.insulation": "A piece of insulation", "edge.footing": "A footing", "edge.shape": "A shape",
        "floor.inside": "The room", "site.ground": "Typed ground",
        "site.surface": "Typed surface",
        "site.layers": "A layer of ground", "site.layers.ground": "Typed ground",
        "edge": "An edge", "alternative": "An alternative",
        "load": "A load", "edge.beside": "The air beside an edge",
        "plan.hole": "A hole", "plan.obstacle": "An obstacle", "plan.side": "A named side",
    }  # fmt: skip
    path = without_numbers(table)
    return names.get(path, f"[{path}]")


def _key(path: Path) -> str:
    steps = [step for step in path if isinstance(step, str)]
    return steps[-1] if isinstance(path[-1], str) else f"Each entry of {steps[-1]}"


def _help(path: Path) -> str:
    words = str(fields()[without_numbers(path)][1].description)
    return words[0].lower() + words[1:]


def _example(path: Path) -> str:
    """How the key may be written; the first example of its help."""
    known = fields().get(without_numbers(path))
    if known is None or not known[1].examples:
        return ""
    return f"Write {known[1].alias} = {toml(known[1].examples[0])}."


def toml(value: Any) -> str:
    """A value as it stands in a TOML file, on one line.

    >>> toml([{"concrete": "4 in"}])
    '[{ concrete = "4 in" }]'
    """
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{key} = {toml(inner)}" for key, inner in value.items()) + " }"
    if isinstance(value, list | tuple):
        return "[" + ", ".join(toml(inner) for inner in value) + "]"
    return json.dumps(value, ensure_ascii=False)


def _one_of(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"one of {_listed(words)}"


def _listed(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
