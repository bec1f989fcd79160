"""Which edge takes which stretch of the plan's sides: every point of the outline and of its holes has exactly one."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from ..mistakes import Mistake, nearest
from ..outlines.floor import Floor, Stretch
from .kinds import Claim, SideName, Sides
from .model import Brief
from .paths import letter
from .plans import floor_of, length_words, side_words, stretch_words
from .tables.plan import NamedSide, Plan

TOGETHER = 5e-4  # m; ends of stretches that lie nearer are one
Place = tuple[int, int]  # ring, side
_HOLE = re.compile(r"hole\.(\d+)(?:\.side\.(\d+))?")


@dataclass(frozen=True, slots=True)
class _Piece:
    """A stretch that no claim divides, and the edges that claim it."""

    stretch: Stretch
    edges: tuple[int, ...]


def stretches_of_edges(brief: Brief) -> tuple[tuple[Stretch, ...], ...]:
    """For each edge in file order the stretches of sides that it takes; the brief has been read."""
    floor = floor_of(brief.plan)
    names = _names(brief.plan.side, floor, [])
    claims = [edge.sides for edge in brief.edge]
    pieces = _pieces(floor, _claimed(claims, floor, names, brief.plan.unit, []))
    taken: list[tuple[Stretch, ...]] = []
    for index, claim in enumerate(claims):
        own = [piece.stretch for piece in pieces if claim == "all" or index in piece.edges]
        own += [piece.stretch for piece in pieces if claim == "rest" and not piece.edges]
        taken.append(tuple(_joined(own)))
    return tuple(taken)


def pieces_of_sides(
    claims: Sequence[Sides | None], floor: Floor, plan: Plan
) -> tuple[tuple[Stretch, tuple[int, ...]], ...]:
    """Every side in the pieces that edges claim, with the edges of each in file order; what cannot be read claims none.

    ``claims`` are as for `unclear_sides`.
    """
    claimed = _claimed(claims, floor, _names(plan.side, floor, []), plan.unit, [])
    takers = [n for n, claim in enumerate(claims) if claim in ("all", "rest")]
    return tuple((piece.stretch, piece.edges or tuple(takers[:1])) for piece in _pieces(floor, claimed))


def unclear_sides(claims: Sequence[Sides | None], floor: Floor, plan: Plan) -> Iterator[Mistake]:
    """What is wrong with the names of sides, and with the edges' claims.

    Parameters
    ----------
    claims : list of "all", "rest", tuple of Claim, or None
        In file order; None where a claim could not be read, so that no side is called unclaimed.
    floor : Floor
        The plan's floor.
    plan : Plan
        For the names of its sides, and the unit that lengths are told in.
    """
    found: list[Mistake] = []
    names = _names(plan.side, floor, found)
    unsure = bool(found) or None in claims
    of_no_use = {each.name for each in plan.side} - set(names)
    known = [_without(of_no_use, claim) for claim in claims]
    claimed = _claimed(known, floor, names, plan.unit, found)
    pieces = _pieces(floor, claimed)
    unsure = unsure or bool(found)
    first_of = {claim: claims.index(claim) for claim in ("all", "rest") if claim in claims}
    takes_all = first_of.get("all")
    for index, claim in enumerate(claims):
        at = f"edge.{letter(index)}.sides"
        if claim == "all" and takes_all == index:
            taken = [piece for piece in pieces if any(edge < index for edge in piece.edges)]
            owners = sorted({edge for piece in taken for edge in piece.edges if edge < index})
            if first_of.get("rest", index) < index:
                wrong = f"Edge {letter(first_of['rest'])} takes the rest already."
                found.append(Mistake(at, "", wrong, "Name the sides of one of the two."))
            elif taken:
                found.append(_claimed_already(at, [piece.stretch for piece in taken], owners, floor, plan))
        elif takes_all is not None and takes_all < index and claim is not None:
            wrong = f"Edge {letter(takes_all)} takes all sides; nothing is left for edge {letter(index)}."
            found.append(Mistake(at, "", wrong, "Name the sides of each."))
        elif claim == "rest" and first_of["rest"] != index:
            wrong = f"Edge {letter(first_of['rest'])} takes the rest already."
            found.append(Mistake(at, "", wrong, "Name the sides of one of the two."))
        elif claim == "rest" and not unsure and all(piece.edges for piece in pieces):
            wrong = "Nothing is left here: the other edges take all sides."
            found.append(Mistake(at, "", wrong, "Take this edge out, or a side from another."))
        elif isinstance(claim, tuple):
            twice = [p for p in pieces if index in p.edges and (p.edges[0] < index or p.edges.count(index) > 1)]
            if twice:
                owners = sorted({min(piece.edges[0], index) for piece in twice})
                found.append(_claimed_already(at, [p.stretch for p in twice], owners, floor, plan))
    left = _joined([piece.stretch for piece in pieces if not piece.edges])
    if left and claims and not unsure and not first_of:
        wrong = f"No edge takes {_listed([_words(stretch, floor, plan) for stretch in left])}."
        instead = f'Add {"them" if len(left) > 1 else "it"} to an edge, or write sides = "rest" in one.'
        found.append(Mistake("edge", "", wrong, instead))
    yield from found


def _without(names: set[str], claim: Sides | None) -> Sides | None:
    """A claim without the sides whose names were told as mistakes already."""
    return tuple(each for each in claim if each.side not in names) if isinstance(claim, tuple) else claim


def _claimed_already(at: str, stretches: Sequence[Stretch], owners: Sequence[int], floor: Floor, plan: Plan) -> Mistake:
    joined = _joined(stretches)
    said = _listed([_words(stretch, floor, plan) for stretch in joined])
    belongs = "belongs" if len(joined) == 1 else "belong"
    edges = " and ".join(letter(owner) for owner in owners)
    return Mistake(
        at, "", f"{said[:1].upper()}{said[1:]} {belongs} to edge {edges} already.", "Every side has exactly one edge."
    )


def _names(named: Sequence[NamedSide], floor: Floor, found: list[Mistake]) -> dict[str, Place]:
    """The sides by the names that the plan gives them."""
    names: dict[str, Place] = {}
    for number, each in enumerate(named, start=1):
        at = f"plan.side.{number}"
        name = each.name.strip()
        if not name or name in ("all", "rest") or name.isdecimal() or name.startswith("hole."):
            wrong = f'"{each.name}" is no name for a side; it means sides by itself.' if name else "This name is empty."
            found.append(Mistake(f"{at}.name", "", wrong, 'Take words of your own: name = "north wall".'))
            continue
        try:
            places = _places(each.side, floor, {})
        except Mistake as mistake:
            found.append(replace(mistake, at=f"{at}.side"))
            continue
        if len(places) > 1:
            wrong = f"{each.side} is the whole hole; a name is for one side."
            found.append(Mistake(f"{at}.side", "", wrong, f"Write {each.side}.side.1, or take the name out."))
        elif name in names:
            wrong = f"{side_words(*names[name])} is called {name} already."
            found.append(Mistake(f"{at}.name", "", f"{wrong[:1].upper()}{wrong[1:]}", "Give each side its own name."))
        elif places[0] in names.values():
            other = next(known for known, place in names.items() if place == places[0])
            wrong = f"{side_words(*places[0])} is called {other} already."
            found.append(Mistake(f"{at}.side", "", f"{wrong[:1].upper()}{wrong[1:]}", "Keep one of the two names."))
        else:
            names[name] = places[0]
    return names


def _places(side: SideName, floor: Floor, names: Mapping[str, Place]) -> list[Place]:
    """The sides that a number or a name means. Raises Mistake where it means none."""
    count = len(floor.outline.sides)
    if isinstance(side, int):
        if 1 <= side <= count:
            return [(0, side)]
        raise Mistake("", "", _no_such(count, side), "Side 1 runs from corner 1 to corner 2.")
    if side in names:
        return [names[side]]
    hole = _HOLE.fullmatch(side)
    if hole is None:
        if side.isdecimal():
            raise Mistake("", "", f"No side is called {side}.", f"A number stands without quotes: {side}.")
        near = nearest(side, names)
        hint = f"The nearest is {near[0]}. " if near else ""
        wrong = f"No side is called {side}."
        raise Mistake("", "", wrong, f"{hint}Name sides by [[plan.side]], or write their numbers: sides = [1, 2].")
    ring, number = int(hole[1]), int(hole[2] or 0)
    if not 1 <= ring <= len(floor.holes):
        known = {0: "The plan has no hole", 1: "The plan has one hole"}.get(
            len(floor.holes), f"The plan has {len(floor.holes)} holes"
        )
        raise Mistake(
            "", "", f"{known}; there is no hole.{ring}.", "Holes are written as [[plan.hole]], counted from 1."
        )
    count = len(floor.holes[ring - 1].sides)
    if hole[2] is None:
        return [(ring, n) for n in range(1, count + 1)]
    if not 1 <= number <= count:
        wrong = f"Hole {ring} has {count} sides; there is no {side}."
        raise Mistake("", "", wrong, "Side 1 runs from corner 1 of the hole to corner 2.")
    return [(ring, number)]


def _no_such(count: int, side: int) -> str:
    return f"The outline has {count} sides; there is no side {side}."


def _claimed(
    claims: Sequence[Sides | None], floor: Floor, names: Mapping[str, Place], unit: str, found: list[Mistake]
) -> list[tuple[int, Stretch]]:
    """Each stretch that an edge names, with the edge's place in the file; what cannot be told goes to ``found``."""
    told: list[tuple[int, Stretch]] = []
    for index, sides in enumerate(claims):
        at = f"edge.{letter(index)}.sides"
        for number, claim in enumerate(sides if isinstance(sides, tuple) else (), start=1):
            try:
                told += [(index, stretch) for stretch in _stretches(claim, floor, names, unit)]
            except Mistake as mistake:
                found.append(replace(mistake, at=".".join(filter(None, (at, str(number), mistake.at)))))
    return told


