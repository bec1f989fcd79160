"""A sketch written back into its brief: what was not changed stays as it is, comments and all."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from ...mistakes import Mistake
from ..paths import letter
from .sketch import Claimed, Named, Part, Sketch, Standing, side_reference

if TYPE_CHECKING:
    from tomlkit.items import Array, Table

_AFTER_PLAN = re.compile(r"^\[\[?(?:floor|edge|load|joint|tube|snow|cold|stage|soil-gas|money|alternative)\b", re.M)
_LETTERED = re.compile(r"\bedge\s*(?:\.|=\s*\"|\"\s*:\s*\")([A-Z]{1,2})\b")
_LONG_LINE = 100  # characters of an outline in one line


def retold(
    text: str, before: Sketch, after: Sketch, new_edge_like: int | None = None, edge_gone: int | None = None
) -> str:
    """The brief's text with the plan as it is after.

    Parameters
    ----------
    text : str
        The brief, in which ``before`` was read.
    before, after : Sketch
        Only what differs is written.
    new_edge_like : int or None
        The edge, counted from nought, that the last one of ``after`` is a copy of, but for its name and its sides.
    edge_gone : int or None
        The edge, counted likewise, that is taken out; nothing else differs then.
    """
    import tomlkit

    if edge_gone is not None:
        return _without_edge(text, edge_gone)
    if new_edge_like is not None:
        text = _with_copy(text, new_edge_like)
    if not re.search(r"^\s*\[plan\]|^\s*plan\s*[.=]|^\s*\[\[?plan\.", text, re.M):
        text = _with_plan(text, after.unit)
    document = tomlkit.parse(text)
    if not isinstance(document["plan"], dict):
        raise cannot_change()
    plan: Any = document["plan"]
    if "unit" not in plan:
        plan.insert(0, "unit", after.unit)
    _outline(plan, [spot.words for spot in after.rings[0].spots])
    _holes(plan, before, after)
    _obstacles(plan, before.obstacles, after.obstacles)
    _names(plan, before.names, after.names)
    for n, claim in enumerate(after.edges):
        if n >= len(before.edges) or claim != before.edges[n]:
            edge: Any = document["edge"]
            edge[n]["sides"] = _sides(claim)
    return tomlkit.dumps(document)


def cannot_change() -> Mistake:
    """For a plan whose writing we would have to bend."""
    wrong = "The plan is written in a way that drawing cannot change."
    return Mistake("plan", "", wrong, "Write it below headings of its own: [plan], [[plan.hole]], [[edge]]; then draw.")


def _with_plan(text: str, unit: str) -> str:
    """The text with an empty plan before what follows it by custom."""
    table = f'[plan]\nunit    = "{unit}"\noutline = []\n\n'
    found = _AFTER_PLAN.search(text)
    if found is None:
        gap = "" if not text or text.endswith("\n\n") else "\n" if text.endswith("\n") else "\n\n"
        return f"{text}{gap}{table}"
    return text[: found.start()] + table + text[found.start() :]


def _with_copy(text: str, like: int) -> str:
    """The text with one [[edge]] more behind the last, as another is but for its name and its comments' heading."""
    import copy

    import tomlkit

    document = tomlkit.parse(text)
    edges: Any = document["edge"]
    new = copy.deepcopy(edges[like])
    if "name" in new:
        del new["name"]
    new.trivia.comment = ""
    new.trivia.comment_ws = ""
    edges.append(new)
    return tomlkit.dumps(document)


def _without_edge(text: str, gone: int) -> str:
    """The text without an edge.

    Raises Mistake where something speaks of a later edge by its letter, which would then mean another one.
    """
    import tomlkit

    document = tomlkit.parse(text)
    edges: Any = document["edge"]
    later = {letter(n) for n in range(gone, len(edges))}
    called = next((found[1] for found in _LETTERED.finditer(text) if found[1] in later), "")
    if called:
        wrong = f"The brief speaks of edge {called} elsewhere, by its letter."
        raise Mistake("edge", letter(gone), wrong, "Take that out first, or give the edges names and use them.")
    del edges[gone]
    if not len(edges):
        del document["edge"]
    return tomlkit.dumps(document)


