"""Fan, pipe and floor over the flow: where the fan's curve meets what the others take, at both ends of the doubt."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from ..checks.soil_gas.drawn_off import FanAndFloor, Needed, Points
from ..measure import say
from ..measure.table import System
from . import colours
from .lettering import CAPITAL, HEADING, LETTER, wrapped
from .lettering import width as breadth
from .levels import levels, written
from .paper import BOLD, FINE, HAIR, INK, LINE, Box, dot, letters, line, mm, path, picture, rectangle, stroke

TITLE = "Fan, pipe and floor"
HIGH = 62.0  # mm, of the field
LEFT = 13.0  # mm, for the numbers at its side
LEAD = LETTER * 1.25
ROOM = 1.04  # of the largest flow and the largest suction that are drawn
RING = 1.5  # mm, radius of the ring round the working point
DASHES = {"usual": "", "least": ' stroke-dasharray="2.4 1.2"', "most": ' stroke-dasharray="2.4 1.2"'}
CALLED = {"soil-gas.stone.permeability": "stone", "soil-gas.permeability": "ground"}


def fan_curves(of: FanAndFloor, system: System, *, width: float) -> str:
    """Suction over flow: the fan's curve, what floor and pipe take, and where they meet.

    Parameters
    ----------
    of : FanAndFloor
        The usual case first.
    system : str
        "US" or "SI", in which values are written.
    width : float
        Breadth of the picture. [mm]

    Returns
    -------
    str
        An SVG document that stands alone. A usual fan's curve is dotted, since nobody typed it.
    """
    body, high = fan_rows(of, system, width=width)
    words = fan_in_words(of, system)
    return picture(wide=width, high=high, title=TITLE, description=words, defs=(), body=[body])


def fan_rows(of: FanAndFloor, system: System, *, width: float) -> tuple[str, float]:
    """What is drawn in the picture, and how high it is, for a sheet that has more on it. [mm]"""
    plot = _Plot(of, system, width)
    theme = colours.light()
    body = [letters(0.0, HEADING * CAPITAL + 1.0, TITLE, size=HEADING, weight=600), *plot.net(theme["rule"])]
    if len(of.needed) == 3:
        body.append(plot.between(of, theme["shade"]))
    body.append(plot.drawn(of.pipe, FINE, ' stroke-dasharray="0.8 1.1"'))
    for each in of.needed:
        body.append(plot.drawn(each.curve, BOLD if each.of == "usual" else LINE, DASHES[each.of]))
    dotted = ' stroke-dasharray="0.3 1.3" stroke-linecap="round"'
    body.append(plot.drawn(of.fan, BOLD, *(("",) if of.typed else (dotted, theme["tell"]))))
    body += [dot(*plot.at(*point), 0.8) for point in of.typed if plot.holds(*point)]
    body += [plot.ring(each) for each in of.needed]
    body += plot.names(of)
    top = plot.foot + 3.4 * LEAD
    for said in wrapped(fan_in_words(of, system), width):
        body.append(letters(0.0, top, said))
        top += LEAD
    return "".join(body), top - LEAD + 1.5


def fan_in_words(of: FanAndFloor, system: System) -> str:
    """What the picture shows, in words."""
    usual = of.needed[0]
    lost = _loss_at(of.pipe, usual.working[0])
    fan = "The fan" if of.typed else "A usual fan, since none is told,"
    words = (
        f"{fan} and the floor meet at {_point(usual.working, system)}; the pipe takes {say.both(lost, 'Pa', system)} "
        "of that."
    )
    ends = {each.of: each.working for each in of.needed}
    if "most" in ends:
        words += f" With {_end(of, 'least')} it is {_point(ends['least'], system)}, "
        words += f"with {_end(of, 'most')} {_point(ends['most'], system)}."
    return words


def _end(of: FanAndFloor, which: str) -> str:
    """What an end of the doubt is: "tight stone and tight ground"."""
    how = {"least": "tight", "most": "open"}[which]
    return " and ".join(f"{how} {CALLED[key]}" for key in of.open_keys)


def _point(working: tuple[float, float], system: System) -> str:
    return f"{say.both(working[0], 'm³/s', system)} and {say.both(working[1], 'Pa', system)}"


def _loss_at(pipe: Points, flow: float) -> float:
    flows, taken = np.array(pipe).T
    return float(np.interp(flow, flows, taken))


class _Plot:
    """The field of the picture: how flow and suction lie on the sheet."""

    def __init__(self, of: FanAndFloor, system: System, width: float) -> None:
        self.system, self.left, self.right = system, LEFT, width - 0.4
        self.top = HEADING * CAPITAL + 1.0 + 2.0 * LEAD
        self.foot = self.top + HIGH
        self.most_flow = ROOM * max(flow for flow, _ in (*of.fan, *(each.working for each in of.needed)))
        self.most = ROOM * max(pull for _, pull in of.fan)
        self.taken: list[Box] = []

    def at(self, flow: float, pull: float) -> tuple[float, float]:
        x = self.left + flow / self.most_flow * (self.right - self.left)
        return x, self.foot - pull / self.most * HIGH

    def holds(self, flow: float, pull: float) -> bool:
        return flow <= self.most_flow and pull <= self.most

    def net(self, colour: str) -> Iterator[str]:
        """Hairlines at round values, with their numbers; the units stand at the ends of the axes."""
        system = self.system
        for unit, most, upright in (("m³/s", self.most_flow, False), ("Pa", self.most, True)):
            one = say.number(1.0, unit, system)
            marks = levels(most * one, 6)
            for mark in marks:
                x, y = self.at(mark / one, 0.0) if not upright else self.at(0.0, mark / one)
                if upright:
                    yield line(self.left, y, self.right, y, HAIR, colour=colour)
                    yield letters(self.left - 1.2, y + CAPITAL * LETTER / 2.0, written(mark, marks), anchor="end")
                else:
                    yield line(x, self.top, x, self.foot, HAIR, colour=colour)
                    yield letters(x, self.foot + LEAD, written(mark, marks), anchor="middle")
        yield line(self.left, self.foot, self.right, self.foot, LINE) + line(
            self.left, self.top, self.left, self.foot, LINE
        )
        yield letters(self.left, self.top - 1.6, f"suction, {say.name('Pa', system)}", colour=colours.light()["note"])
        flow = f"flow, {say.name('m³/s', system)}"
        yield letters(self.right, self.foot + 2.0 * LEAD, flow, anchor="end", colour=colours.light()["note"])

    def drawn(self, points: Points, pen: float, extra: str = "", colour: str = INK) -> str:
        return stroke(
            path([self.at(*each) for each in self.within(points)], closed=False), pen, colour=colour, extra=extra
        )

    def within(self, points: Points) -> Sequence[tuple[float, float]]:
        """The part of a curve that lies in the field, ended where it leaves it."""
        kept: list[tuple[float, float]] = []
        for n, point in enumerate(points):
            if self.holds(*point):
                kept.append(point)
                continue
            if n and self.holds(*points[n - 1]):
                (q0, p0), (q1, p1) = points[n - 1], point
                shares = [(self.most_flow - q0) / (q1 - q0) if q1 > self.most_flow else 1.0]
                shares += [(self.most - p0) / (p1 - p0)] if p1 > self.most else []
                share = min(shares)
                kept.append((q0 + share * (q1 - q0), p0 + share * (p1 - p0)))
            break
        return kept

    def between(self, of: FanAndFloor, colour: str) -> str:
        """The field between both ends of the doubt, up to the fan's curve."""
        ends = {each.of: each for each in of.needed}
        low, high = ends["least"].working[0], ends["most"].working[0]
        there = [*(p for p in ends["least"].curve if p[0] < low), ends["least"].working]
        along = [point for point in of.fan if low < point[0] < high]
        back = [*(p for p in ends["most"].curve if p[0] < high), ends["most"].working]
        ring = [self.at(*point) for point in (*there, *along, *reversed(back))]
        return f'<path d="{path(ring, closed=True)}" fill="{colour}"/>'

    def ring(self, of: Needed) -> str:
        x, y = self.at(*of.working)
        pen = BOLD if of.of == "usual" else LINE
        return f'<circle cx="{mm(x)}" cy="{mm(y)}" r="{RING}" fill="#FFFFFF" stroke="{INK}" stroke-width="{pen:g}"/>'

    def names(self, of: FanAndFloor) -> Iterator[str]:
        """Each curve's name beside it, where it is clear of those before."""
        fan = "fan" if of.typed else "a usual fan, assumed"
        named = [(fan, of.fan, True)]
        named += [
            ("floor and pipe" if each.of == "usual" else _end(of, each.of), each.curve, False) for each in of.needed
        ]
        named.append(("the pipe alone", of.pipe, False))
        self.taken = [Box(x - 3, y - 3, x + 3, y + 3) for x, y in (self.at(*each.working) for each in of.needed)]
        for words, points, above in named:
            places = list(self._beside(words, self.within(points), above))
            free = [each for each in places if not any(each[2].meets(other) for other in self.taken)]
            clear = [each for each in free if self._clear(each[2], of)]
            left, base, box = (clear or free or places)[0]
            self.taken.append(box)
            if not clear:  # curves are broken off round the letters
                yield rectangle(box.left, box.top, box.right - box.left, box.bottom - box.top, colours.light()["leaf"])
            yield letters(left, base, words)

    def _beside(
        self, words: str, points: Sequence[tuple[float, float]], above: bool
    ) -> Iterator[tuple[float, float, Box]]:
        """Places on either side of a curve that lie within the field, the best first."""
        room = breadth(words, LETTER)
        for share in (0.12, 0.85, 0.7, 0.55, 0.4, 0.25) if above else (0.9, 0.75, 0.6, 0.45, 0.3):
            x, y = self.at(*points[min(int(share * len(points)), len(points) - 1)])
            for left in (x + 1.5, x - room - 1.5):
                for base in (y - 1.2, y + LETTER):
                    box = Box(left - 0.8, base - LETTER * CAPITAL - 0.8, left + room + 0.8, base + 0.9)
                    if (
                        box.left > self.left
                        and box.right < self.right
                        and box.top > self.top
                        and box.bottom < self.foot
                    ):
                        yield left, base, box

    def _clear(self, box: Box, of: FanAndFloor) -> bool:
        """Whether no curve goes through a box."""
        for points in (of.fan, of.pipe, *(each.curve for each in of.needed)):
            x, y = np.array([self.at(*each) for each in points]).T
            fine = np.linspace(0.0, len(x) - 1.0, 20 * len(x))
            fx, fy = np.interp(fine, range(len(x)), x), np.interp(fine, range(len(x)), y)
            if ((fx > box.left) & (fx < box.right) & (fy > box.top) & (fy < box.bottom)).any():
                return False
        return True
