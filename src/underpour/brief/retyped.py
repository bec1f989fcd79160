"""A brief's text changed at one place: every figure, comment and space that is not meant stays as it was typed."""

from __future__ import annotations

import math
import re
import tomllib
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Literal

from ..mistakes import Mistake, Mistakes, nearest
from ..toml_text import read_toml
from .alternatives import edge_names
from .paths import Path, walked, written
from .renumbered import renumbered
from .typed import Typed

if TYPE_CHECKING:
    from tomlkit.items import Item

_KEY = re.compile(r"[A-Za-z0-9_-]+")
_HEADING = re.compile(
    r"^[ \t]*\[\[?[ \t]*([A-Za-z0-9_-]+|\"[^\"\n]*\"|'[^'\n]*')[ \t]*(?:\.[^\]\n]*)?\]\]?[ \t]*(?:#.*)?$", re.M
)
_COMMENT = re.compile(  # what stands in quotes is stepped over
    r"""\"{3}(?:\\.|[^\\])*?\"{3,5}|'{3}.*?'{3,5}|"(?:\\.|[^"\\\n])*"|'[^'\n]*'|(#[^\n]*)""", re.S
)
_LONGEST_INDEX = 6  # digits of a number in a path


@dataclass(frozen=True, slots=True)
class Change:
    """One thing typed, left out or added."""

    path: str  # as findings and questions write it: "floor.build-up.2.thickness", "edge.A.kind"
    typed: Any = None  # words as they would stand in the brief, or plain data; nothing where it is left out
    kind: Literal["set", "left out", "added"] = "set"


def retyped(text: str, changes: Sequence[Change]) -> str:
    """The brief's text with every change made in turn, or none of them.

    Parameters
    ----------
    text : str
        A brief, finished or not.
    changes : sequence of Change
        ``set`` writes a value, and its table where there is none yet; ``left out`` takes out a key, a layer, an edge
        or a table; ``added`` puts a layer in before the one that stands at the path, or a table behind the last.
        A typed "3" or "true" is written as the brief can read it: bare where it asks for a number, else in quotes.

    Raises
    ------
    Mistakes
        The text is not TOML, or a change cannot be made there; with the path, and what could be typed.

    Examples
    --------
    >>> print(retyped('inside = "68 F"  # all winter', [Change("inside", "20 C")]))
    inside = "20 C"  # all winter
    """
    try:
        for change in changes:
            text = _one(text, change)
    except Mistake as mistake:
        raise Mistakes([mistake]) from None
    return text


def _one(text: str, change: Change) -> str:
    from tomlkit.exceptions import TOMLKitError

    tree = Typed.of(read_toml(text, ""))
    path = _path(change, tree)
    try:
        if change.kind == "left out":
            new, wanted = _left_out(text, tree, path)
        elif change.kind == "added":
            new, wanted = _added(text, tree, path, change.typed)
        else:
            new, wanted = _set(text, tree, path, change.typed)
        kept = tomllib.loads(new) == wanted and _comments_stay(text, new, change.kind)
    except (TOMLKitError, KeyError, IndexError, TypeError, ValueError, AttributeError, RecursionError):
        # A way of writing that the library cannot change; what it made of it is not taken.
        kept = False
    if not kept:
        wrong = "This is written in a way that cannot be changed from here."
        raise Mistake(change.path, "", wrong, "Change it in the brief's text.")
    return new


def _comments_stay(before: str, after: str, kind: str) -> bool:
    """Whether every comment is still there; one that stood in what was taken out goes with it."""
    return kind == "left out" or _comments(before) == _comments(after)


def _comments(text: str) -> list[str]:
    return sorted(filter(None, _COMMENT.findall(text)))


def _path(change: Change, tree: Typed) -> Path:
    path = _inside_set(walked(change.path, edge_names(tree)), tree)
    numbers = (step for step in path if isinstance(step, int))
    if (not all(path) and "" in path) or any(n < 0 or n >= 10**_LONGEST_INDEX for n in numbers):
        raise Mistake(
            change.path, "", "This is no path of a brief.", "Lists are counted from 1: floor.build-up.2.board."
        )
    if path[0] == "catalogue":
        raise Mistake(change.path, "", "This stands in the catalogue.", "Name another product, or keep your own line.")
    return path


