"""Where each value of a TOML text stands. Asked only when something is wrong, so a good brief pays nothing."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from tree_sitter import Node


Path = tuple[str | int, ...]  # as the data is walked, lists counted from nought


@dataclass(frozen=True, slots=True)
class Place:
    line: int  # counted from 1
    words: str  # the value as it stands in the text; "" for a table with its own heading


def places(text: str) -> dict[Path, Place]:
    """Every path of a TOML text with its place; empty where the grammar's library cannot be used.

    Parameters
    ----------
    text : str
        A text that ``tomllib`` reads.

    Examples
    --------
    >>> places('[site]\\nplace = "Duluth, MN"')[("site", "place")]
    Place(line=2, words='"Duluth, MN"')
    """
    try:
        return dict(_walk(_tree(text)))
    except (ImportError, OSError, AttributeError, TypeError, ValueError):  # a wheel that does not fit this Python
        return {}


def _tree(text: str) -> Node:
    import tree_sitter_toml
    from tree_sitter import Language, Parser

    return Parser(Language(tree_sitter_toml.language())).parse(text.encode()).root_node


def _walk(document: Node) -> Iterator[tuple[Path, Place]]:
    newest: dict[Path, int] = {}  # the number of the newest entry of each [[list of tables]]
    for node in _children(document):
        if node.type == "pair":
            yield from _pair(node, ())
        elif node.type in ("table", "table_array_element"):
            heading, *inside = _children(node)
            base = _under(_keys(heading), newest)
            if node.type == "table_array_element":
                newest[base] = newest.get(base, -1) + 1
            base = (*base, newest[base]) if base in newest else base
            yield base, Place(_line(heading), "")
            for pair in inside:
                yield from _pair(pair, base)


def _under(keys: list[str], newest: dict[Path, int]) -> Path:
    """The path of a heading, with the number of the newest entry behind each [[list of tables]] on its way."""
    path: Path = ()
    for key in keys:
        path = (*path, newest[path], key) if path in newest else (*path, key)
    return path


def _pair(node: Node, base: Path) -> Iterator[tuple[Path, Place]]:
    key, value = _children(node)[:2]
    *above, last = _keys(key)
    for step in above:
        base = (*base, step)
        yield base, Place(_line(key), "")
    yield from _value(value, (*base, last))


def _value(node: Node, path: Path) -> Iterator[tuple[Path, Place]]:
    yield path, Place(_line(node), (node.text or b"").decode())
    if node.type == "array":
        for index, child in enumerate(_children(node)):
            yield from _value(child, (*path, index))
    elif node.type == "inline_table":
        for child in _children(node):
            yield from _pair(child, path)


def _keys(node: Node) -> list[str]:
    """The parts of a key, quotes and escapes read by the TOML reader itself."""
    read: Any = tomllib.loads((node.text or b"").decode() + " = 0")
    keys: list[str] = []
    while isinstance(read, dict):
        (key, read), *_ = read.items()
        keys.append(key)
    return keys


def _children(node: Node) -> list[Node]:
    return [child for child in node.named_children if child.type != "comment"]


def _line(node: Node) -> int:
    return int(node.start_point[0]) + 1
