"""A wall on foam: does the foam below a footing carry it, for as long as the building stands?"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ... import catalogue
from ...catalogue.records import Board
from ...design import long_term
from ...findings import Basis, Finding, Step
from ...measure import System, say
from ...measure.digits import fixed
from ...physics import bearing
from ...resolve import ForGood, Piece, Resolved, ResolvedEdge, WallLoad
from .limits import KILO, Allowed, for_good

TITLE = "Pressure of the wall on the foam below its footing"


def below_footing(resolved: Resolved, edge: ResolvedEdge) -> Iterator[Finding]:
    """Pressure on the foam below a load-bearing footing against what that foam bears for good.

    Asks
        Does the foam creep under the wall that stands on it?
    Why
        Foam strength is tested in minutes, at 10 % strain; under a wall that stands there for decades the foam goes on
        settling, so only part of that strength may be used.
    Worked out
        The wall's load and the footing's own weight, spread evenly over what the footing bears on; what may stand on
        the board for good by every basis with evidence, of which the smallest governs unless the brief names one.
    Holds for
        A stiff footing loaded in its middle, unfactored standing load with the earth that lies on the footing. A wall
        that stands off the middle, or is pushed from one side, presses harder on one edge. The ground below, the
        footing itself, and settlement that differs along the wall are not worked out.
    Source
        Equilibrium; the board's records, and EN 13163, EN 1606 (from memory), load tables or guidance for each basis.
    """
    system = resolved.system
    piece = next((piece for piece in edge.pieces if piece.face == "below-footing"), None)
    at: dict[str, str | float] = {"edge": edge.letter, "load": "wall"}
    if piece is None:
        if edge.load is not None:
            said = f"The {edge.load.words} at edge {edge.letter} stand on the ground: no foam lies below this footing."
            yield Finding("bearing.foam-long", TITLE, None, "kPa", at=at, no_limit="does not apply", words=said)
    elif edge.load is None:
        yield _untold(edge, at, system)
    else:
        allowed = for_good(_record(piece), resolved.for_good)
        if allowed is None:
            yield _without_evidence(piece, resolved.for_good, at, system)
        else:
            yield _pressed(edge, piece, edge.load, allowed, at, system)


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


def _record(piece: Piece) -> Board:
    assert piece.board.record is not None  # foam is always of a board
    return piece.board.record


def _without_evidence(piece: Piece, for_good: ForGood, at: dict[str, str | float], system: System) -> Finding:
    """The brief names a basis of which this board has no evidence."""
    board = _record(piece)
    assert for_good.basis is not None
    bases = long_term(board)
    held = bases.by(for_good.basis)
    example = "8 psi" if system == "US" else "55 kPa"
    told = ", ".join(f'"{each.key}"' for each in bases.told if each.key != "on-the-safe-side")
    words = (
        f"The brief goes by {held.title}, and of {board.label} that cannot be told: {held.why} It needs {held.needs}. "
        f'Write what an engineer lets stand on it, long-term-stress = {{ {board.key} = "{example}" }} in [foam], '
        + (f"or a basis with evidence: {told}." if told else 'or long-term = "smallest".')
    )
    return Finding(
        "bearing.foam-long",
        TITLE,
        None,
        "kPa",
        at=at,
        missing=f"foam.long-term-stress.{board.key}",
        words=words,
        rests_on=("foam.long-term", piece.board.path),
        steps=tuple(each.step() for each in bases.bases),
    )


def _pressed(
    edge: ResolvedEdge, piece: Piece, load: WallLoad, allowed: Allowed, at: dict[str, str | float], system: System
) -> Finding:
    (width, height), density = edge.strip, catalogue.material("concrete").density
    assert density is not None  # the catalogue's table has it
    weight = bearing.strip_weight(width, height, density.value)
    pressure = bearing.strip_pressure(load.force, weight, width)
    made = Finding(
        "bearing.foam-long",
        TITLE,
        pressure / KILO,
        "kPa",
        at=at,
        within=0.0,
        limit=allowed.stress / KILO,
        sense="at most",
        basis=(
            Basis("force over width", "equilibrium of a stiff strip", "derived"),
            *allowed.basis,
            density.basis(),
        ),
        rests_on=(load.path, *edge.strip_paths, piece.board.path, *allowed.rests_on, density.path),
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
            *allowed.typed,
            *(each.step() for each in long_term(_record(piece)).bases),
        ),
    )
    return replace(made, words=_words(made, allowed, piece, system))


def _words(made: Finding, allowed: Allowed, piece: Piece, system: System) -> str:
    """What may stand and by which basis, and which other basis would turn the verdict."""
    assert made.value is not None and made.limit is not None
    begins = f"On {piece.board.label} {say.both(made.limit, 'kPa', system)} may stand for good: {allowed.says}."
    others = allowed.others
    if made.verdict == "meets":
        strict = [each for each in others if (each.stress or 0.0) < made.value * KILO]
        return begins + (f" Those who go by {strict[0].title} would not allow it." if strict else "")
    lax = [each for each in others if (each.stress or 0.0) >= made.value * KILO]
    more = f" Take a stronger board, of which {say.both(made.value, 'kPa', system)} may stand, or a wider footing."
    return begins + more + (f" Those who go by {lax[0].title} would allow it." if lax else "")