def _outline(table: Any, words: Sequence[str]) -> None:
    """The corners of a table's outline, each that is the same left where it stands."""
    array = table.get("outline")
    if array is None:
        table["outline"] = _array(words)
        return
    old = [str(each) for each in array]
    if old == list(words):
        return
    if not old:
        table["outline"] = _array(words)
        return
    shorter = min(len(old), len(words))
    head = next((n for n in range(shorter) if old[n] != words[n]), shorter)
    tail = 0
    while tail < shorter - head and old[-1 - tail] == words[-1 - tail]:
        tail += 1
    gone, come = old[head : len(old) - tail], list(words[head : len(words) - tail])
    for n in range(min(len(gone), len(come))):
        array[head + n] = come[n]
    for _ in gone[len(come) :]:
        del array[head + len(come)]
    for n, more in enumerate(come[len(gone) :], start=len(gone)):
        array.insert(head + n, more)


def _array(words: Sequence[str]) -> Array:
    import tomlkit

    array = tomlkit.array()
    array.extend(words)
    if sum(len(each) + 4 for each in words) > _LONG_LINE:
        array.multiline(multiline=True)
    return array


def _holes(plan: Any, before: Sketch, after: Sketch) -> None:
    old, new = list(before.rings[1:]), list(after.rings[1:])
    if old == new:
        return
    gone = next((n for n, ring in enumerate(old) if n >= len(new) or new[n] != ring), len(old))
    if len(new) < len(old):
        _take_out(plan, "hole", gone)
        return
    for n, ring in enumerate(old):
        if new[n] != ring:
            _outline(plan["hole"][n], [spot.words for spot in new[n].spots])
    for ring in new[len(old) :]:
        table = _table()
        table["outline"] = _array([spot.words for spot in ring.spots])
        _put_in(plan, "hole", table)


def _obstacles(plan: Any, old: Sequence[Standing], new: Sequence[Standing]) -> None:
    if len(new) < len(old):
        _take_out(plan, "obstacle", next((n for n, each in enumerate(old) if n >= len(new) or new[n] != each)))
        return
    for n, each in enumerate(new):
        words = {"kind": each.kind, "at": each.at.words, "size": each.size}
        if n >= len(old):
            table = _table()
            for key, typed in words.items():
                table[key] = typed
            _put_in(plan, "obstacle", table)
        elif each != old[n]:
            for key, typed in words.items():
                if plan["obstacle"][n].get(key) != typed:
                    plan["obstacle"][n][key] = typed


def _names(plan: Any, old: Sequence[Named | None], new: Sequence[Named | None]) -> None:
    if list(old) == list(new):
        return
    kept = [named for named in old if named is None or any(n is not None and n.name == named.name for n in new)]
    changed_name = len(old) == len(new)
    if not changed_name:
        for n in reversed(range(len(old))):
            if old[n] not in kept:
                _take_out(plan, "side", n)
    else:
        kept = list(old)
    for n, named in enumerate(new):
        if n >= len(kept):
            assert named is not None
            table = _table()
            table["side"] = side_reference(named.ring, named.side)
            table["name"] = named.name
            _put_in(plan, "side", table)
        elif named is not None and named != kept[n]:
            plan["side"][n]["side"] = side_reference(named.ring, named.side)
            plan["side"][n]["name"] = named.name


def _sides(claim: Claimed | None) -> Any:
    import tomlkit

    if not isinstance(claim, tuple):
        return claim
    array = tomlkit.array()
    for part in claim:
        array.append(_entry(part))
    return array


def _entry(part: Part) -> Any:
    import tomlkit

    side = part.called or side_reference(part.ring, part.side)
    if part.start is None and part.end is None:
        return side
    ends = [("from", part.start), ("to", part.end)]
    words = {"side": side, **{key: end.words for key, end in ends if end is not None}}
    within = ", ".join(f"{key} = {tomlkit.item(typed).as_string()}" for key, typed in words.items())
    entry: Any = tomlkit.value(f"{{ {within} }}")
    return entry


def _table() -> Table:
    import tomlkit

    return tomlkit.table()


def _put_in(plan: Any, key: str, table: Table) -> None:
    """One table more in a list of the plan, whichever way the list is written."""
    import tomlkit

    listed = plan.get(key)
    if listed is None:
        plan[key] = listed = tomlkit.aot()
    if isinstance(listed, tomlkit.items.AoT):
        table.add(tomlkit.nl())
        listed.append(table)
        return
    inline = tomlkit.inline_table()
    inline.update(table.unwrap())
    listed.append(inline)


def _take_out(plan: Any, key: str, n: int) -> None:
    del plan[key][n]
    if not len(plan[key]):
        del plan[key]