def _stretches(claim: Claim, floor: Floor, names: Mapping[str, Place], unit: str) -> list[Stretch]:
    part = claim.start is not None or claim.end is not None
    try:
        places = _places(claim.side, floor, names)
    except Mistake as mistake:
        raise replace(mistake, at="side" if part else "") from None
    if not part:
        return [Stretch(*place, 0.0, floor.side(*place).length) for place in places]
    if len(places) > 1:
        wrong = f"{claim.side} is the whole hole; from and to are for one side."
        raise Mistake("side", "", wrong, f'Write side = "{claim.side}.side.1".')
    whole = floor.side(*places[0]).length
    start = claim.start.si if claim.start is not None else 0.0
    end = claim.end.si if claim.end is not None else whole
    for key, typed in (("from", claim.start), ("to", claim.end)):
        if typed is not None and typed.si > whole + TOGETHER:
            named, long = side_words(*places[0]), length_words(whole, unit)
            wrong = f"{typed.typed} lies beyond the end of {named}, which is {long} long."
            raise Mistake(key, "", wrong, "Both count from the corner where the side begins.")
    start, end = min(start, whole), min(end, whole)
    if end - start <= TOGETHER:
        wrong, instead = "This part of a side has no length.", "from comes before to, along the side as typed."
        raise Mistake("to" if claim.end is not None else "from", "", wrong, instead)
    return [Stretch(*places[0], start, end)]


