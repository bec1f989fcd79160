"""At once: the first grid says how far each number moves from the last whole answer."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Mapping
from dataclasses import dataclass, replace

from ...answer import findings_but_of_loads, pictured
from ...brief import Reading, reads
from ...brief.alternatives import AS_BRIEFED
from ...brief.model import Brief
from ...checks.solved import SolvedEdge
from ...cut import sketched_edges
from ...families import EdgeFamily
from ...findings import Finding
from ...mistakes import Mistake, Mistakes
from ...resolve import Resolved, resolve
from ...trying import Named, is_sure, moved_by_first_grid, named
from .shared import broad, scale_of, spans_of
from .thicker import Drawn, Families, as_before
from .thicker import Told as FamiliesTold
from .told import Told, Unread

KEPT = 6  # sketches: the one that others are held against, and the last few


@dataclass(frozen=True)
class _Sketch:
    resolved: Resolved
    edges: tuple[SolvedEdge, ...]
    found: Named


class First:
    """Sketches by text and version. What it holds is made and freed in one thread, which alone may call it.

    Two sketches are held against one another, edge by edge made the same way: by the first grid, or by the same family
    where a layer is drawn that one was made ready for (``thicker``).
    """

    def __init__(self) -> None:
        self._kept: OrderedDict[tuple[str, str], _Sketch] = OrderedDict()  # by the first grid
        self._families = Families()
        self._told: dict[tuple[str, str], FamiliesTold] = {}  # what they tell of the last whole answer
        self._before: dict[tuple[tuple[str, str], frozenset[str]], _Sketch] = {}  # that answer with these edges by them

    def told(self, text: str, version: str, last: Told | None, against: str = "") -> Told | Unread:
        """One version of a brief, moved from ``last``, the last whole answer, where there is one.

        ``against`` names the version whose temperatures it is held against, "" where it is held against none.
        """
        try:
            reading = reads(text, alone=True)
            name, brief = _version(reading, version)
            told = self._moved(reading, name, brief, last)
            if not against or against not in told.names or against == name:
                return told
            other = self._moved(reading, *_version(reading, against), last)
        except Mistakes as mistakes:
            return Unread(tuple(mistakes))
        return replace(told, answers=(*told.answers, *other.answers))

    def ready(self, last: Told, version: str) -> None:
        """Sketch the last whole answer before somebody types, who would else wait for two of them."""
        name = version if version in last.names else AS_BRIEFED
        base = self._base(name, last)
        if base is not None:
            self._told_of((last.text, name), base)

    def wanted(self, last: Told, path: str) -> list[Drawn]:
        """What is to be made ready so that the layer at a path can be drawn."""
        return self._families.wanted(last.resolved[AS_BRIEFED], path)

    def keep(self, family: EdgeFamily) -> None:
        """One of those is ready."""
        self._families.keep(family)
        self._told.clear()
        self._before.clear()

    def _resolved(self, reading: Reading, name: str, brief: Brief) -> Resolved:
        try:
            return resolve(brief, products=reading.products)
        except Mistakes as mistakes:
            raise reading.placed(mistakes, name) from None
        except Mistake as mistake:
            raise reading.placed([mistake], name) from None

    def _sketch(self, reading: Reading, name: str, resolved: Resolved, last: Told | None) -> _Sketch:
        """By the first grid."""
        key = reading.text, name
        made = self._sketched(reading, name, resolved, {})
        self._kept[key] = made
        while len(self._kept) > KEPT:
            oldest = next(k for k in self._kept if last is None or k[0] != last.text or k == key)
            del self._kept[oldest]
        return made

    def _sketched(
        self, reading: Reading, name: str, resolved: Resolved, by_family: Mapping[str, SolvedEdge]
    ) -> _Sketch:
        """The edges that no family tells by the first grid; those that were sketched before are not again."""
        known = [edge for sketch in self._kept.values() for edge in sketch.edges]
        others = replace(resolved, edges=tuple(edge for edge in resolved.edges if edge.letter not in by_family))
        try:
            on_grid = {each.edge.letter: each for each in sketched_edges(others, known[::-1])}
        except Mistake as mistake:
            raise reading.placed([mistake], name) from None
        edges = tuple({**on_grid, **by_family}[edge.letter] for edge in resolved.edges)
        return _Sketch(resolved, edges, named(findings_but_of_loads(resolved, edges)))

    def _pair(self, reading: Reading, name: str, brief: Brief, last: Told | None) -> tuple[_Sketch | None, _Sketch]:
        """The last whole answer and this version, sketched the same way."""
        base, key = self._base(name, last), (reading.text, name)
        if key in self._kept:
            self._kept.move_to_end(key)
            return base, self._kept[key]
        resolved = self._resolved(reading, name, brief)
        if last is None or base is None:
            return base, self._sketch(reading, name, resolved, last)
        told = self._told_of((last.text, name), base)
        drawn = as_before(told, resolved)
        if not drawn:
            return base, self._sketch(reading, name, resolved, last)
        which = (last.text, name), frozenset(drawn)
        if which not in self._before:
            edges = tuple(told[e.edge.letter][1] if e.edge.letter in drawn else e for e in base.edges)
            self._before[which] = _Sketch(base.resolved, edges, named(findings_but_of_loads(base.resolved, edges)))
        return self._before[which], self._sketched(reading, name, resolved, drawn)

    def _told_of(self, key: tuple[str, str], base: _Sketch) -> FamiliesTold:
        """What the families tell of the last whole answer, worked out once."""
        if key not in self._told:
            self._told = {k: held for k, held in self._told.items() if k[0] == key[0]}
            self._before = {k: held for k, held in self._before.items() if k[0][0] == key[0]}
            self._told[key] = self._families.told(base.resolved)
        return self._told[key]

    def _moved(self, reading: Reading, name: str, brief: Brief, last: Told | None) -> Told:
        base, sketch = self._pair(reading, name, brief, last)
        resolved, system = sketch.resolved, sketch.resolved.system
        wholly = named(last.answer(name).findings) if last and base else {}
        moved = moved_by_first_grid(wholly, base.found, sketch.found) if base else dict(sketch.found)
        unseen = {key: found for key, found in wholly.items() if base and key not in base.found}
        said: list[Finding] = [*moved.values(), *unseen.values()]
        unsure = {key for key, found in moved.items() if found.within != 0.0 and not (base and is_sure(found))}
        sections = [edge.section for edge in sketch.edges]
        windows = broad({section.edge: section.window for section in sections}, sections)
        answer = pictured(name, resolved, sketch.edges, windows, said)
        kept = last if last is not None and last.system == system else None
        return Told(
            text=reading.text,
            trees={each: version.tree for each, version in reading.versions.items()},
            system=system,
            names=(AS_BRIEFED, *(other for other, _ in reading.alternatives)),
            resolved={name: resolved},
            answers=(answer,),
            scale=kept.scale if kept else scale_of([answer], system),
            spans={**spans_of([answer], system), **(kept.spans if kept else {})},
            unsure=frozenset(unsure) | frozenset(unseen),
        )

    def _base(self, name: str, last: Told | None) -> _Sketch | None:
        """The last whole answer on the first grid; None where it has no such version."""
        if last is None or name not in last.names:
            return None
        if (last.text, name) in self._kept:
            return self._kept[last.text, name]
        reading = reads(last.text, alone=True)
        _, brief = _version(reading, name)
        return self._sketch(reading, name, self._resolved(reading, name, brief), last)


def _version(reading: Reading, wanted: str) -> tuple[str, Brief]:
    """A version by its name; the brief itself where it has none of that name."""
    named_so = ((name, brief) for name, brief in reading.alternatives if name == wanted)
    return next(named_so, (AS_BRIEFED, reading.brief))
