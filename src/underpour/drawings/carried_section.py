"""A load on the slab cut through: the build-up below it, how far it goes down, what concrete, foam and ground feel."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..checks.bearing import Around, Borne, Share
from ..measure import say
from ..measure.table import System
from ..physics.plates.spread_out import SlabField
from . import colours, hatch
from .airs import bar_breadth, scale_bar
from .carried_words import section_in_words, worst_place
from .lettering import CAPITAL, HEADING, LETTER, cut_to, wrapped
from .paper import BOLD, FINE, HAIR, HEAVY, INK, LINE, Frame, letters, line, mm, path, picture, rectangle, stroke

REACH = 2.2  # m of floor to each side of the worst place, at most
NAMES = 60.0  # mm at the right, for the layers' names and the charts' words
CHART = 17.0  # mm high
BETWEEN = 7.5  # mm between charts
GROUND = 5.0  # mm of ground drawn below the build-up
THIN = 1.4  # mm, a layer is drawn no thinner
SEEN = 2.2  # times what is felt: a limit further off than that is told in words alone
ROW = LETTER * 1.25  # mm
STEPS = 240  # places along the cut


@dataclass(frozen=True, slots=True)
class _Curve:
    """One line of a chart."""

    values: NDArray[np.float64]  # Pa or m, along the cut
    name: str
    dashed: bool = False


@dataclass(frozen=True, slots=True)
class _Chart:
    """What is drawn of one quantity below the section."""

    title: str
    curves: tuple[_Curve, ...]
    limits: tuple[tuple[float, str], ...]  # in the curves' unit, with words
    downwards: bool
    said: Callable[[float], str]


def carried_section(borne: Borne, system: System, *, width: float) -> str:
    """The cut through the worst place below one load, and along it settlement, tension and pressure.

    Parameters
    ----------
    borne : Borne
        A load that has been worked out.
    system : str
        "US" or "SI", in which values are written.
    width : float
        Breadth of the picture. [mm]

    Returns
    -------
    str
        An SVG document that stands alone. The build-up is to one scale both ways; the charts below it stand on its
        horizontal scale, each with the limit that it is held to as a dashed line.
    """
    around = borne.around
    assert around is not None
    cut = _Cut(around)
    frame = Frame(0.4, 0.0, (cut.x0, cut.x1, 0.0, 1.0), (width - NAMES) / (cut.x1 - cut.x0))
    base, bar = HEADING * CAPITAL + 1.0, bar_breadth(frame.scale, system)
    name = f"Load {borne.number} cut through"
    body = [
        letters(0.0, base, cut_to(name, width - bar - 4.0, HEADING, 600), size=HEADING, weight=600),
        scale_bar(width - 0.4, base, frame.scale, system),
    ]
    top = base + 2.0
    for said in wrapped(f"{borne.words}{', ' if borne.where else ''}{borne.where}.", width):
        top += ROW
        body.append(letters(0.0, top, said))
    top += 7.5
    drawn, defs, top = _built_up(around, cut, frame, top, width)
    body += drawn
    for chart in _charts(borne, around, cut, system):
        top += BETWEEN
        body += _chart(chart, cut, frame, top, width)
        top += CHART
    return picture(
        wide=width, high=top + 2.0, title=name, description=section_in_words(borne, system), defs=defs, body=body
    )


class _Cut:
    """A level line across the floor through the place that presses hardest, and what is felt along it."""

    def __init__(self, around: Around) -> None:
        self._around = around
        row, column = worst_place(around.stiff.pressure)
        self.y = float(around.stiff.y[row])
        worst = float(around.stiff.x[column])
        ends = [(float(field.x[0]), float(field.x[-1])) for field in (around.soft, around.stiff)]
        self.x0 = max(worst - REACH, *(low for low, _ in ends))
        self.x1 = min(worst + REACH, *(high for _, high in ends))
        if self.x1 - self.x0 < 2.0 * REACH:  # beside an edge: the other side shows more
            self.x1 = min(self.x0 + 2.0 * REACH, *(high for _, high in ends))
            self.x0 = max(self.x1 - 2.0 * REACH, *(low for low, _ in ends))
        self.x = np.linspace(self.x0, self.x1, STEPS)

    def along(self, field: SlabField, values: NDArray[np.float32]) -> NDArray[np.float64]:
        """Values of a field along the cut."""
        at = int(np.argmin(np.abs(field.y - self.y)))
        return np.asarray(np.interp(self.x, field.x, values[at]))

    def edge_at(self, x: float) -> bool:
        """Whether the slab ends there."""
        return any(abs(px - x) < 1e-3 for ring in self._around.edges for px, _ in ring)

    def pressed(self) -> Iterator[tuple[float, float]]:
        """Where the cut meets the load, from and to. [m]"""
        for ring in self._around.patches:
            xs, ys = [x for x, _ in ring], [y for _, y in ring]
            if min(ys) - 0.5 <= self.y <= max(ys) + 0.5 and max(xs) > self.x0 and min(xs) < self.x1:
                yield max(min(xs), self.x0), min(max(xs), self.x1)


def _built_up(around: Around, cut: _Cut, frame: Frame, top: float, wide: float) -> tuple[list[str], list[str], float]:
    """The layers to scale with their names, the load on them, ground below."""
    left, right = frame.x(cut.x0), frame.x(cut.x1)
    drawn, defs, y = [], [], top
    bottom_of_names = 0.0
    for n, layer in enumerate(around.layers):
        high = max(layer.thickness * frame.scale, THIN) if layer.thickness else 0.0
        name = f"cut-{n}"
        fill = hatch.pattern(layer.hatch, name, (left + right) / 2, y + high / 2, high) if high else ""
        if fill:
            defs.append(fill)
            drawn.append(rectangle(left, y, right - left, high, f"url(#{name})"))
        for level in (y, y + high):
            pen = BOLD if layer.hatch == "concrete" else FINE
            drawn.append(line(left, level, right, level, pen))
        if not high:
            drawn.append(line(left, y, right, y, HEAVY, extra=' stroke-dasharray="5 1.2"'))
        named = max(y + high / 2 + LETTER * CAPITAL / 2, bottom_of_names + ROW)
        drawn.append(line(right + 0.6, y + high / 2, right + 3.0, named - LETTER * CAPITAL / 2, HAIR))
        drawn.append(letters(right + 3.8, named, cut_to(layer.words, wide - right - 4.0)))
        bottom_of_names = named
        y += high
    for x in (cut.x0, cut.x1):
        if cut.edge_at(x):
            drawn.append(line(frame.x(x), top, frame.x(x), y, HEAVY))
    strokes = [
        f"M{mm(start + 0.75 * k)} {mm(y + 0.4)}l1.2 1.3"
        for start in np.arange(left + 0.8, right - 3.4, 4.6)
        for k in range(3)
    ]
    drawn.append(stroke("".join(strokes), HAIR))
    for start, end in cut.pressed():
        drawn.append(_arrow(frame.x(start), frame.x(end), top))
    return drawn, defs, max(y + GROUND - 2.0, bottom_of_names)


def _arrow(start: float, end: float, top: float) -> str:
    """The load as a block on the floor with an arrow into it."""
    middle = (start + end) / 2
    block = f'<rect x="{mm(start)}" y="{mm(top - 1.6)}" width="{mm(max(end - start, 0.6))}" height="1.6" fill="{INK}"/>'
    head = f'<path d="M{mm(middle)} {mm(top - 1.6)}l-1.1 -2h2.2z" fill="{INK}"/>'
    return block + head + line(middle, top - 6.4, middle, top - 3.0, LINE)


def _charts(borne: Borne, around: Around, cut: _Cut, system: System) -> Iterator[_Chart]:
    soft, stiff = around.soft, around.stiff
    shares = {share.part: share for share in borne.alone}
    down = cut.along(soft, soft.settlement)
    yield _Chart(
        f"How far the floor goes down, up to {say.value(1000.0 * around.settlement, 'mm', system)}",
        (_Curve(down, ""),),
        (),
        True,
        lambda value: say.value(1000.0 * value, "mm", system),
    )

    def stress(value: float) -> str:
        return say.value(value / 1000.0, "kPa", system)

    below, above = cut.along(soft, soft.below), cut.along(soft, soft.above)
    yield _Chart(
        f"Tension of the concrete, up to {stress(around.tension)}{_elsewhere(around.tension, below, above)}",
        (_Curve(below, "at its underside"), _Curve(above, "at its top", dashed=True)),
        _limits(shares, ("concrete",), stress),
        False,
        stress,
    )
    felt = "foam and ground" if "foam" in shares else "the ground"
    yield _Chart(
        f"Pressure on {felt}, up to {stress(around.pressure)}",
        (_Curve(cut.along(stiff, stiff.pressure), ""),),
        _limits(shares, ("foam", "ground"), stress),
        False,
        stress,
    )


def _elsewhere(largest: float, *along: NDArray[np.float64]) -> str:
    """Said where the largest lies off the cut."""
    here = max(float(np.nanmax(each)) for each in along)
    return "" if here > 0.95 * largest else ", which is off this cut"


def _limits(
    shares: dict[str, Share], parts: tuple[str, ...], stress: Callable[[float], str]
) -> tuple[tuple[float, str], ...]:
    says = {"concrete": "{} may be used", "foam": "the foam bears {}", "ground": "the ground bears {}"}
    return tuple(
        (shares[part].bears, says[part].format(stress(shares[part].bears))) for part in parts if part in shares
    )


def _chart(chart: _Chart, cut: _Cut, frame: Frame, top: float, wide: float) -> Iterator[str]:
    """One chart: its nought as a hairline, its curves, the limits that lie within reach, the others in words."""
    theme = colours.light()
    left, right = frame.x(cut.x0), frame.x(cut.x1)
    largest = max(float(np.nanmax(curve.values)) for curve in chart.curves)
    shown = [limit for limit in chart.limits if limit[0] <= SEEN * largest]
    reach = max([largest, *(value for value, _ in shown)]) * 1.04 or 1.0

    def level(value: float) -> float:
        share = value / reach
        return top + CHART * (share if chart.downwards else 1.0 - share)

    zero = level(0.0)
    yield letters(left, top - 1.4, chart.title, weight=600)
    yield line(left, zero, right, zero, HAIR, colour=theme["frame"])
    for curve in chart.curves:
        known = ~np.isnan(curve.values)
        places = [(frame.x(x), level(v)) for x, v in zip(cut.x[known], curve.values[known], strict=True)]
        extra = ' stroke-dasharray="2.4 1.2"' if curve.dashed else ""
        yield stroke(path(places, closed=False), BOLD, extra=extra)
    words = [(level(value), f"{said}") for value, said in shown]
    for at, _ in words:
        yield line(left, at, right, at, FINE, extra=' stroke-dasharray="1 1"')
    yield from _beside(chart, words, right, top, wide)


def _beside(chart: _Chart, words: list[tuple[float, str]], right: float, top: float, wide: float) -> Iterator[str]:
    """What stands behind a chart: its limits at their lines, those out of reach, and what each curve is."""
    theme, lowest = colours.light(), top - ROW
    for at, said in sorted(words):
        lowest = max(at + LETTER * CAPITAL / 2, lowest + ROW)
        yield letters(right + 3.8, lowest, said)
    far = [said for value, said in chart.limits if all(said != shown for _, shown in words) and value]
    for said in far:
        lowest = max(lowest + ROW, top + LETTER * CAPITAL)
        yield letters(right + 3.8, lowest, f"{said}, off this chart", colour=theme["note"])
    for curve in chart.curves:
        if curve.name:
            lowest = max(lowest + ROW, top + CHART / 2)
            extra = ' stroke-dasharray="2.4 1.2"' if curve.dashed else ""
            yield line(right + 3.8, lowest - 1.0, right + 11.0, lowest - 1.0, BOLD, extra=extra)
            yield letters(right + 12.2, lowest, cut_to(curve.name, wide - right - 12.2))
