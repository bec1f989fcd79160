"""At once: the first grid says how far each number moves from the last whole answer."""

from __future__ import annotations

from collections import OrderedDict
from dataclasses import dataclass, replace

from ...answer import findings_but_of_loads, pictured
from ...brief import Reading, reads
from ...brief.alternatives import AS_BRIEFED
from ...brief.model import Brief
from ...checks.solved import SolvedEdge
from ...cut import sketched_edges
from ...findings import Finding
from ...mistakes import Mistake, Mistakes
from ...resolve import Resolved, resolve
from ...trying import Named, is_sure, moved_by_first_grid, named
from .shared import broad, scale_of, spans_of
from .told import Told, Unread

KEPT = 6  # sketches: the one that others are held against, and the last few


@dataclass(frozen=True)
class _Sketch:
    resolved: Resolved
    edges: tuple[SolvedEdge, ...]
    found: Named


class First:
    """Sketches by text and version. What it holds is made and freed in one thread, which alone may call it."""

    def __init__(self) -> None:
        self._kept: OrderedDict[tuple[str, str], _Sketch] = OrderedDict()

    def told(self, text: str, version: str, last: Told | None, against: str = "") -> Told | Unread:
        """One version of a brief, moved from ``last``, the last whole answer, where there is one.

        ``against`` names the version whose temperatures it is held against, "" where it is held against none.
        """
        try:
            reading = reads(text, alone=True)
            name, brief = _version(reading, version)
            told = self._moved(reading, name, self._sketch(reading, name, brief, last), last)
            if not against or against not in told.names or against == name:
                return told
            other = self._moved(reading, against, self._sketch(reading, *_version(reading, against), last), last)
        except Mistakes as mistakes:
            return Unread(tuple(mistakes))
        return replace(told, answers=(*told.answers, *other.answers))

    def ready(self, last: Told, version: str) -> None:
        """Sketch the last whole answer before somebody types, who would else wait for two of them."""
        self._base(version if version in last.names else AS_BRIEFED, last)

    def _sketch(self, reading: Reading, name: str, brief: Brief, last: Told | None) -> _Sketch:
        key = reading.text, name
        if key in self._kept:
            self._kept.move_to_end(key)
            return self._kept[key]
        before = [edge for sketch in self._kept.values() for edge in sketch.edges]
        try:
            resolved = resolve(brief, products=reading.products)
            edges = sketched_edges(resolved, before[::-1])
        except Mistakes as mistakes:
            raise reading.placed(mistakes, name) from None
        except Mistake as mistake:
            raise reading.placed([mistake], name) from None
        made = _Sketch(resolved, edges, named(findings_but_of_loads(resolved, edges)))
        self._kept[key] = made
        while len(self._kept) > KEPT:
            oldest = next(k for k in self._kept if last is None or k[0] != last.text or k == key)
            del self._kept[oldest]
        return made

    def _moved(self, reading: Reading, name: str, sketch: _Sketch, last: Told | None) -> Told:
        resolved, system = sketch.resolved, sketch.resolved.system
        base = self._base(name, last)
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
        return self._sketch(reading, *_version(reading, name), last)


def _version(reading: Reading, wanted: str) -> tuple[str, Brief]:
    """A version by its name; the brief itself where it has none of that name."""
    named_so = ((name, brief) for name, brief in reading.alternatives if name == wanted)
    return next(named_so, (AS_BRIEFED, reading.brief))
