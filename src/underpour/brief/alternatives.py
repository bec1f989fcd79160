"""Alternatives: the brief as typed, changed as an alternative says. Every path counts in the brief as typed."""

from __future__ import annotations

from collections.abc import Iterator

from ..mistakes import Mistake, nearest
from .layers import LAYERS, kind_of
from .paths import Path, edge_index, walked, written
from .typed import Typed

AS_BRIEFED = "as briefed"
_HOLD_LAYERS = ("insulation", "wall", "above")


def changed(brief: Typed, alternative: Typed, found: list[Mistake]) -> Typed:
    """The brief with an alternative's changes made.

    Parameters
    ----------
    brief, alternative : Typed
        The whole brief, and the table of the alternative in it, read before as far as its own keys go.
    found : list of Mistake
        Takes what cannot be done, each with its path in the file; the rest of the changes is made.
    """
    base = Typed(brief.path, {key: child for key, child in brief.value.items() if key != "alternative"})
    gone = _gone(base, alternative, found)
    tree = _with_edges(base, alternative, found)
    return _with_set(tree, base, alternative, gone, found).without(gone)


def unclear_alternative_names(names: list[object]) -> Iterator[Mistake]:
    """Names of alternatives that stand twice or are the brief's own."""
    for index, name in enumerate(names):
        at = f"alternative.{index + 1}.name"
        if name == AS_BRIEFED:
            yield Mistake(at, "", f'"{AS_BRIEFED}" is the brief itself.', "Give the alternative another name.")
        elif isinstance(name, str) and name in names[:index]:
            yield Mistake(at, "", f"An alternative is called {name} already.", "Give each alternative its own name.")


def edge_names(brief: Typed) -> list[str | None]:
    """The names of the edges in file order, None where an edge has none."""
    names = [edge.child("name") for edge in _edges(brief)]
    return [name.value if name is not None and isinstance(name.value, str) else None for name in names]


def _edges(brief: Typed) -> list[Typed]:
    """The edges in file order; none where [edge] is typed for [[edge]], which is told on its own."""
    edges = brief.child("edge")
    return edges.value if edges is not None and isinstance(edges.value, list) else []


def _gone(base: Typed, alternative: Typed, found: list[Mistake]) -> set[Path]:
    gone: set[Path] = set()
    listed = alternative.child("remove")
    for word in listed.value if listed else ():
        taken = set(_meant(base, word.value))
        if not taken:
            known = [*LAYERS, *(str(key) for key in base.value)]
            near = nearest(word.value, known)
            hint = f"The nearest is {near[0]}. " if near and word.value not in known else ""
            wrong = f"There is no {word.value} in the brief to take out."
            found.append(Mistake(written(word.path), "", wrong, f'{hint}Write a kind of layer, "board", or a path.'))
        gone |= taken
    return gone


def _meant(base: Typed, word: str) -> Iterator[Path]:
    """The paths that a word of ``remove`` takes out: a kind everywhere, a kind in one place, or a path."""
    if word in LAYERS:
        yield from _of_kind(base.child("floor"), ("build-up",), word)
        for edge in _edges(base):
            yield from _of_kind(edge, _HOLD_LAYERS, word)
        return
    path = walked(word, edge_names(base))
    *above, last = path
    place = base.at(tuple(above))
    if last in LAYERS and above and place is not None and above[0] in ("floor", "edge") and len(above) <= 2:
        yield from _of_kind(place, ("build-up",) if above == ["floor"] else _HOLD_LAYERS, str(last))
    elif (target := base.at(path)) is not None:
        yield target.path


def _of_kind(table: Typed | None, keys: tuple[str, ...], kind: str) -> Iterator[Path]:
    for key in keys:
        layers = table.child(key) if table else None
        for layer in layers.value if layers and isinstance(layers.value, list) else ():
            if kind_of(layer.plain()) == kind:
                yield layer.path


def _with_edges(tree: Typed, alternative: Typed, found: list[Mistake]) -> Typed:
    names = edge_names(tree)
    listed = alternative.child("edge")
    for edge in listed.value if listed else ():
        named = edge.child("name")
        index = edge_index(named.value, names) if named and isinstance(named.value, str) else None
        if index is None and named is None and len(names) == 1:
            index = 0
        if index is None:
            wrong = f"No edge is called {named.value}." if named else "This edge does not say which one it replaces."
            at = written(named.path if named else edge.path)
            found.append(Mistake(at, "", wrong, 'Write the edge\'s name or letter: name = "A".'))
            continue
        old = tree.at(("edge", index))
        kept = {key: old.value[key] for key in ("name", "sides") if old is not None and key in old.value}
        new = {key: child for key, child in edge.value.items() if key != "name"}
        tree = tree.put(("edge", index), Typed(edge.path, {**kept, **new}))
    return tree


def _with_set(tree: Typed, base: Typed, alternative: Typed, gone: set[Path], found: list[Mistake]) -> Typed:
    table = alternative.child("set")
    for words, value in table.value.items() if table else ():
        path = walked(words, edge_names(base))
        at = written(value.path)
        if path[0] == "alternative":
            found.append(Mistake(at, "", "An alternative changes the brief, never another alternative.", ""))
        elif len(path) == 1 and isinstance(value.value, dict):
            found.append(Mistake(at, "", "A path stands in quotes.", f'Write set = {{ "{words}.…" = "…" }}.'))
        elif any(path[: depth + 1] in gone for depth in range(len(path))):
            found.append(Mistake(at, "", f"The same alternative takes {words} out.", "Keep one of the two changes."))
        else:
            try:
                tree = tree.put(path, value)
            except KeyError:
                found.append(_no_such_path(at, words, path, tree))
    return tree


def _no_such_path(at: str, words: str, path: Path, tree: Typed) -> Mistake:
    here, further = tree.along(path)
    stands = written(path[: len(path) - len(further)])
    if isinstance(here.value, list):
        many = len(here.value)
        known = f"{stands} has {'one entry' if many == 1 else f'{many} entries'}, counted from 1."
        if stands == "edge":
            known = f"Its edges: {', '.join(written((*here.path, n)).partition('.')[2] for n in range(many))}."
        return Mistake(at, "", f"There is no {words} in the brief.", known)
    near = nearest(str(further[0]), [str(key) for key in here.value]) if isinstance(here.value, dict) else []
    hint = (
        f"The nearest is {stands}{'.' if stands else ''}{near[0]}."
        if near
        else "Write a path that stands in the brief."
    )
    return Mistake(at, "", f"There is no {words} in the brief.", hint)
