"""Loads on the slab in numbers: what each presses with, on which patches, where, and for how long."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import atan2, cos, hypot, pi, sin, sqrt
from typing import Literal

from ..brief.loads import ANCHORED, ANYWHERE, edge_called, ends_of, like_of, on_the_slab, place_of
from ..brief.model import Brief
from ..brief.tables.load import Load
from ..catalogue.records import NamedLoad, Quantity
from ..findings import Assumed
from ..measure import Measure, System, say
from ..mistakes import Mistake
from ..outlines.floor import Floor
from ..outlines.side import Point
from .assumptions import Assumptions
from .usual import usual

KILO = 1000.0
ENDLESS = 12.0  # m, a line of load of which no end is told
SIDES = 2.0  # a pair of tyres is about twice as wide across as along
ROLLING = ("wheel", "axle", "vehicle")
PASSING = (*ROLLING, "lift", "animals", "before-pour")  # unless a usual load or the brief says otherwise

Place = Literal["middle", "edge", "corner", "plan", "everywhere"]
Ring = tuple[Point, ...]
WHERE = {
    "middle": "in the middle of the floor",
    "edge": "at an edge",
    "corner": "in a corner",
    "plan": "where it stands on the plan",
    "everywhere": "all over the floor",
}


@dataclass(frozen=True, slots=True)
class Patch:
    """An even pressure on a part of the slab, seen from the load's middle."""

    outline: Ring  # m
    pressure: float  # Pa


@dataclass(frozen=True, slots=True)
class Pad:
    """A part of the slab that is thicker below a load, seen from the load's middle."""

    outline: Ring  # m
    thickness: float  # m, the slab's own with it
    words: str  # "4 ft x 4 ft, 10 in thick"
    paths: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ResolvedLoad:
    """One load on the slab."""

    number: str  # "1", as the brief counts
    kind: str
    words: str  # "Rack post, 6500 lb (28 913 N) on 6 in x 6 in"
    path: str  # "load.1"
    standing: bool  # for years; else it comes and goes
    place: Place
    at: Point | None  # its middle on the plan, m
    edge: str  # the edge it stands at, by its letter or name; "" where none is named
    patches: tuple[Patch, ...]  # () where it lies everywhere, or where something is missing
    pressure: float | None  # Pa, where it lies everywhere
    force: float  # N of the heaviest patch; 0 where it lies everywhere or is not known
    length: float  # m, of a line of load; 0 of anything else
    missing: str  # "load.1.plate"; "" where nothing is
    rests_on: tuple[str, ...]
    pad: Pad | None = None
    anchor_depth: float | None = None  # m, of the holes for its anchors; None where it is not told
    anchors: str = ""  # the same in words
    sideways: float = 0.0  # N, what it pushes sideways with
    anywhere: bool = False  # whether it may come to any place of the floor
    factored: float = 0.0  # what the typed force was multiplied by, taken out of it here; 0 where it was not

    @property
    def where(self) -> str:
        """ "in the middle of the floor", "at edge B" """
        return f"at edge {self.edge}" if self.place == "edge" and self.edge else WHERE[self.place]

    @property
    def before_pour(self) -> bool:
        """Whether it stands on the bare foam."""
        return self.kind == "before-pour"


def slab_loads(
    brief: Brief, letters: Sequence[str], floor: Floor, system: System, assumed: Assumptions, found: list[Mistake]
) -> tuple[ResolvedLoad, ...]:
    """Every load on the slab; what hangs over the edge of the floor is told in ``found``."""
    names = [edge.name for edge in brief.edge]
    made = []
    for number, load, kind in on_the_slab(brief.load):
        one = _Reader(load, kind, f"load.{number}", system, assumed).read(brief.plan.unit, letters, names)
        found += _hanging_over(one, load, floor, system)
        made.append(one)
    return tuple(made)


