"""Bearing: does foam carry what stands on it, for as long as the building stands?"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from .. import catalogue
from ..catalogue.records import Quantity
from ..findings import Basis, Finding, Step
from ..measure import System, say
from ..measure.digits import fixed
from ..physics import bearing
from ..resolve import Piece, ResolvedEdge, WallLoad

TITLE = "Pressure of the wall on the foam below its footing"
KILO = 1000.0  # Pa in a kPa, N in a kN


def below_footing(edge: ResolvedEdge, system: System) -> Iterator[Finding]:
    """Pressure on the foam below a load-bearing footing against what that foam bears for good.

    Asks
        Does the foam creep under the wall that stands on it?
    Why
        Foam strength is tested in minutes, at 10 % strain; under a wall that stands there for decades the foam goes on
        settling, so only part of that strength may be used.
    Worked out
        The wall's load and the footing's own weight, spread evenly over what the footing bears on; the strength of the
        board times the share of it that may stand for good.
    Holds for
        A stiff footing loaded in its middle, unfactored standing load with the earth that lies on the footing. A wall
        that stands off the middle, or is pushed from one side, presses harder on one edge. The ground below, the
        footing itself, and settlement that differs along the wall are not worked out.
    Source
        Equilibrium; the catalogue's record of the board, and EN 13163 (from memory) or load tables for the share.
    """
    piece = next((piece for piece in edge.pieces if piece.face == "below-footing"), None)
    at: dict[str, str | float] = {"edge": edge.letter, "load": "wall"}
    if piece is None:
        if edge.load is not None:
            said = f"The {edge.load.words} at edge {edge.letter} stand on the ground: no foam lies below this footing."
            yield Finding("bearing.foam-long", TITLE, None, "kPa", at=at, no_limit="does not apply", words=said)
    elif edge.load is None:
        yield _untold(edge, at, system)
    else:
        yield _pressed(edge, piece, edge.load, at, system)


def _strength(piece: Piece) -> tuple[Quantity, Quantity]:
    """Strength of the board's short test [kPa], and the share of it that may stand for good [1]."""
    board = piece.board.record
    assert board is not None  # foam is always of a board
    return board.strength, board.long_term


def _allowed(strength: Quantity, share: Quantity) -> float:
    """What the foam bears for good. [Pa]"""
    return bearing.long_term_strength(strength.value * KILO, share.value)


def _untold(edge: ResolvedEdge, at: dict[str, str | float], system: System) -> Finding:
    force = "1500 lb/ft" if system == "US" else "20 kN/m"
    typed = f'kind = "wall", at = "edge {edge.letter}" and force = "{force}"'
    return Finding(
        "bearing.foam-long",
        TITLE,
        None,
        "kPa",
        at=at,
        missing="load",
        words=f"Foam lies below this footing, and the brief gives no load. Write [[load]], and below it {typed}: "
        "roof, floors, snow, wall and the earth on the footing's top, unfactored.",
    )


def _pressed(edge: ResolvedEdge, piece: Piece, load: WallLoad, at: dict[str, str | float], system: System) -> Finding:
    (width, height), density = edge.strip, catalogue.material("concrete").density
    assert density is not None  # the catalogue's table has it
    strength, share = _strength(piece)
    weight = bearing.strip_weight(width, height, density.value)
    pressure, allowed = bearing.strip_pressure(load.force, weight, width), _allowed(strength, share)
    made = Finding(
        "bearing.foam-long",
        TITLE,
        pressure / KILO,
        "kPa",
        at=at,
        within=0.0,
        limit=allowed / KILO,
        sense="at most",
        basis=(
            Basis("force over width", "equilibrium of a stiff strip", "derived"),
            strength.basis(),
            share.basis(),
            density.basis(),
        ),
        rests_on=(load.path, *edge.strip_paths, piece.board.path, strength.path, share.path, density.path),
        steps=(
            Step(
                "g",
                "width × height × density × 9.80665 m/s²",
                f"{fixed(width, 3)} × {fixed(height, 3)} × {fixed(density.value, 0)} × 9.80665",
                f"{fixed(weight / KILO, 2)} kN/m",
            ),
            Step(
                "p",
                "(load of the wall + weight of the footing) / width of the footing",
                f"({fixed(load.force / KILO, 2)} + {fixed(weight / KILO, 2)}) / {fixed(width, 3)}",
                f"{fixed(pressure / KILO, 1)} kPa",
            ),
            Step(
                "p_long",
                "strength of the board × share that may stand for good",
                f"{fixed(strength.value, 1)} × {fixed(share.value, 3)}",
                f"{fixed(allowed / KILO, 1)} kPa",
            ),
        ),
    )
    return replace(made, words=_words(made, strength, share, piece, system))


def _words(made: Finding, strength: Quantity, share: Quantity, piece: Piece, system: System) -> str:
    """What to do, and where the share's own range turns the verdict."""
    assert made.value is not None
    low, high = strength.value * share.low, strength.value * share.high
    part = f"{100.0 * share.value:.0f} %"
    tested = f"{piece.board.label} is tested at {say.both(strength.value, 'kPa', system)}"
    begins = f"{tested}; {part} of that may stand for good."
    if made.verdict == "meets":
        doubtful = made.value > low
        return begins + (f" Those who take {100.0 * share.low:.0f} % would not allow it." if doubtful else "")
    needed = say.both(made.value / share.value, "kPa", system)
    more = f" Take a board tested at {needed} at least, or a wider footing."
    return begins + more + (f" Those who take {100.0 * share.high:.0f} % would allow it." if made.value <= high else "")
