"""From a text to a brief and its alternatives, or every mistake at once."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from os import PathLike
from pathlib import Path as FilePath
from typing import TYPE_CHECKING

from ..catalogue.products import Products, products_beside, shipped_products
from ..mistakes import Mistake, Mistakes
from ..toml_text import places, read_toml
from .alternatives import AS_BRIEFED, changed, edge_names, unclear_alternative_names
from .files import text_of
from .paths import Path, walked
from .placing import Version, placed
from .typed import Typed

if TYPE_CHECKING:
    from .model import Brief


@dataclass(frozen=True)
class Reading:
    """A brief that can be answered, with its text and its alternatives."""

    text: str
    file: str
    brief: Brief  # as briefed
    alternatives: tuple[tuple[str, Brief], ...]  # in file order, without the brief itself
    products: Products = field(repr=False, compare=False)  # what it can name
    versions: Mapping[str, Version] = field(repr=False, compare=False)  # by the alternative's name

    def placed(self, found: Iterable[Mistake], alternative: str = AS_BRIEFED) -> Mistakes:
        """Mistakes found later, which know only their path, with file, line and the words typed there.

        Parameters
        ----------
        found : iterable of Mistake
            ``at`` is a path in the brief: "floor.build-up.2.thickness", "edge.A.insulation.1.board".
        alternative : str
            Where they were found; what the alternative did not type itself is placed at its heading.
        """
        return Mistakes(placed(found, self.versions[alternative], self.file, places(self.text)))


def read(path: str | PathLike[str]) -> Reading:
    """The brief in a file.

    Raises
    ------
    Mistakes
        The file cannot be read, or the brief in it cannot be used.
    """
    try:
        text = text_of(FilePath(path))
    except Mistake as mistake:
        raise Mistakes([mistake]) from None
    return reads(text, str(path))


def reads(text: str, file: str = "", *, alone: bool = False) -> Reading:
    """The brief in a text; ``file`` is what mistakes call it, and its folder is where the paths in it start.

    A text that stands ``alone`` has no folder: a file that it names is a mistake, and nothing is opened.

    Raises
    ------
    Mistakes
        All that is wrong, in the order of the lines.
    """
    try:
        root = Typed.of(read_toml(text, file))
    except Mistake as mistake:
        raise Mistakes([mistake]) from None
    as_briefed = Version(AS_BRIEFED, root)
    folder = None if alone else FilePath(file).parent
    brief, found = _understood(as_briefed, folder)
    products, unread = _products(folder if file else None)
    told = {(as_briefed.origin(mistake.at), mistake.wrong) for mistake in found}
    found += unclear_alternative_names(_alternative_names(root))
    wrong = [(as_briefed, found)]
    read_alternatives = []
    for name, table in _readable_alternatives(root):
        version = Version(name, changed(root, table, found), table.path)
        other, of_version = _understood(version, folder)
        wrong.append((version, [m for m in of_version if (version.origin(m.at), m.wrong) not in told]))
        read_alternatives.append((version, other))
    if brief is None or unread or any(mistakes for _, mistakes in wrong):
        where = places(text)
        of_brief = (m for version, mistakes in wrong for m in placed(mistakes, version, file, where))
        raise Mistakes([*of_brief, *unread])
    return Reading(
        text,
        file,
        brief,
        tuple((version.name, other) for version, other in read_alternatives if other is not None),
        products,
        {version.name: version for version, _ in wrong},
    )


def altered(reading: Reading, changes: Mapping[Path, object]) -> Reading:
    """The brief with other words at some of its places, as if they had been typed there; it has no alternatives.

    Parameters
    ----------
    reading : Reading
        The brief as briefed is changed.
    changes : mapping of path to plain data
        What is to stand at each path; the path leads to something that can hold it.

    Raises
    ------
    Mistakes
        The changed brief cannot be used; what was changed is placed at its line in the brief as typed.
    """
    tree = reading.versions[AS_BRIEFED].tree
    for path, words in changes.items():
        at = tree.at(path)
        tree = tree.put(path, Typed.of(words, at.path if at is not None else path))
    version = Version(AS_BRIEFED, tree)
    brief, found = _understood(version, FilePath(reading.file).parent)
    if brief is None or found:
        raise Mistakes(placed(found, version, reading.file, places(reading.text)))
    return replace(reading, brief=brief, alternatives=(), versions={AS_BRIEFED: version})


def _products(folder: FilePath | None) -> tuple[Products, list[Mistake]]:
    """What the brief can name, and what cannot be read of it; a brief without a file has no folder beside it."""
    if folder is None:
        return shipped_products(), []
    try:
        return products_beside(folder), []
    except Mistakes as mistakes:
        return shipped_products(), list(mistakes)


def _understood(version: Version, folder: FilePath | None) -> tuple[Brief | None, list[Mistake]]:
    """The brief in the data and what is wrong with it, what follows from another mistake left out."""
    from pydantic import ValidationError

    from .checks import unbuildable
    from .drawing import with_drawing, without_a_plan
    from .model import Brief
    from .parts import readable
    from .wording import misspelt, told

    tree, of_drawing = with_drawing(version.tree, folder)
    data = tree.plain()
    names = edge_names(version.tree)
    brief: Brief | None = None
    found: list[Mistake] = []
    known: set[Path] = set()
    try:
        brief = Brief.model_validate(data, context={"folder": folder})
    except ValidationError as wrong:
        errors = wrong.errors(include_url=False)
        found = without_a_plan(told(errors, tree), tree)
        known = misspelt(errors, tree) | {walked(mistake.at, names) for mistake in found}
    further = unbuildable(readable(data))
    found += [m for m in further if not _follows(walked(m.at, names), known)]
    return brief, [*of_drawing, *found]


def _follows(path: Path, known: set[Path]) -> bool:
    """Whether a path lies at or in one that was told, or is the entry of a list with a key that was told."""
    inside = any(path[: len(other)] == other for other in known)
    return inside or (isinstance(path[-1], int) and any(other[:-1] == path for other in known))


def _alternative_names(root: Typed) -> list[object]:
    names = [table.child("name") for table in _tables(root)]
    return [name.value if name is not None else None for name in names]


def _readable_alternatives(root: Typed) -> Iterator[tuple[str, Typed]]:
    """The alternatives whose own table can be read; the others are told with the brief."""
    from pydantic import ValidationError

    from .model import Alternative

    seen = {AS_BRIEFED}
    for table in _tables(root):
        try:
            name = Alternative.model_validate(table.plain()).name
        except ValidationError:
            continue
        if name not in seen:
            seen.add(name)
            yield name, table


def _tables(root: Typed) -> list[Typed]:
    listed = root.child("alternative")
    return listed.value if listed is not None and isinstance(listed.value, list) else []