@dataclass(frozen=True)
class _Reader:
    """One load being read: what is typed goes before the usual load that it is like, and that before what is usual."""

    load: Load
    kind: str
    path: str
    system: System
    assumed: Assumptions

    @property
    def like(self) -> NamedLoad | None:
        return like_of(self.load)

    def read(self, unit: str, letters: Sequence[str], names: Sequence[str | None]) -> ResolvedLoad:
        place, at, edge = self._place(unit, letters, names)
        one = ResolvedLoad(
            number=self.path.rpartition(".")[2],
            kind=self.kind,
            words="",
            path=self.path,
            standing=self._standing(),
            place=place,
            at=at,
            edge=edge,
            patches=(),
            pressure=None,
            force=0.0,
            length=0.0,
            missing="",
            rests_on=(self.path,),
            pad=self._pad(),
            anchor_depth=self._number("anchor-depth", self.load.anchor_depth, None) if self.kind in ANCHORED else None,
            sideways=self.load.sideways.si if self.load.sideways is not None else 0.0,
            anchors=say.typed(self.load.anchor_depth, "m", self.system) if self.load.anchor_depth else "",
            anywhere=self.load.at == ANYWHERE,
            factored=self.load.factored or 0.0,
        )
        if self.kind == "line":
            return self._line(one, unit)
        if self.kind in ROLLING or self._tyred():
            return self._rolling(one)
        return self._borne(one)

    def _tyred(self) -> bool:
        """Whether something before the pour rolls."""
        return self.load.tyre is not None or bool(self.like and self.like.tyre)

    def _place(self, unit: str, letters: Sequence[str], names: Sequence[str | None]) -> tuple[Place, Point | None, str]:
        load = self.load
        if load.everywhere:
            return "everywhere", None, ""
        if (ends := ends_of(load, unit)) is not None:
            (x0, y0), (x1, y1) = ends
            return "plan", ((x0 + x1) / 2.0, (y0 + y1) / 2.0), ""
        if load.at is None:
            if self._all_over():
                why = "an even load of which no size is told (common practice, no source)"
                self.assumed.take_word(Assumed(f"{self.path}.everywhere", "true", None, None, "1", why))
                return "everywhere", None, ""
            why = "no place is told; at an edge or in a corner the slab feels far more (common practice, no source)"
            self.assumed.take_word(Assumed(f"{self.path}.at", "middle", None, None, "1", why))
            return "middle", None, ""
        if load.at == ANYWHERE:
            return "middle", None, ""  # the worst places are looked at besides
        for word in ("middle", "edge", "corner"):
            if load.at == word:
                return word, None, ""
        named = edge_called(load.at, names)
        if named is not None:
            return "edge", None, letters[named]
        return "plan", place_of(load, unit), ""

    def _all_over(self) -> bool:
        """An even pressure without a plate lies all over the floor."""
        even = self.load.pressure is not None or bool(self.like and self.like.pressure)
        return even and self.load.plate is None and self.load.force is None and not (self.like and self.like.plate)

    def _standing(self) -> bool:
        if self.load.how_long is not None:
            return self.load.how_long == "standing"
        stands = self.like.standing if self.like is not None else self.kind not in PASSING
        said = "stands for years" if stands else "comes and goes"
        what = self.like.label if self.like is not None else self.kind.replace("-", " ")
        why = f"{what}: it {said} (common practice, no source)"
        word = "standing" if stands else "passing"
        self.assumed.take_word(Assumed(f"{self.path}.how-long", word, None, None, "1", why))
        return stands

    def _usual(self, key: str, quantity: Quantity | None) -> float | None:
        """A number of the usual load, listed as assumed where it may be otherwise; in the unit of the catalogue."""
        if quantity is None:
            return None
        if quantity.low == quantity.high:
            return quantity.value
        assert self.like is not None
        why = f"as {self.like.key}: {quantity.where}"
        return self.assumed.take(
            Assumed(f"{self.path}.{key}", quantity.value, quantity.low, quantity.high, quantity.unit, why)
        )

    def _number(self, key: str, typed: Measure | None, quantity: Quantity | None, times: float = 1.0) -> float | None:
        """As typed, as the usual load has it, or as it is tried where it is missing. SI."""
        if typed is not None:
            multiplied = self.load.factored if key in ("force", "pressure") else None
            return typed.si / (multiplied or 1.0)
        usual_one = self._usual(key, quantity)
        if usual_one is not None:
            return usual_one * times
        tried = self.assumed.missing(f"{self.path}.{key}")
        return None if tried is None else tried * times

    def _force(self) -> float:
        """[N], or of a line [N/m]"""
        like = self.like
        usual_one = None if like is None else like.line_force if self.kind == "line" else like.force
        found = self._number("force", self.load.force, usual_one, KILO if self.kind == "line" else 1.0)
        return 0.0 if found is None else found

    def _said_force(self, force: float) -> str:
        unit = "kN/m" if self.kind == "line" else "N"
        if self.load.force is not None:
            return say.typed(self.load.force, unit, self.system) + self._multiplied()
        return say.both(force / KILO if self.kind == "line" else force, unit, self.system)

    def _multiplied(self) -> str:
        return f" with factor {self.load.factored:g}" if self.load.factored else ""

    def _name(self) -> str:
        if self.like is not None:
            return f"{self.like.label[0].upper()}{self.like.label[1:]}"
        return {"before-pour": "Before the pour", "line": "Line of load", "uniform": "Even load"}.get(
            self.kind, self.kind.replace("-", " ").capitalize()
        )

    def _plate(self) -> tuple[Ring, str] | None:
        """What it bears on, round its middle, and how that is said; None where nobody says it."""
        if self.load.plate is not None:
            sizes = [size.si for size in self.load.plate.sizes]
            words = self.load.plate.typed
            if len(sizes) == 1:
                return _round(sizes[0]), f"{words} round"
            return _box(sizes[0], sizes[1]), words
        side = self._number("plate", None, self.like.plate if self.like is not None else None)
        if side is None:
            return None
        said = say.both(side, "m", self.system)
        return _box(side, side), f"{said} square"

    def _pad(self) -> Pad | None:
        pad, thickness = self.load.pad, self.load.pad_thickness
        if pad is None or thickness is None:
            return None
        words = f"{pad.typed}, {say.typed(thickness, 'm', self.system)} thick"
        paths = (f"{self.path}.pad", f"{self.path}.pad-thickness")
        return Pad(_box(pad.sizes[0].si, pad.sizes[-1].si), thickness.si, words, paths)

    def _rolling(self, one: ResolvedLoad) -> ResolvedLoad:
        force, whole = self._force(), self._said_force_of_rolling()
        if self.kind == "vehicle":
            force *= self._heavier_axle()
        pairs, sides = self._wheels()
        each = force / pairs
        pressed = self._contact(each, sides)
        if pressed is None:
            return replace(one, words=whole, force=each, missing=f"{self.path}.tyre")
        outline, pressure, on = pressed
        track = self._track() if pairs > 1 else 0.0
        places = [((n - (pairs - 1) / 2.0) * track, 0.0) for n in range(pairs)]
        patches = tuple(Patch(_moved(outline, place), pressure) for place in places)
        apart = f", {say.both(track, 'm', self.system)} apart" if pairs > 1 else ""
        count = f"{pairs} wheels" if pairs > 1 and sides == 1 else "2 pairs of wheels" if pairs > 1 else "a wheel"
        return replace(one, words=f"{whole}: {count}{apart}, {on}", force=each, patches=patches)

    def _said_force_of_rolling(self) -> str:
        return f"{self._name()}, {self._said_force(self._force())}"

    def _heavier_axle(self) -> float:
        if self.load.heavier_axle is not None:
            return self.load.heavier_axle.si
        share = usual("heavier-axle")
        taken = Assumed(
            f"{self.path}.heavier-axle",
            100.0 * share.value,
            100.0 * share.low,
            100.0 * share.high,
            "%",
            f"{share.where} (common practice, no source)",
        )
        return self.assumed.take(taken) / 100.0

    def _wheels(self) -> tuple[int, int]:
        """How many contacts lie side by side, and how many wheels there are in each."""
        if self.kind == "wheel":
            return 1, 1
        if self.load.wheels is not None:
            return (1, 1) if self.load.wheels == 1 else (2, self.load.wheels // 2)
        if self.like is not None and self.like.wheels is None:
            return 1, 1
        if self.like is None and self.kind != "before-pour":
            why = "one wheel each side (common practice, no source)"
            self.assumed.take_word(Assumed(f"{self.path}.wheels", "2", None, None, "1", why))
        return (1, 1) if self.like is None and self.kind == "before-pour" else (2, 1)

    def _track(self) -> float:
        found = self._number("track", self.load.track, self.like.track if self.like is not None else None)
        return found if found is not None else self.assumed.take(usual("track").assumed(f"{self.path}.track"))

    def _contact(self, force: float, wheels: int) -> tuple[Ring, float, str] | None:
        """Outline, pressure and words of one contact; None where neither tyre nor plate is known."""
        tyred = self.load.plate is None and (self.load.tyre is not None or not (self.like and self.like.plate))
        if not tyred:
            plate = self._plate()
            assert plate is not None
            return plate[0], force / _area(plate[0]), f"each on {plate[1]}"
        tyre = self._number("tyre", self.load.tyre, self.like.tyre if self.like is not None else None, KILO)
        if tyre is None:
            return None
        long = sqrt(force / tyre / (SIDES if wheels > 1 else 1.0))
        wide = force / tyre / long
        said = (
            say.typed(self.load.tyre, "kPa", self.system)
            if self.load.tyre is not None
            else say.both(tyre / KILO, "kPa", self.system)
        )
        return _box(wide, long), tyre, f"tyre {said}"

    def _borne(self, one: ResolvedLoad) -> ResolvedLoad:
        """Posts, tanks, feet and areas of load."""
        like, load = self.like, self.load
        pressure = None
        if load.force is None and (load.pressure is not None or (like is not None and like.pressure is not None)):
            pressure = self._number("pressure", load.pressure, like.pressure if like is not None else None, KILO)
        said = self._name()
        if pressure is not None:
            typed = load.pressure
            shown = say.typed(typed, "kPa", self.system) + self._multiplied() if typed is not None else ""
            said = f"{said}, {shown or say.both(pressure / KILO, 'kPa', self.system)}"
        if one.place == "everywhere":
            return replace(one, words=f"{said} all over the floor", pressure=pressure)
        force = 0.0
        if pressure is None:
            force = self._force()
            said = f"{said}, {self._said_force(force)}"
        plate = self._plate()
        if plate is None:
            return replace(one, words=said, force=force, missing=f"{self.path}.plate")
        outline, on = plate
        force = force if pressure is None else pressure * _area(outline)
        row = self._row(one.place)
        patches = tuple(Patch(_moved(outline, (along, 0.0)), force / _area(outline)) for along in row)
        more = f", {len(row)} in a row" if len(row) > 1 else ""
        if one.pad is not None:
            more = f"{more}, over a pad of {one.pad.words}"
        return replace(one, words=f"{said} on {on}{more}", force=force, patches=patches)

    def _row(self, place: Place) -> list[float]:
        """Where along the row each stands; in a corner the first stands in it."""
        count = self.load.count or 1
        apart = 0.0
        if count > 1:
            apart = self._number("spacing", self.load.spacing, self.like.spacing if self.like else None) or 0.0
        first = 0.0 if place == "corner" else -(count // 2) * apart
        return [first + n * apart for n in range(count)]

    def _line(self, one: ResolvedLoad, unit: str) -> ResolvedLoad:
        force = self._force()
        if self.load.plate is not None:
            width = self.load.plate.sizes[0].si
        else:
            usual_one = self.like.plate if self.like is not None else None
            width = self._usual("plate", usual_one) or self.assumed.take(
                usual("line-width").assumed(f"{self.path}.plate")
            )
        ends = ends_of(self.load, unit)
        length, turn = ENDLESS, 0.0
        if ends is not None:
            (x0, y0), (x1, y1) = ends
            length, turn = hypot(x1 - x0, y1 - y0), atan2(y1 - y0, x1 - x0)
        apart = self.load.spacing.si if self.load.spacing is not None else 0.0
        count = self.load.count or 1
        strips = [_moved(_box(length, width), (0.0, (n - count // 2) * apart)) for n in range(count)]
        patches = tuple(Patch(_turned(strip, turn), force / width) for strip in strips)
        words = f"{self._name()}, {self._said_force(force)}"
        if count > 1:
            words += f", {count} side by side"
        return replace(one, words=words, force=force * length, length=length, patches=patches)


def _box(along: float, across: float) -> Ring:
    x, y = along / 2.0, across / 2.0
    return ((-x, -y), (x, -y), (x, y), (-x, y))


def _round(diameter: float) -> Ring:
    """A square of the same area: what a slab feels of the two differs by a part in a hundred."""
    side = diameter * sqrt(pi) / 2.0
    return _box(side, side)


def _moved(ring: Ring, by: Point) -> Ring:
    return tuple((x + by[0], y + by[1]) for x, y in ring)


def _turned(ring: Ring, by: float) -> Ring:
    return tuple((x * cos(by) - y * sin(by), x * sin(by) + y * cos(by)) for x, y in ring)


def _area(ring: Ring) -> float:
    pairs = zip(ring, (*ring[1:], ring[0]), strict=True)
    return abs(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs)) / 2.0


def _hanging_over(one: ResolvedLoad, load: Load, floor: Floor, system: System) -> Iterator[Mistake]:
    """A load of which a part lies beside the floor, or that is larger than the floor."""
    if one.at is not None and floor.holds(one.at):
        x, y = one.at
        rings = [patch.outline for patch in one.patches] + ([one.pad.outline] if one.pad is not None else [])
        corners = [(x + dx, y + dy) for ring in rings for dx, dy in ring]
        over = [corner for corner in corners if not _on(floor, corner)]
        if over:
            reach = say.both(max(_beyond(floor, corner) for corner in over), "m", system)
            wrong = f"This load reaches {reach} over the edge of the floor."
            key = "at" if load.at is not None else "to"
            instead = 'Move it in; for one that touches the edge write at = "edge" or at = "corner".'
            yield Mistake(f"{one.path}.{key}", "", wrong, instead)
    elif one.at is None and sum(_area(patch.outline) for patch in one.patches) > floor.area and one.length == 0.0:
        wrong = f"{load.plate.typed if load.plate else 'This load'} is larger than the floor."
        yield Mistake(f"{one.path}.plate", "", wrong, "Write the size of what it stands on, or everywhere = true.")


def _on(floor: Floor, corner: Point) -> bool:
    """Whether a corner lies on the floor or at its very edge."""
    return floor.holds(corner) or _beyond(floor, corner) < 1e-3


def _beyond(floor: Floor, point: Point) -> float:
    """How far a point lies from the nearest side of the floor. [m]"""
    return min(side.distance(point) for ring in floor.rings for side in ring.sides)