def _pieces(floor: Floor, claimed: Sequence[tuple[int, Stretch]]) -> list[_Piece]:
    """Every side cut where a claim begins or ends, round the outline and then round each hole."""
    pieces: list[_Piece] = []
    for ring, outline in enumerate(floor.rings):
        for number, side in enumerate(outline.sides, start=1):
            own = [(edge, s) for edge, s in claimed if (s.ring, s.side) == (ring, number)]
            cuts = _cuts([end for _, s in own for end in (s.start, s.end)], side.length)
            for start, end in pairwise(cuts):
                middle = (start + end) / 2.0
                edges = tuple(sorted(edge for edge, s in own if s.start < middle < s.end))
                pieces.append(_Piece(Stretch(ring, number, start, end), edges))
    return pieces


def _cuts(ends: Sequence[float], whole: float) -> list[float]:
    """Where a side is cut, from its start to its end; ends that lie together are one."""
    cuts = [0.0]
    for end in sorted(ends):
        if end - cuts[-1] > TOGETHER and whole - end > TOGETHER:
            cuts.append(end)
    return [*cuts, whole]


def _joined(stretches: Sequence[Stretch]) -> list[Stretch]:
    """Stretches in order, those that follow on one another on the same side as one."""
    joined: list[Stretch] = []
    for each in stretches:
        last = joined[-1] if joined else None
        if last is not None and (last.ring, last.side, last.end) == (each.ring, each.side, each.start):
            joined[-1] = replace(last, end=each.end)
        else:
            joined.append(each)
    return joined


def _words(stretch: Stretch, floor: Floor, plan: Plan) -> str:
    return stretch_words(stretch, floor.side(stretch.ring, stretch.side).length, plan.unit)


def _listed(words: Sequence[str]) -> str:
    """Stretches in words; the numbers of whole sides follow one "sides".

    >>> _listed(["side 2", "side 3", "side 1 of hole 1"]), _listed(["side 2"])
    ('sides 2 and 3, and side 1 of hole 1', 'side 2')
    """
    whole = [word.removeprefix("side ") for word in words if word.removeprefix("side ").isdecimal()]
    others = [word for word in words if not word.removeprefix("side ").isdecimal()]
    if len(whole) == 1:
        others.insert(0, f"side {whole[0]}")
    elif whole:
        sides = f"sides {', '.join(whole[:-1])} and {whole[-1]}"
        return f"{sides}, and {_listed(others)}" if others else sides
    return f"{', '.join(others[:-1])} and {others[-1]}" if len(others) > 1 else "".join(others)
