"""A basement's wall pushed in by the ground: what holds its foot, and what that does to foam between wall and slab."""

from __future__ import annotations

from collections.abc import Iterator

from ... import catalogue
from ...findings import Basis, Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...physics import bearing
from ...resolve import Piece, Resolved, ResolvedEdge
from .limits import KILO, for_good

ID, TITLE = "bearing.thrust", "Pressure of the wall's foot on the foam beside the slab"
TRIANGLE = Basis("equilibrium", "pressure at rest grows with depth; its triangle's area", "derived")


def at_wall_foot(resolved: Resolved, edge: ResolvedEdge) -> Iterator[Finding]:
    """Pressure on the foam between a basement's wall and its slab against what that foam bears for good.

    Asks
        Does the ground push the wall's foot into the foam beside the slab?
    Why
        A basement slab often is what keeps the foot of the wall from sliding in. Foam in that joint is then pressed for
        as long as the house stands, far harder than any below a floor, and the wall moves in by what it gives.
    Worked out
        All of the ground's push at rest above the middle of the slab, over the slab's thickness, as if nothing held the
        wall's top: on the safe side. What may stand on the foam as below a footing.
    Holds for
        Drained backfill that lies level, no traffic beside the wall, no water against it. What the footing's key
        or dowels carry, and the wall itself, are not worked out.
    Source
        Equilibrium; IBC 2018 Table 1610.1 for the pressure at rest (from memory); the board's records.
    """
    if edge.kind != "footing-wall" or edge.ground <= 0.0:
        return
    at: dict[str, str | float] = {"edge": edge.letter}
    piece = next((each for each in edge.pieces if each.face == "slab-edge"), None)
    slab = next((layer for layer in resolved.floor if layer.kind == "concrete"), None)
    if piece is None or slab is None:
        return
    if not edge.props:
        words = (
            f"Foam lies between wall and slab at edge {edge.letter}, and the brief does not say what holds the "
            "wall's foot against the ground. "
            'Write props = "footing" where a key or dowels do, or props = "slab", in this [[edge]].'
        )
        yield Finding(ID, TITLE, None, "kPa", at=at, missing=f"{edge.path}.props", words=words)
    elif edge.props == "footing":
        words = (
            f"Key or dowels hold the wall's foot at edge {edge.letter}: the foam beside the slab is not squeezed. "
            "A structural engineer sizes them."
        )
        yield Finding(ID, TITLE, None, "kPa", at=at, no_limit="does not apply", words=words)
    else:
        yield _pressed(resolved, edge, piece, slab.thickness, slab.path, at)


def _pressed(
    resolved: Resolved, edge: ResolvedEdge, piece: Piece, thickness: float, path: str, at: dict[str, str | float]
) -> Finding:
    record = piece.board.record
    assert record is not None  # foam is always of a board
    allowed = for_good(record, resolved.for_good)
    if allowed is None:
        words = (
            f'What {record.label} bears is not known. Write long-term-stress = {{ {record.key} = "8 psi" }} in [foam].'
        )
        return Finding(ID, TITLE, None, "kPa", at=at, missing=f"foam.long-term-stress.{record.key}", words=words)
    at_rest = catalogue.pressure_at_rest(resolved.strata[0].grain)
    height = edge.ground + thickness / 2.0
    push = bearing.thrust_at_foot(at_rest.value * KILO, height)
    value, system = push / thickness, resolved.system
    mend = ""
    if value > allowed.stress:
        mend = " Key or dowel the wall into its footing, or leave foam out of that joint: concrete to concrete."
    return Finding(
        ID,
        TITLE,
        value / KILO,
        "kPa",
        at=at,
        within=0.0,
        limit=allowed.stress / KILO,
        sense="at most",
        basis=(TRIANGLE, at_rest.basis(), *allowed.basis),
        rests_on=(f"{edge.path}.ground", f"{edge.path}.props", path, piece.board.path, at_rest.path, *allowed.rests_on),
        steps=(
            Step(
                "P",
                "pressure at rest × height² / 2",
                f"{fixed(at_rest.value, 2)} kN/m³ × {fixed(height, 3)}² / 2",
                f"{fixed(push / KILO, 2)} kN/m",
            ),
            Step(
                "p",
                "P / thickness of the slab",
                f"{fixed(push / KILO, 2)} / {fixed(thickness, 4)}",
                f"{fixed(value / KILO, 1)} kPa",
            ),
            *allowed.typed,
        ),
        words=f"The ground pushes the foot of the wall at edge {edge.letter} against the slab "
        f"with {say.both(push / KILO, 'kN/m', system)}; the foam in that joint feels "
        f"{say.both(value / KILO, 'kPa', system)}, "
        f"and {say.both(allowed.stress / KILO, 'kPa', system)} may stand on it for good: {allowed.says}.{mend}",
    )
