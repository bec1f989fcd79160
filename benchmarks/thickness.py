"""A thickness drawn along a slider, and the thickness that a wanted U of a whole floor takes: the demo's edge."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from underpour.answer import solved_brief
from underpour.brief import Reading, read
from underpour.brief.alternatives import AS_BRIEFED
from underpour.checks import heat
from underpour.checks.solved import SolvedEdge, floor_faces
from underpour.cut import edges_for_heat, sketched_edges
from underpour.families import Vary, family_of
from underpour.measure import transmittance
from underpour.resolve import resolve
from underpour.sizing import Sized, _between, _floor, _row, thickness_for_u

from .posed import ROOT
from .race import Race, Way

THEME = "many"
DEMO = ROOT / "examples" / "daylight-basement" / "brief.toml"
WANTED = "USI 0.2"
NEAR = 3e-3  # of the floor's heat: the first grid tells no error of its own
DRAWN = 0.83  # of the foam's thickness: no line of the section meets another there


def races() -> list[Race]:
    reading = read(DEMO)
    return [drawn(reading), sized(reading)]


def drawn(reading: Reading) -> Race:
    """One edge with both films, as checks and pictures read it."""
    resolved = resolve(reading.brief, products=reading.products)
    foam = next(layer for layer in resolved.floor if layer.kind == "board")
    vary = Vary("thickness", foam.path, 0.6 * foam.thickness, 1.6 * foam.thickness)
    family = family_of(resolved, resolved.edges[0], [vary])
    other, edge = family.cutting.changed(np.array([DRAWN * foam.thickness]))
    other = replace(other, edges=(edge,))
    (whole,) = edges_for_heat(other)

    def off(found: SolvedEdge) -> float:
        one, exact = (each.heat.flow(floor_faces) for each in (found, whole))
        return (abs(one.mean - exact.mean) + abs(one.swing - exact.swing)) / (abs(exact.mean) + abs(exact.swing))

    return Race(
        THEME,
        "drawn",
        "An edge of the demo, another thickness, both films",
        Way("here", "its family, made ready before", lambda: family.sketched(other, edge), off),
        (Way("our first grid", "third degree, mean and swing", lambda: sketched_edges(other)[0], off),),
        NEAR,
    )


def sized(reading: Reading) -> Race:
    """Both find one thickness; what was done before is put together here from what is still there."""
    floor = _floor(reading, None)
    row = [laid for laid in _row(floor.board, floor.system) if floor.can_be_built(laid)]
    limit = transmittance(WANTED, floor.system).si

    def meets(place: int) -> bool:
        found = heat.floor_loss(*solved_brief(reading, AS_BRIEFED, floor.laid(row[place])))
        u = next(each.value for each in found if each.id == "heat.u-floor")
        assert u is not None
        return u <= limit

    def by_answers() -> float:
        return row[_between(meets, len(row))[1]].thickness

    wanted = by_answers()

    def off(found: Sized) -> float:
        assert found.chosen is not None
        return abs(found.chosen.laid.thickness / wanted - 1.0)

    return Race(
        THEME,
        "sized",
        "The thickness for a wanted U of the demo's floor",
        Way("here", "by heat alone, the two neighbours found solved", lambda: thickness_for_u(reading, WANTED), off),
        (
            Way(
                "halving by whole answers",
                f"{len(row)} thicknesses, each solved with all films and paces",
                by_answers,
                lambda found: abs(found / wanted - 1.0),
            ),
        ),
        1e-12,
        turns=3,
    )