def _inside_set(path: Path, tree: Typed) -> Path:
    """The path into what an alternative sets as a whole: its key is a path itself, and what follows counts in it."""
    held = tree.at(path[:3])
    if path[:1] != ("alternative",) or path[2:3] != ("set",) or len(path) != 4 or held is None:
        return path
    words = str(path[3])
    known = [key for key in held.value if words.startswith(f"{key}.")] if isinstance(held.value, dict) else []
    if not known or words in held.value:
        return path
    key = max(known, key=len)
    return (*path[:3], key, *walked(words.removeprefix(f"{key}.")))


# -- written anew ----------------------------------------------------------------------------------------------------


def _set(text: str, tree: Typed, path: Path, typed: Any) -> tuple[str, Any]:
    bare = _bare(typed) if isinstance(typed, str) else None
    if bare is None:
        return _put(text, tree, path, typed, None)
    in_quotes = _put(text, tree, path, typed, None)
    without = _put(text, tree, path, bare, typed.strip())
    return without if _asks_for_bare(path, in_quotes[0], without[0]) else in_quotes


def _bare(typed: str) -> Any:
    """A number, a yes or no, a list or a table, where the words are written like one; None for other words."""
    try:
        read = tomllib.loads(f"it = {typed.strip()}\n")
    except (ValueError, RecursionError):
        return None
    found = read.get("it")
    if len(read) > 1 or isinstance(found, str) or (isinstance(found, float) and not math.isfinite(found)):
        return None
    return found


def _asks_for_bare(path: Path, in_quotes: str, bare: str) -> bool:
    """Whether the brief takes it at this place as it is and not as words in quotes."""
    return _wrong_at(path, in_quotes) and not _wrong_at(path, bare)


def _wrong_at(path: Path, text: str) -> bool:
    from .read import reads

    try:
        names = edge_names(Typed.of(tomllib.loads(text)))
        reads(text, alone=True)
    except Mistakes as mistakes:
        told = [walked(mistake.at, names) for mistake in mistakes]
        return any(at[: len(path)] == path for at in told)
    return False


def _put(text: str, tree: Typed, path: Path, value: Any, as_typed: str | None) -> tuple[str, Any]:
    """The value at a path; what is missing on the way is made."""
    here, further = tree.along(path)
    missing = len(path) - len(further)
    if not further:
        return _replaced(text, path, value, as_typed), tree.put(path, Typed.of(value)).plain()
    if not isinstance(here.value, dict):
        raise _nothing_to_hold(here, path, missing)
    for step in reversed(further[1:]):
        if not isinstance(step, str):
            raise _nothing_to_hold(here, path, missing)
        value, as_typed = {step: value}, None if as_typed is None else f"{{ {_key(step)} = {as_typed} }}"
    at = path[: missing + 1]
    wanted = tree.put(at, Typed.of(value)).plain()
    if missing == 0 and isinstance(value, dict):
        return _with_table(text, str(path[0]), f"[{_key(str(path[0]))}]\n{_lines(value, further, as_typed)}"), wanted
    return _with_key(text, at, value, as_typed), wanted


def _nothing_to_hold(here: Typed, path: Path, missing: int) -> Mistake:
    stands, asked = written(path[:missing]), written(path)
    if isinstance(here.value, list):
        many = len(here.value)
        known = f"{stands} has {'one entry' if many == 1 else f'{many} entries'}, counted from 1."
        return Mistake(asked, "", f"There is no {written(path[: missing + 1])} in the brief.", known)
    if missing == 0:
        return Mistake(asked, "", "This is no path of a brief.", "Write one such as site.place.")
    return Mistake(asked, "", f"{stands} is one word there, and holds nothing else.", f"Type {stands} itself.")


