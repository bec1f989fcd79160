"""A basement footing to draw: three ways of ending the foam, with made-up but smooth temperatures."""

from __future__ import annotations

import numpy as np

from underpour.dossier import Answer, Dossier
from underpour.findings import Finding
from underpour.physics.conduction.field import Field
from underpour.sections.parts import Air, Dimension, Film, Part, Section

WINDOW = (-1.6, 2.4, -1.3, 1.0)
GROUND_LEVEL = 0.6


def box(x0: float, x1: float, y0: float, y1: float) -> tuple[tuple[float, float], ...]:
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def section(foam: str = "wrapped", *, label: str = "Marlpit Plain 25, 2 in (51 mm)") -> Section:
    """``foam`` is bare, under (stops at the footing) or wrapped (over the footing and up the wall)."""
    start = 0.05 if foam == "wrapped" else 0.0
    parts = [
        Part("Silty clay", "ground", box(-8, 0, -10, GROUND_LEVEL), 1.5, 3e6, 9, "site.ground"),
        Part("Silty clay", "ground", box(0, 4, -10, 0), 1.5, 3e6, 9, "site.ground"),
        Part("Gravel, 4 in (102 mm)", "gravel", box(0, 4, -0.25, 0), 1.5, 3e6, 8, "floor.build-up.3"),
        Part("Concrete slab, 4 in (102 mm)", "concrete", box(start, 4, -0.1, 0), 1.7, 2e6, 3, "floor.build-up.1"),
        Part("Concrete footing", "concrete", box(-0.35, 0.15, -0.4, -0.15), 1.7, 2e6, 2, "edge.A.footing"),
        Part("Concrete wall", "concrete", box(-0.2, 0, -0.15, 1.6), 1.7, 2e6, 2, "edge.A.wall"),
    ]
    if foam != "bare":
        reach = 0.15 if foam == "under" else 0.0
        parts.append(Part(label, "foam-moulded", box(reach, 4, -0.15, -0.1), 0.0356, 3e4, 1, "floor.build-up.2"))
    if foam == "wrapped":
        parts.append(
            Part(label, "foam-moulded", box(0, 0.05, -0.1, 1.6), 0.0356, 3e4, 1, "edge.A.insulation.1"),
        )
    return Section(
        edge="A",
        kind="footing-wall",
        parts=tuple(parts),
        airs=(Air("room", box(start, 4, 0, 1.6)), Air("outdoors", box(-8, -0.2, GROUND_LEVEL, 1.6))),
        films=() if foam == "bare" else (Film("Film, 15 mil (0.38 mm)", ((0.15, -0.15), (4.0, -0.15)), "floor"),),
        dimensions=(
            Dimension((-0.35, -0.55), (0.15, -0.55), "20 in (508 mm)"),
            Dimension((-0.6, 0.0), (-0.6, 0.6), "24 in (610 mm)"),
        ),
        extent=(-8, 4, -10, 1.6),
        window=WINDOW,
        ground_level=GROUND_LEVEL,
        corner=(start, 0.0),
        floor=(start, 4.0),
        underside=-0.25,
        under_edge=(start, -0.25),
    )


def field(cut: Section, corner: float = 14.0, *, mean: float = 8.2, swing: float = 15.9, room: float = 20.0) -> Field:
    """Cold from the surface outside, warm from the room, ``corner`` (degC) where floor and wall meet in February."""
    x = np.unique(np.r_[np.linspace(-1.7, 2.5, 211), cut.corner[0], -0.2, -0.35, 0.15])
    y = np.unique(np.r_[np.linspace(-1.4, 1.1, 126), 0.0, -0.1, -0.15, -0.25, -0.4, GROUND_LEVEL])
    xx, yy = np.meshgrid(x, y)
    outside = np.clip((cut.corner[0] - xx) / (0.6 + 0.8 * np.clip(GROUND_LEVEL - yy, 0, 2)), 0.0, 1.0) ** 0.5
    deep = np.exp(-np.clip(GROUND_LEVEL - yy, 0, None) / 1.3)
    floor = corner + (19.0 - corner) * (1 - np.exp(-np.clip(xx - cut.corner[0], 0, None) / 0.5))
    below = floor - 5.0 * (1 - np.exp(-np.clip(-yy, 0, None) / 0.6))
    winter = below * (1 - outside) + (8.0 - 15.0 * deep) * outside
    air = np.zeros_like(xx, dtype=bool)
    for space in cut.airs:
        (x0, y0), (x1, _) = space.outline[0], space.outline[2]
        air |= (xx > x0) & (xx < x1) & (yy > y0)
    swings = -(room - winter) * 0.6
    turn = np.exp(-2j * np.pi * 0.125)
    floor_x = np.linspace(cut.floor[0], cut.floor[1], 120)
    floor_t = corner + (19.0 - corner) * (1 - np.exp(-(floor_x - cut.floor[0]) / 0.5))
    return Field(
        x=x.astype(np.float32),
        y=y.astype(np.float32),
        mean=np.where(air, np.nan, winter - swings).astype(np.float32),
        swing=(swings * turn).astype(np.complex64),
        floor_x=floor_x.astype(np.float32),
        floor_mean=(floor_t + 0.3 * (20 - floor_t)).astype(np.float32),
        floor_swing=(-0.3 * (20 - floor_t) * turn).astype(np.complex64),
        airs=(("room", room, 0j), ("outdoors", mean, -swing * np.exp(-2j * np.pi * (0.5 / 12)))),
    )


def answer(name: str, foam: str, corner: float, loss: float, *, limit: float | None = 12.6) -> Answer:
    cut = section(foam)
    findings = (
        Finding(
            "heat.corner-coldest",
            "Coldest corner",
            corner,
            "degC",
            {"edge": "A"},
            month=2,
            limit=limit,
            sense="at least" if limit else None,
        ),
        Finding("heat.loss-peak", "Greatest heat loss", loss, "W", month=1),
    )
    return Answer(name, (), {"A": cut}, {"A": field(cut, corner)}, findings)


def dossier(units: str = "US") -> Dossier:
    return Dossier(
        brief_text="",
        title="Daylight basement",
        use="basement",
        units=units,
        place="Minneapolis, MN",
        version="0",
        editions=(),
        credits=(),
        notes=(),
        cautions=(),
        assumed=(),
        alternatives=(
            answer("as briefed", "wrapped", 17.9, 610.0),
            answer("foam stops at the footing", "under", 11.4, 930.0),
            answer("bare slab", "bare", 13.9, 1480.0),
        ),
    )
