"""One act done to a plan: the sketch of it before, the sketch of it after."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from ...mistakes import Mistake
from ..corners import NUMBER
from ..kinds import obstacle_size
from ..paths import letter
from . import acts, claims, shape
from .figures import Figure, figure, step_words, written
from .sketch import Part, Ring, Sketch, Spot, Standing, spot_of

MOST_CORNERS = 400  # of one outline
MOST_HOLES = 100
MOST_OBSTACLES = 500


@dataclass(frozen=True, slots=True)
class Drawn:
    """A plan, and the corners of an outline that is not closed yet."""

    sketch: Sketch
    chain: tuple[Spot, ...]
    new_edge_like: int | None = None  # an edge was added at the end, like this one
    edge_gone: int | None = None  # this one was taken out


def done(sketch: Sketch, chain: tuple[Spot, ...], act: acts.Act, step: str, lengths: claims.Lengths) -> Drawn:
    """The plan after an act.

    Parameters
    ----------
    sketch : Sketch
        The plan before it.
    chain : tuple of Spot
        Corners of an outline that is being drawn.
    act : Act
        What is done.
    step : str
        The snap, "6 in"; a bare number is in the plan's unit.
    lengths : mapping of (ring, side) to Fraction
        Lengths of the sides before the act. [m]

    Raises
    ------
    Mistake
        It cannot be done; nothing has changed.
    """
    stride = read_step(step, sketch.unit)
    doing = _Doing(sketch, chain, stride, lengths)
    found = doing.done(act)
    if found.edge_gone is not None:
        return found
    bare = claims.left_bare(sketch, found.sketch, lengths if isinstance(act, acts.Give) else {})
    if bare:
        wrong = f"This is all that edge {bare} has."
        raise Mistake(f"edge.{bare}.sides", "", wrong, "Give it another side first, or take the edge out of the brief.")
    return found


def read_step(step: str, unit: str) -> Fraction:
    """The snap's step. [m] Raises Mistake where the words are none."""
    stride = step_words(step, unit)
    if not Fraction(1, 1000) <= stride <= 100:
        raise Mistake("step", step, "The snap goes by steps of 1 mm to 100 m.", 'Write "6 in", "1 ft" or "100 mm".')
    return stride


