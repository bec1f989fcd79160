"""Mistakes that know only their path get the file, the line and the words that stand there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from ..mistakes import Mistake
from ..toml_text import Place
from .alternatives import AS_BRIEFED, edge_names
from .paths import Path, walked
from .typed import Typed

_SHORT = 48  # characters of a list or table that are still worth repeating


@dataclass(frozen=True, slots=True)
class Version:
    """The data of the brief as briefed, or as an alternative changes it."""

    name: str
    tree: Typed
    heading: Path = ()  # where the alternative stands in the file

    def origin(self, at: str) -> Path:
        """Where in the file the nearest value to a path was typed."""
        return self.tree.along(walked(at, edge_names(self.tree)))[0].path


def placed(found: Iterable[Mistake], version: Version, file: str, where: Mapping[Path, Place]) -> Iterator[Mistake]:
    """The mistakes with their places.

    Parameters
    ----------
    found : iterable of Mistake
        Each with a path of ``version`` in ``at``.
    version : Version
        The data that they were found in. What an alternative did not type itself is placed at its heading.
    where : mapping of path in the file to Place
        As ``lines.places`` gives it; where it is empty the lines stay open.
    """
    for mistake in found:
        path = walked(mistake.at, edge_names(version.tree))
        node, further = version.tree.along(path)
        own = node.path[: len(version.heading)] == version.heading
        place = _nearest(node.path if own else version.heading, where)
        words = _words(node, where) or mistake.typed if own and not further else ""
        yield replace(
            mistake,
            at=_named(mistake.at, path, version),
            typed=words,
            file=mistake.file or file,
            line=mistake.line or (place.line if place else 0),
        )


def _nearest(path: Path, where: Mapping[Path, Place]) -> Place | None:
    """The place of a path, or of the nearest table around it or in it; None for the file as a whole."""
    for length in range(len(path), 0, -1):
        if path[:length] in where:
            return where[path[:length]]
        inside = [place for other, place in where.items() if other[:length] == path[:length]]
        if inside:
            return min(inside, key=lambda place: place.line)
    return None


def _words(node: Typed, where: Mapping[Path, Place]) -> str:
    """What stands at a value, as typed; "" where it is long."""
    place = where.get(node.path)
    if place is None:
        return f'"{node.value}"' if isinstance(node.value, str) else ""
    words = place.words
    if isinstance(node.value, dict | list) and ("\n" in words or len(words) > _SHORT):
        return ""
    return words if "\n" not in words else words.splitlines()[0] + " …"


def _named(at: str, path: Path, version: Version) -> str:
    """The path, with the alternative's name before it where it is one's."""
    if version.name != AS_BRIEFED:
        return f'alternative "{version.name}": {at}'
    if path[:1] == ("alternative",) and len(path) > 2:
        name = version.tree.at((*path[:2], "name"))
        if name is not None and path[2:] != ("name",):
            return f'alternative "{name.value}": {at.split(".", 2)[2]}'
    return at
