"""Heat lanes: dotted lines along which heat flows, each for the same flow, in the mean of the year."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..measure import say
from ..measure.table import System
from ..physics.conduction.field import Field
from ..physics.conduction.stream import stream
from ..sections.parts import Section
from .contours import Line, lines_through
from .paper import LINE, Box, Frame, path, stroke
from .values import with_gap
from .visible import showing

MOST = 30  # lanes in the section that has most of them
LEAST = 0.1  # W/m, no lane carries less: what is left then is no flow
STEPS = (1.0, 2.0, 5.0)  # and their tens, in the reader's own unit
DOTS = ' stroke-linecap="round" stroke-dasharray=".01 1.1"'
ON_THE_LINE = 1e-6  # m, a place of the grid lies on a line of the section: the grid is kept in single precision


@dataclass(frozen=True, slots=True)
class Ways:
    """The ways that heat takes through a section as far as it is drawn, in the mean of the year."""

    x: NDArray[np.float64]  # (nx,) m
    y: NDArray[np.float64]  # (ny,) m
    stream: NDArray[np.float64]  # (ny, nx) W/m, nought where floor and wall meet
    floor: float  # W/m that leave through the floor as far as it is drawn
    wall: float | None  # W/m that leave through what stands beside it; None where nothing does
    stands: str  # what that is called: wall, door
    whole: bool  # whether the floor is drawn to its end


@dataclass(frozen=True, slots=True)
class Lanes:
    """How much each lane carries, the same in all that is compared."""

    system: System
    flow: float  # W/m

    def levels(self, ways: Ways) -> list[float]:
        """Values of the stream at the middle of each lane. [W/m]"""
        first = int(np.ceil(float(np.nanmin(ways.stream)) / self.flow - 0.5))
        last = int(np.floor(float(np.nanmax(ways.stream)) / self.flow - 0.5))
        return [(k + 0.5) * self.flow for k in range(first, last + 1)]

    def count(self, leaving: float) -> int:
        """Lanes of so much heat. [W/m in]"""
        return round(abs(leaving) / self.flow)

    @property
    def words(self) -> str:
        """What one lane carries, for one that reads the picture."""
        if self.system == "US":
            return f"Each lane carries {say.number(self.flow, 'W/m', 'US'):g} Btu/h for each foot of edge."
        return f"Each lane carries {self.flow:g} W for each metre of edge."

    def told(self, ways: Ways) -> str:
        """How many lanes take which way out: "3 lanes leave by the floor, 4 by the wall"."""
        places = [("floor", ways.floor)] + ([] if ways.wall is None else [(ways.stands, ways.wall)])
        counted = [(place, self.count(flow), flow < 0.0) for place, flow in places]
        said = []
        for n, (place, count, enters) in enumerate(counted):
            one = count == 1
            does = f"enter{'s' * one}" if enters else f"leave{'s' * one}"
            same = n > 0 and enters == counted[0][2] and one == (counted[0][1] == 1)
            lanes = "" if n else f" lane{'' if one else 's'}"
            said.append(f"{count or 'no'}{lanes} {'' if same else does + ' '}by the {place}")
        told = ", ".join(said)
        return told[0].upper() + told[1:]


def ways_of(section: Section, field: Field) -> Ways:
    """The ways that heat takes through a section in the mean of the year: in a month the ground stores some of it."""
    x, columns = np.unique(field.x.astype(float), return_index=True)
    y, rows = np.unique(field.y.astype(float), return_index=True)
    mean = field.mean.astype(float)[np.ix_(rows, columns)]
    across, up = np.meshgrid((x[1:] + x[:-1]) / 2.0, (y[1:] + y[:-1]) / 2.0)
    conducts = np.array([part.conductivity for part in section.parts] + [np.nan])
    found = stream(x, y, mean, conducts[showing(section.parts, across, up)])
    corner = int(np.argmin(np.abs(x - section.corner[0])))
    level = int(np.argmin(np.abs(y - section.corner[1])))
    found = found - found[level, corner]
    end = min(section.floor[1], float(x[-1]))
    beside = found[level:, corner]
    standing = np.flatnonzero(~np.isnan(beside))
    return Ways(
        x=x,
        y=y,
        stream=found,
        floor=float(found[level, int(np.argmin(np.abs(x - end)))]),
        wall=-float(beside[standing[-1]]) if standing[-1] > 0 else None,
        stands="door" if section.kind == "threshold" else "wall",
        whole=section.floor[1] <= float(x[-1]) + ON_THE_LINE,
    )


def lanes_for(ways: Iterable[Ways], system: System) -> Lanes:
    """Lanes of a round flow, as many as a drawing bears in the section through which most heat flows."""
    most = max(float(np.nanmax(each.stream) - np.nanmin(each.stream)) for each in ways)
    unit = 1.0 / say.number(1.0, "W/m", system)
    least = max(most / MOST, LEAST) / unit
    ten = 10.0 ** np.floor(np.log10(least))
    return Lanes(system, unit * float(next(s * ten for s in (*STEPS, 10.0) if s * ten >= least * (1.0 - 1e-9))))


def lane_lines(ways: Ways, lanes: Lanes, frame: Frame) -> list[Line]:
    """The middle of every lane, on the sheet. [mm]"""
    x, y = frame.x(ways.x), frame.y(ways.y)[::-1]
    return [line for level in lanes.levels(ways) for line in lines_through(x, y, ways.stream[::-1], level)]


def dotted(lines: Sequence[Line], words: Sequence[Box]) -> str:
    """Lanes as they are drawn, to be clipped to the bodies; each leaves a gap at words that stand on it."""
    for box in words:
        lines = [run for line in lines for run in with_gap(line, box)]
    return stroke("".join(path(line, closed=False) for line in lines), LINE, extra=DOTS) if lines else ""