def _replaced(text: str, path: Path, value: Any, as_typed: str | None) -> str:
    import tomlkit

    document = tomlkit.parse(text)
    above: Any = _walk(document, path[:-1])
    last: Any = path[-1]
    old = above[last]
    new = _item(value, as_typed, old)
    if isinstance(above, tomlkit.items.Array):
        above[last] = new
    elif isinstance(above, tomlkit.items.AoT) or _has_heading(old):
        raise ValueError("a table with a heading of its own is not written over")
    else:
        above[last] = new
    return tomlkit.dumps(document)


def _has_heading(old: Any) -> bool:
    import tomlkit

    return isinstance(old, tomlkit.items.Table | tomlkit.items.AoT)


def _with_key(text: str, path: Path, value: Any, as_typed: str | None) -> str:
    import tomlkit

    document = tomlkit.parse(text)
    above: Any = _walk(document, path[:-1])
    key = str(path[-1])
    if isinstance(above, tomlkit.items.InlineTable):
        return _with_inline(document, path[:-1], [*_pairs(above), (_key(key), as_typed or as_text(value))])
    if above is document:
        heading = _HEADING.search(text)
        line = f"{_key(key)} = {as_typed or as_text(value)}\n"
        return f"{line}{text}" if heading is None or not text[: heading.start()].strip() else line + text
    trailing = _trailing(above)
    above[key] = _item(value, as_typed, None)
    above.value.body.extend(trailing)
    return tomlkit.dumps(document)


def _trailing(table: Any) -> list[Any]:
    """Blank lines and comments at the end of a table, taken out of it: they belong to what follows."""
    import tomlkit

    body = table.value.body
    taken: list[Any] = []
    while len(body) and isinstance(body[-1][1], tomlkit.items.Whitespace | tomlkit.items.Comment):
        taken.insert(0, body.pop())
    return taken


def _pairs(table: Any) -> list[tuple[str, str]]:
    """The keys and values of a table on one line, as they are written."""
    return [(key.as_string().strip(), held.as_string()) for key, held in table.value.body if key is not None]


def _with_inline(document: Any, path: Path, pairs: Sequence[tuple[str, str]]) -> str:
    """The text with a table on one line holding these keys."""
    import tomlkit

    within = ", ".join(f"{key} = {words}" for key, words in pairs)
    _walk(document, path[:-1])[path[-1]] = tomlkit.value(f"{{ {within} }}" if within else "{}")
    return tomlkit.dumps(document)


def _walk(here: Any, path: Path) -> Any:
    for step in path:
        here = here[step]
    return here


def _item(value: Any, as_typed: str | None, old: Any) -> Item:
    """The value as it is to be written; words in the kind of quotes that stood there."""
    import tomlkit
    from tomlkit.items import String, StringType

    if as_typed is not None:
        return tomlkit.value(as_typed)
    if isinstance(value, str) and isinstance(old, String):
        kind = old._t
        literal = kind in (StringType.SLL, StringType.MLL) and "'" not in value and value.isprintable()
        return tomlkit.string(value, literal=literal)
    return tomlkit.value(as_text(value))


def as_text(value: Any) -> str:
    """Plain data on one line, as a person would write it."""
    import tomlkit

    if isinstance(value, dict):
        within = ", ".join(f"{_key(key)} = {as_text(held)}" for key, held in value.items())
        return f"{{ {within} }}" if within else "{}"
    if isinstance(value, list | tuple):
        return f"[{', '.join(map(as_text, value))}]"
    if value is None:
        raise ValueError("nothing was typed")
    words: str = tomlkit.item(value).as_string()
    return words


def _key(key: str) -> str:
    import tomlkit

    return key if _KEY.fullmatch(key) else tomlkit.string(key).as_string()


def _lines(value: dict[str, Any], further: Path, as_typed: str | None) -> str:
    if as_typed is not None:  # "{ key = typed }", the key being the first that was missing
        return f"{as_typed[2:-2]}\n"
    return "".join(f"{_key(key)} = {as_text(held)}\n" for key, held in value.items())


# -- tables with headings --------------------------------------------------------------------------------------------


