"""Sides given to edges, and what becomes of edges and names when sides are counted anew. Lengths in m."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from fractions import Fraction
from math import isqrt

from ...mistakes import Mistake
from ..paths import letter
from .figures import Figure, long_words
from .sketch import Claimed, Named, Part, Sketch, Spot, edge_number

Place = tuple[int, int]  # ring, side
Lengths = Mapping[Place, Fraction]  # of the sides


def given(sketch: Sketch, word: str, part: Part, lengths: Lengths) -> Sketch:
    """The plan with a side, or a part of it, given to an edge; no other edge keeps any of it.

    Raises Mistake where no edge has this letter, where the part lies beyond the side, or where another edge would be
    left with nothing.
    """
    index = edge_called(sketch, word)
    whole = _long(lengths, part)
    if part.end is not None and part.end.metres > whole:
        wrong = f"{part.end.words} lies beyond the end of the side."
        raise Mistake("edge", part.end.words, wrong, "Both ends count from the corner where the side begins.")
    start, end = _span(part, whole)
    if start >= end:
        raise Mistake("edge", "", "This part of a side has no length.", "Its first end comes before its second.")
    if None in sketch.edges:
        unread = letter(sketch.edges.index(None))
        raise Mistake(f"edge.{unread}.sides", "", f"The sides of edge {unread} cannot be read.", "Mend them first.")
    alone = sketch.edges == ("all",)
    if alone:
        return sketch
    edges: list[Claimed | None] = []
    for n, claim in enumerate(sketch.edges):
        if claim == "all":
            edges.append("rest")
        elif n == index and isinstance(claim, tuple):
            edges.append(_joined([*_less(claim, part, lengths, sketch.unit), part], lengths))
        else:
            edges.append(_less(claim, part, lengths, sketch.unit) if isinstance(claim, tuple) else claim)
    return replace(sketch, edges=tuple(edges))


def edge_called(sketch: Sketch, word: str) -> int:
    """Which edge a letter means, counted from nought. Raises Mistake where it means none."""
    index = edge_number(word, len(sketch.edges))
    if index is None:
        last = letter(len(sketch.edges) - 1) if sketch.edges else ""
        has = "The brief has edge A." if last == "A" else f"The brief has edges A to {last}."
        has = has if sketch.edges else 'Write the first as [[edge]] with sides = "all" and its kind.'
        raise Mistake("edge", word, f"There is no edge {word}.", has)
    return index


def with_another_edge(sketch: Sketch) -> Sketch:
    """The plan with one edge more, at the end, which has nothing yet."""
    edges: list[Claimed | None] = ["rest" if claim == "all" else claim for claim in sketch.edges]
    return replace(sketch, edges=(*edges, ()))


def owner(sketch: Sketch, part: Part, lengths: Lengths) -> int | None:
    """The edge that has the beginning of a part, counted from nought; None where none has."""
    start, _ = _span(part, _long(lengths, part))
    for n, claim in enumerate(sketch.edges):
        for each in claim if isinstance(claim, tuple) else ():
            if (each.ring, each.side) in ((part.ring, part.side), (part.ring, 0)):
                low, high = _span(each, _long(lengths, part))
                if low <= start < high:
                    return n
    takers = [n for n, claim in enumerate(sketch.edges) if claim in ("all", "rest")]
    return takers[0] if takers else None


def counted_anew(sketch: Sketch, places: Callable[[Part], Iterable[Part]]) -> Sketch:
    """The plan with each claim and each name where its side lies now; ``places`` says where, or nowhere."""
    edges: list[Claimed | None] = []
    for claim in sketch.edges:
        if not isinstance(claim, tuple):
            edges.append(claim)
            continue
        edges.append(tuple(new for part in claim for new in places(part)))
    names: list[Named | None] = []
    for named in sketch.names:
        new = None if named is None else next(iter(places(Part(named.ring, named.side))), None)
        if named is None:
            names.append(None)
        elif new is not None and (new.ring, new.side) not in [(n.ring, n.side) for n in names if n is not None]:
            names.append(Named(new.ring, new.side, named.name))
    return _by_known_names(replace(sketch, edges=tuple(edges), names=tuple(names)))


def renamed(sketch: Sketch, ring: int, side: int, name: str) -> Sketch:
    """The plan with a side called so; "" takes its name away."""
    kept = [named for named in sketch.names if named is None or (named.ring, named.side) != (ring, side)]
    old = [named for named in sketch.names if named is not None and (named.ring, named.side) == (ring, side)]
    if name and old:
        kept = [replace(named, name=name) if named in old else named for named in sketch.names]
    elif name:
        kept.append(Named(ring, side, name))
    edges = tuple(
        tuple(
            replace(part, called=name) if part.called and (part.ring, part.side) == (ring, side) else part
            for part in claim
        )
        if isinstance(claim, tuple)
        else claim
        for claim in sketch.edges
    )
    return _by_known_names(replace(sketch, names=tuple(kept), edges=edges))


def split(sketch: Sketch, ring: int, side: int, at: Fraction) -> Sketch:
    """Claims and names after a corner was put into a side, so far from its start; the first half keeps its name."""

    def places(part: Part) -> Iterable[Part]:
        if part.ring != ring or part.side == 0 or part.side < side:
            return (part,)
        if part.side > side:
            return (replace(part, side=part.side + 1),)
        if part.start is None and part.end is None:
            return part, replace(part, side=side + 1, called="")
        found = []
        if part.start is None or part.start.metres < at:
            short = part.end is not None and part.end.metres < at
            found.append(replace(part, end=part.end if short else None))
        if part.end is None or part.end.metres > at:
            late = part.start is not None and part.start.metres > at
            start = _moved(part.start, -at, sketch.unit) if late else None
            found.append(Part(ring, side + 1, start, _moved(part.end, -at, sketch.unit)))
        return found

    return counted_anew(sketch, places)


def merged(sketch: Sketch, ring: int, first: int, lengths: Lengths, *, straight_on: bool) -> Sketch:
    """Claims and names after the corner between side ``first`` and the next was taken out.

    Where the two ran on straight each edge keeps what it had. Otherwise the new side is another one: the edge that had
    the longer of the two takes all of it.
    """
    count = len(sketch.rings[ring].spots)
    second = first % count + 1
    long, further = lengths[ring, first], lengths[ring, second]
    shift = 1 if first == count else 0  # corner 1 was taken out, and corner 2 is the first now
    longer = first if long >= further else second
    kept = owner(sketch, Part(ring, longer), lengths)

    def places(part: Part) -> Iterable[Part]:
        if part.ring != ring or part.side == 0:
            return (part,)
        if part.side not in (first, second):
            return (replace(part, side=part.side - (1 if part.side > second or shift else 0)),)
        merged_side = first - shift
        if not straight_on:
            return (Part(ring, merged_side, called=part.called),) if part.side == longer else ()
        low, high = _span(part, lengths[ring, part.side])
        by = long if part.side == second else Fraction(0)
        start = None if low + by == 0 else _moved(part.start, by, sketch.unit) or long_words(by, sketch.unit)
        end = None if high + by == long + further else _moved(part.end, by, sketch.unit)
        end = end if end is not None or high + by == long + further else long_words(high + by, sketch.unit)
        return (Part(ring, merged_side, start, end, part.called),)

    new = counted_anew(sketch, places)
    new_lengths = {**lengths, (ring, first - shift): long + further}
    edges: list[Claimed | None] = []
    for n, claim in enumerate(new.edges):
        if not isinstance(claim, tuple):
            edges.append(claim)
        elif straight_on:
            edges.append(_joined(claim, new_lengths))
        else:
            of_it = [part for part in claim if (part.ring, part.side) == (ring, first - shift)]
            others = [part for part in claim if part not in of_it]
            edges.append(tuple([*others, replace(of_it[0], start=None, end=None)] if of_it and n == kept else others))
    return replace(new, edges=tuple(edges))


def without_hole(sketch: Sketch, ring: int) -> Sketch:
    """Claims and names after a hole was taken out."""

    def places(part: Part) -> Iterable[Part]:
        return () if part.ring == ring else (replace(part, ring=part.ring - 1) if part.ring > ring else part,)

    return counted_anew(sketch, places)


def left_bare(before: Sketch, after: Sketch, lengths: Lengths) -> str:
    """The letter of the first edge that had sides and has none now; "" where each has some.

    ``lengths`` are those of all sides, where what is left for "rest" shall be looked at too.
    """
    for n, claim in enumerate(after.edges):
        if claim == () and before.edges[n : n + 1] != ((),):
            return letter(n)
    if lengths and "rest" in after.edges and not _left(after, lengths) and _left(before, lengths):
        return letter(after.edges.index("rest"))
    return ""


def _left(sketch: Sketch, lengths: Lengths) -> Fraction:
    """How much of the sides no edge names."""
    named = Fraction(0)
    for claim in sketch.edges:
        for part in claim if isinstance(claim, tuple) else ():
            for place in [place for place in lengths if place[0] == part.ring and part.side in (0, place[1])]:
                start, end = _span(part, lengths[place])
                named += end - start
    return sum(lengths.values(), Fraction(0)) - named


def chord(one: Spot, other: Spot) -> Fraction:
    """Straight from one corner to another, exact where that is a fraction of a metre, else to a nanometre. [m]"""
    dx, dy = other.x.metres - one.x.metres, other.y.metres - one.y.metres
    if not dx or not dy:
        return abs(dx or dy)
    squared = dx * dx + dy * dy
    top, below = isqrt(squared.numerator), isqrt(squared.denominator)
    if top * top == squared.numerator and below * below == squared.denominator:
        return Fraction(top, below)
    return Fraction(isqrt(squared.numerator * 10**18 // squared.denominator), 10**9)


def _by_known_names(sketch: Sketch) -> Sketch:
    """Claims by a name that is gone go by number."""
    known = {(named.ring, named.side): named.name for named in sketch.names if named is not None}
    edges = tuple(
        tuple(replace(part, called=known.get((part.ring, part.side), "") if part.called else "") for part in claim)
        if isinstance(claim, tuple)
        else claim
        for claim in sketch.edges
    )
    return replace(sketch, edges=edges)


def _long(lengths: Lengths, part: Part) -> Fraction:
    if (part.ring, part.side) not in lengths:
        raise Mistake("plan", "", f"There is no side {part.side}.", "Side 1 runs from corner 1 to corner 2.")
    return lengths[part.ring, part.side]


def _span(part: Part, whole: Fraction) -> tuple[Fraction, Fraction]:
    start = part.start.metres if part.start is not None else Fraction(0)
    return start, part.end.metres if part.end is not None else whole


def _moved(end: Figure | None, by: Fraction, unit: str) -> Figure | None:
    if end is None or not by:
        return end
    return long_words(end.metres + by, unit)


def _less(claim: tuple[Part, ...], gone: Part, lengths: Lengths, unit: str) -> tuple[Part, ...]:
    """A claim without a part."""
    whole = _long(lengths, gone)
    low, high = _span(gone, whole)
    left: list[Part] = []
    for part in _sides_apart(claim, gone, lengths):
        if (part.ring, part.side) != (gone.ring, gone.side):
            left.append(part)
            continue
        start, end = _span(part, whole)
        if end <= low or start >= high:
            left.append(part)
            continue
        if start < low:
            left.append(replace(part, end=gone.start or long_words(low, unit)))
        if end > high:
            left.append(replace(part, start=gone.end or long_words(high, unit)))
    return tuple(left)


def _sides_apart(claim: tuple[Part, ...], gone: Part, lengths: Lengths) -> Iterable[Part]:
    """The parts of a claim, a whole hole as its sides where one of them goes."""
    for part in claim:
        if part.side == 0 and part.ring == gone.ring:
            yield from (Part(*place) for place in lengths if place[0] == part.ring)
        else:
            yield part


def _joined(parts: Iterable[Part], lengths: Lengths) -> tuple[Part, ...]:
    """Parts in the order in which they stand, those that follow on one another on one side as one."""
    joined: list[Part] = []
    for part in parts:
        near = next((n for n, other in enumerate(joined) if _follow(other, part, lengths)), None)
        if near is None:
            joined.append(part)
        else:
            joined[near] = _both(joined[near], part, lengths)
    return tuple(joined)


def _follow(one: Part, other: Part, lengths: Lengths) -> bool:
    if one.side == 0 or (one.ring, one.side) != (other.ring, other.side):
        return False
    whole = lengths[one.ring, one.side]
    (a, b), (c, d) = _span(one, whole), _span(other, whole)
    return b >= c and d >= a


def _both(one: Part, other: Part, lengths: Lengths) -> Part:
    whole = lengths[one.ring, one.side]
    (a, b), (c, d) = _span(one, whole), _span(other, whole)
    start = (one.start if a <= c else other.start) if min(a, c) > 0 else None
    end = (one.end if b >= d else other.end) if max(b, d) < whole else None
    return replace(one, start=start, end=end, called=one.called or other.called)