@dataclass(frozen=True, slots=True)
class _Doing:
    sketch: Sketch
    chain: tuple[Spot, ...]
    stride: Fraction
    lengths: claims.Lengths

    def done(self, act: acts.Act) -> Drawn:
        match act:
            case acts.AddNext():
                return self._next(act)
            case acts.Close():
                return self._closed(act.becomes)
            case acts.MoveCorner(ring=ring, corner=corner):
                spot = self.sketch.spot(ring, corner)
                to = self._where(act.to, self._unit(ring))
                return self._ring(ring, corner, spot.at(to.x, to.y))
            case acts.AddCorner():
                return self._added(act)
            case acts.TakeCorner(ring=ring, corner=corner):
                return self._taken(ring, corner)
            case acts.MoveSide(ring=ring, side=side):
                self.sketch.spot(ring, side)
                to = self._where(act.to, self._unit(ring))
                return self._shaped(ring, shape.side_moved(self.sketch.rings[ring], side, to))
            case acts.PushSide(ring=ring, side=side):
                self.sketch.spot(ring, side)
                return self._shaped(ring, self._pushed(ring, side, act.steps))
            case acts.SetLength(ring=ring, side=side):
                self.sketch.spot(ring, side)
                long = figure(act.typed, self._unit(ring))
                return self._shaped(ring, shape.of_length(self.sketch.rings[ring], side, long))
            case acts.Bend(ring=ring, side=side):
                return self._bent(act, self.sketch.spot(ring, side))
            case acts.TakeHole(ring=ring):
                self.sketch.spot(ring, 1)
                rings = tuple(each for n, each in enumerate(self.sketch.rings) if n != ring)
                return self._kept(claims.without_hole(replace(self.sketch, rings=rings), ring))
            case acts.Stand():
                return self._stood(act)
            case acts.MoveObstacle(number=number):
                old = self._obstacle(number)
                to = self._where(act.to, old.unit)
                return self._obstacles(number, replace(old, at=old.at.at(to.x, to.y)))
            case acts.SizeObstacle(number=number):
                size = self._size(act.size)
                return self._obstacles(number, replace(self._obstacle(number), size=size))
            case acts.TakeObstacle(number=number):
                self._obstacle(number)
                left = tuple(each for n, each in enumerate(self.sketch.obstacles, start=1) if n != number)
                return self._kept(replace(self.sketch, obstacles=left))
            case acts.Name(ring=ring, side=side):
                self.sketch.spot(ring, side)
                return self._kept(claims.renamed(self.sketch, ring, side, act.typed.strip()))
            case acts.Give():
                return self._given(act)
            case acts.TakeEdge(edge=word):
                gone = claims.edge_called(self.sketch, word)
                others = (*self.sketch.edges[:gone], *self.sketch.edges[gone + 1 :])
                return replace(self._kept(replace(self.sketch, edges=others)), edge_gone=gone)

    def _next(self, act: acts.AddNext) -> Drawn:
        if len(self.chain) >= MOST_CORNERS:
            raise _too_many(MOST_CORNERS)
        spot = self._where(act.at, self.sketch.unit)
        if act.long.strip():
            if not self.chain:
                raise Mistake("plan.outline", act.long, "A length from where?", "Set the first corner, then type.")
            spot = shape.along(self.chain[-1], spot, figure(act.long, self.sketch.unit), self.sketch.unit)
        if self.chain and spot.point == self.chain[-1].point:
            raise Mistake("plan.outline", "", "This corner lies on the last one.", "Move on, then set it.")
        return Drawn(self.sketch, (*self.chain, spot))

    def _closed(self, becomes: str) -> Drawn:
        chain = self.chain
        if len(chain) > 1 and chain[0].point == chain[-1].point:
            chain = chain[:-1]
        if len(chain) < 3:
            raise Mistake("plan.outline", "", f"{len(chain)} corners enclose nothing.", "Set at least three.")
        if becomes == "outline":
            return Drawn(self.sketch.with_spots(0, chain), ())
        if len(self.sketch.rings) > MOST_HOLES:
            raise Mistake("plan.hole", "", f"The plan has {MOST_HOLES} holes already.", "Draw some of them as one.")
        if not self.sketch.rings[0].spots:
            raise Mistake("plan.hole", "", "There is no floor to make a hole in.", "Draw the outline first.")
        rings = (*self.sketch.rings, Ring(self.sketch.unit, chain))
        return Drawn(replace(self.sketch, rings=rings), ())

    def _added(self, act: acts.AddCorner) -> Drawn:
        self.sketch.spot(act.ring, act.side)
        ring = self.sketch.rings[act.ring]
        if len(ring.spots) >= MOST_CORNERS:
            raise _too_many(MOST_CORNERS)
        distance = None if act.steps is None else act.steps * self.stride
        spot, far = shape.on_side(ring, act.side, distance)
        spots = (*ring.spots[: act.side], spot, *ring.spots[act.side :])
        return self._kept(claims.split(self.sketch.with_spots(act.ring, spots), act.ring, act.side, far))

    def _taken(self, ring: int, corner: int) -> Drawn:
        self.sketch.spot(ring, corner)
        spots = self.sketch.rings[ring].spots
        if len(spots) <= 3:
            instead = "Take the whole hole out." if ring else "Draw the outline anew."
            raise Mistake("plan.outline", "", "Two corners enclose nothing.", instead)
        before, spot, after = spots[corner - 2], spots[corner - 1], spots[corner % len(spots)]
        first = corner - 1 or len(spots)
        on = shape.straight_on(before, spot, after)
        told = claims.merged(self.sketch, ring, first, self.lengths, straight_on=on)
        left = [each for each in spots if each is not spot]
        if before.bend:
            left[left.index(before)] = before.bent("")
        return self._kept(told.with_spots(ring, tuple(left)))

    def _bent(self, act: acts.Bend, spot: Spot) -> Drawn:
        unit = self._unit(act.ring)
        words = act.typed.strip()
        if act.steps:
            words = shape.bow_words(act.steps * self.stride, unit)
        elif NUMBER.fullmatch(words):
            words = f"rise {words}"
        if words:
            spot_of(f"0 0 {words}", unit)
        return self._ring(act.ring, act.side, spot.bent(words))

    def _pushed(self, ring: int, side: int, steps: int) -> Ring:
        old = self.sketch.rings[ring]
        out = 1 if (shape.turned_area(old.spots) >= 0) == (ring == 0) else -1
        return shape.side_moved(old, side, shape.pushed(old, side, out * steps * self.stride))

    def _stood(self, act: acts.Stand) -> Drawn:
        if len(self.sketch.obstacles) >= MOST_OBSTACLES:
            wrong = f"The plan has {MOST_OBSTACLES} obstacles already."
            raise Mistake("plan.obstacle", "", wrong, "Leave out those that are in nobody's way.")
        at = self._where(act.at, self.sketch.unit)
        new = Standing(self.sketch.unit, act.kind, at, self._size(act.size))
        return self._kept(replace(self.sketch, obstacles=(*self.sketch.obstacles, new)))

    def _size(self, typed: str) -> str:
        """A size with its unit; a bare number takes the plan's."""
        from pydantic_core import PydanticCustomError

        words = f"{typed.strip()} {self.sketch.unit}" if NUMBER.fullmatch(typed.strip()) else typed.strip()
        try:
            obstacle_size(words)
        except PydanticCustomError as error:
            (mistake,) = (error.context or {})["mistakes"]
            raise replace(mistake, at="plan.obstacle", typed=typed) from None
        return words

    def _given(self, act: acts.Give) -> Drawn:
        self.sketch.spot(act.ring, act.side)
        unit = self._unit(act.ring)
        part = Part(act.ring, act.side, _end(act.start, unit), _end(act.end, unit))
        edges = self.sketch.edges
        if act.edge == letter(len(edges)) and edges:
            like = claims.owner(self.sketch, part, self.lengths)
            new = claims.given(claims.with_another_edge(self.sketch), act.edge, part, self.lengths)
            return Drawn(new, self.chain, like if like is not None else 0)
        return self._kept(claims.given(self.sketch, act.edge, part, self.lengths))

    def _where(self, where: acts.Where, unit: str) -> Spot:
        if isinstance(where, acts.Square):
            corner, before = self._corner(where.ring, where.corner), self._corner(where.ring, where.before)
            return shape.square(corner, before, where.steps * self.stride, unit)
        return Spot(self._coordinate(where.x, "x", unit), self._coordinate(where.y, "y", unit))

    def _coordinate(self, said: acts.Coordinate, axis: str, unit: str) -> Figure:
        match said:
            case acts.OnGrid(steps=steps):
                return written(steps * self.stride, unit)
            case acts.InLine(ring=ring, corner=corner):
                spot = self._corner(ring, corner)
                known = spot.x if axis == "x" else spot.y
                own = self.sketch.unit if ring < 0 else self._unit(ring)
                return known if own == unit or not known.bare else written(known.metres, unit)
        return figure(said.typed, unit)

    def _corner(self, ring: int, corner: int) -> Spot:
        if ring >= 0:
            return self.sketch.spot(ring, corner)
        if corner > len(self.chain):
            raise Mistake("plan.outline", "", f"There is no corner {corner} yet.", "Set it first.")
        return self.chain[corner - 1]

    def _unit(self, ring: int) -> str:
        return self.sketch.rings[ring].unit if ring < len(self.sketch.rings) else self.sketch.unit

    def _ring(self, ring: int, corner: int, spot: Spot) -> Drawn:
        spots = list(self.sketch.rings[ring].spots)
        spots[corner - 1] = spot
        return self._kept(self.sketch.with_spots(ring, tuple(spots)))

    def _shaped(self, ring: int, new: Ring) -> Drawn:
        return self._kept(self.sketch.with_spots(ring, new.spots))

    def _obstacle(self, number: int) -> Standing:
        if number > len(self.sketch.obstacles):
            raise Mistake("plan.obstacle", "", f"There is no obstacle {number}.", "Obstacles are counted from 1.")
        return self.sketch.obstacles[number - 1]

    def _obstacles(self, number: int, new: Standing) -> Drawn:
        listed = list(self.sketch.obstacles)
        listed[number - 1] = new
        return self._kept(replace(self.sketch, obstacles=tuple(listed)))

    def _kept(self, sketch: Sketch) -> Drawn:
        return Drawn(sketch, self.chain)


def chain_of(words: Sequence[str], unit: str) -> tuple[Spot, ...]:
    """The corners of what is being drawn. Raises Mistake where one cannot be read, or there are too many."""
    if len(words) > MOST_CORNERS:
        raise _too_many(MOST_CORNERS)
    return tuple(spot_of(typed, unit) for typed in words)


def _end(words: str, unit: str) -> Figure | None:
    """An end of a part of a side, with a unit beside it; None where none was typed."""
    if not words.strip():
        return None
    end = figure(words, unit)
    return Figure(f"{end.words} {unit}", end.metres) if end.bare else end


def _too_many(most: int) -> Mistake:
    wrong = f"An outline drawn here has at most {most} corners."
    return Mistake("plan.outline", "", wrong, "Take an arc for a row of short sides.")