def _with_table(text: str, name: str, block: str) -> str:
    """The text with a table put where the brief's own order has it."""
    from .model import Brief

    order = [field.alias or key for key, field in Brief.model_fields.items()]
    rank = order.index(name) if name in order else len(order)
    found = [(heading, heading[1].strip("\"'")) for heading in _HEADING.finditer(text)]
    behind = [n for n, (_, of) in enumerate(found) if of == name or (of in order and order.index(of) <= rank)]
    following = found[behind[-1] + 1 :] if behind else found
    if not following:
        gap = "" if not text else "\n" if text.endswith("\n") else "\n\n"
        return f"{text}{gap}{block}"
    start = _with_its_comment(text, following[0][0].start())
    return f"{text[:start]}{block}\n{text[start:]}"


def _with_its_comment(text: str, heading: int) -> int:
    """Where the comment above a heading begins; the heading itself where it has none."""
    start = heading
    while start > 0:
        line = text.rfind("\n", 0, start - 1) + 1
        if not text[line:start].lstrip().startswith("#"):
            break
        start = line
    return start


# -- left out --------------------------------------------------------------------------------------------------------


def _left_out(text: str, tree: Typed, path: Path) -> tuple[str, Any]:
    import tomlkit

    gone = tree.at(path)
    if gone is None:
        here, further = tree.along(path)
        known = [str(key) for key in here.value] if isinstance(here.value, dict) else []
        near = nearest(str(further[0]), known)
        hint = f"The nearest is {near[0]}." if near else ""
        raise Mistake(written(path), "", "It does not stand in the brief.", hint)
    wanted = tree.without({gone.path}).plain()
    above_path, last = path[:-1], path[-1]
    if isinstance(last, int):
        text, wanted = renumbered(text, tree, wanted, above_path, last, -1)
    document = tomlkit.parse(text)
    above: Any = _walk(document, above_path)
    if isinstance(above, tomlkit.items.InlineTable):
        return _with_inline(
            document, above_path, [pair for pair in _pairs(above) if pair[0] != _key(str(last))]
        ), wanted
    del above[last]
    if isinstance(above, tomlkit.items.AoT) and not len(above):
        del _walk(document, above_path[:-1])[above_path[-1]]
        wanted = Typed.of(wanted).without({above_path}).plain()
    return tomlkit.dumps(document), wanted


# -- added -----------------------------------------------------------------------------------------------------------


def _added(text: str, tree: Typed, path: Path, typed: Any) -> tuple[str, Any]:
    """One entry more in a list: before the one that stands at the path, or behind the last."""
    import tomlkit

    listed = tree.at(path)
    if listed is not None and isinstance(listed.value, list):
        path = (*path, len(listed.value))
    above_path, last = path[:-1], path[-1]
    if not isinstance(last, int):  # the list's own name, and it is not there yet
        above_path, last = path, 0
    listed = tree.at(above_path)
    if listed is None:
        if last or not above_path:
            raise Mistake(written(path), "", "There is no such list in the brief.", "Add its first entry first.")
        if len(above_path) == 1 and isinstance(typed, dict):
            block = f"[[{_key(str(above_path[0]))}]]\n{_lines(typed, (), None)}"
            return _with_table(text, str(above_path[0]), block), tree.put(above_path, Typed.of([typed])).plain()
        return _put(text, tree, above_path, [typed], None)
    if not isinstance(listed.value, list) or last > len(listed.value):
        raise _nothing_to_hold(listed, path, len(above_path))
    entries = [each.plain() for each in listed.value]
    wanted = tree.put(above_path, Typed.of([*entries[:last], typed, *entries[last:]])).plain()
    document = tomlkit.parse(text)
    above: Any = _walk(document, above_path)
    if isinstance(above, tomlkit.items.AoT):
        if last < len(entries) or len(above_path) > 1:
            raise Mistake(
                written(path), "", "A table of its own is added behind the last.", f"Add {written(above_path)}."
            )
        block = f"[[{_key(str(above_path[0]))}]]\n{_lines(typed, (), None)}"
        return _with_table(text, str(above_path[0]), block), wanted
    if last < len(entries):
        text, wanted = renumbered(text, tree, wanted, above_path, last, 1)
        document = tomlkit.parse(text)
        above = _walk(document, above_path)
    above.insert(last, _item(typed, None, None))
    return tomlkit.dumps(document), wanted
