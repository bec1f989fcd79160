"""What the rules for shallow foundations say: the residential code's table, and the standard's plain depth."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from ...catalogue.codes import Edition, Row
from ...findings import Basis, Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...physics.frost.depth import FUSION, undisturbed_depth
from ...resolve import Resolved
from ...resolve.frost import INDEX, Frost
from ...resolve.held import FROST
from ..code.facts import IN_ONE, NEAR
from ..code.reach import bears
from ..code.told import remembered
from ..solved import SolvedEdge
from .words import index_words

ID = "frost.rule"
STANDARD = "iso-13793-2001"
DAY = 86400.0  # s
INSTEAD = "The calculation beside this answers it instead (frost.depth)."
LETTERS = (
    "How wide the wing must be, and how far from a corner the thicker piece goes, the table tells by letters of its "
    "figure, which are not sure here: read them there."
)
ASKS: Mapping[str, tuple[str, str]] = {
    "vertical": ("Foam down the footing, by the table for frost-protected footings", "m²·K/W"),
    "along-walls": ("Foam of the wing along the wall, by the table for frost-protected footings", "m²·K/W"),
    "least-depth": ("Depth of the footing, by the table for frost-protected footings", "m"),
}


def rules(resolved: Resolved, solved: SolvedEdge) -> Iterator[Finding]:
    """What rules for shallow foundations ask at an edge of a building, beside what is worked out.

    Asks
        Does the residential code's table for frost-protected footings hold here, and is it kept? How deep would a
        footing stand without foam, by the standard?
    Why
        A rule is quickly looked up, and quickly misread: it is for heated buildings, for mean air above freezing,
        and for floors that let some heat down.
    Worked out
        Rows of the table, R and depth between two rows by a straight line; foam counts as it is in place. The
        standard's depth of frost in open ground.
    Holds for
        Edges of buildings that are heated to the table's limit all winter; nothing beyond the table's last index, and
        no floor above the standard's resistance. What is outside is refused with the reason.
    Source
        Residential code, Table R403.3(1); ISO 13793:2001, clauses 1 and 7; each row says how it was seen.
    """
    frost = resolved.frost
    if frost is None or resolved.outdoors:
        return
    for edition in resolved.held.editions:
        standing = resolved.held.codes.standing(edition.key, "frost")
        rows = [row for row in standing.rows if row.place == "frost-protected"] if standing else []
        if standing and rows:
            yield from _by_table(resolved, frost, solved, edition, standing.rows, rows)
    yield _by_standard(resolved, frost, solved)


def _by_table(
    resolved: Resolved,
    frost: Frost,
    solved: SolvedEdge,
    edition: Edition,
    standing: Sequence[Row],
    rows: Sequence[Row],
) -> Iterator[Finding]:
    at: dict[str, str | float] = {"edition": edition.key, "edge": solved.edge.letter}
    source = (Basis(edition.title, rows[0].clause, rows[0].seen, rows[0].doubtful),)
    rests_on = ("project.code", INDEX, rows[0].path)
    empty = Finding(
        ID,
        "Frost-protected footing of a heated building, by the table",
        None,
        "m²·K/W",
        at=at,
        basis=source,
        rests_on=rests_on,
        no_limit="does not apply",
    )
    if frost.index is None:
        yield _with(empty, missing=INDEX, words="The table goes by the index of the design winter.")
        return
    line, stands = resolved.held.frost_depth, solved.edge.ground - bears(solved)
    if line is None and solved.edge.kind not in IN_ONE:
        words = (
            "A footing below the frost line that the building office names needs no foam; one above it is held to "
            "this table."
        )
        yield _with(empty, missing=FROST, words=words)
        return
    if line is not None and stands >= line - NEAR:
        deep = say.both(stands, "m", resolved.system)
        yield _with(empty, words=f"The footing stands {deep} deep, below the frost line: no foam is asked for.")
        return
    refused = _refused(resolved, frost, solved, standing, rows)
    if refused:
        yield _with(empty, words=f"{refused} {INSTEAD}")
        return
    wanted = _wanted(frost.index / DAY, rows)
    proposed = {
        "vertical": _down(solved),
        "along-walls": _wing(solved),
        "least-depth": stands,
    }
    for ask, limit in wanted.asks.items():
        title, unit = ASKS[ask]
        step = Step(
            "asked",
            f"at least, {wanted.between}",
            index_words(frost.index, resolved),
            say.both(limit, unit, resolved.system),
        )
        corners = ""
        if ask == "along-walls" and wanted.corners is not None:
            there = say.both(wanted.corners, "m²·K/W", resolved.system)
            corners = f"At corners the table asks for {there}; corners are not looked at here."
        said = [
            "Foam is counted as it conducts in place." if unit == "m²·K/W" else "",
            LETTERS if ask == "along-walls" else "",
            corners,
            f"Doubtful: {rows[0].doubtful}" if rows[0].doubtful else "",
            remembered(resolved, edition),
        ]  # fmt: skip
        yield Finding(
            ID,
            title,
            round(proposed[ask], 4),
            unit,
            at={**at, "asks": ask},
            limit=round(limit, 4),
            sense="at least",
            basis=source,
            rests_on=(*rests_on, *solved.rests_on, f"{solved.edge.path}.depth"),
            steps=(step,),
            words=" ".join(filter(None, said)),
        )


def _with(finding: Finding, missing: str = "", words: str = "") -> Finding:
    return replace(finding, missing=missing, words=words)


def _refused(resolved: Resolved, frost: Frost, solved: SolvedEdge, standing: Sequence[Row], rows: Sequence[Row]) -> str:
    """Why the table does not hold here; empty where it does."""
    assert frost.index is not None
    conditions = next(
        (row for row in standing if row.place == "frost-protected-conditions" and "room" in row.asks), None
    )
    most = max(row.asks["index"].si for row in rows)
    coldest = resolved.room.mean - abs(resolved.room.swing)
    if resolved.outdoor_mean <= 0.0:
        return "The mean of the year lies below freezing here: the table does not hold on ground that stays frozen."
    if solved.edge.beside is not None:
        return (
            f"This edge lies beside {_named(solved.edge.beside.name)}, and the table is for edges of a heated building."
        )
    if conditions is not None and coldest < conditions.asks["room"].si - 1e-6:
        kept, least = (say.both(t, "degC", resolved.system) for t in (coldest, conditions.asks["room"].si))
        return (
            f"The room is kept at {kept} in winter; the table is for buildings of {least} or more in the mean of each "
            "month. For others no table with a source was found."
        )
    if frost.index / DAY > most + 1e-6:
        return (
            f"The index, {index_words(frost.index, resolved)}, lies beyond the table, which ends at "
            f"{say.both(most, 'degC·d', resolved.system)}."
        )
    return ""


def _named(beside: str) -> str:
    return "an unheated space" if beside == "unheated space" else "other air than outdoors"


@dataclass(frozen=True)
class _Wanted:
    asks: dict[str, float]
    corners: float | None
    between: str


def _wanted(index: float, rows: Sequence[Row]) -> _Wanted:
    """What the table asks for at an index [K·d]: between two rows by a straight line; a wing as the upper row has it
    where the lower one has none."""
    ordered = sorted(rows, key=lambda row: row.asks["index"].si)
    above = next(row for row in ordered if index <= row.asks["index"].si + 1e-6)
    below = [row for row in ordered if row.asks["index"].si <= index + 1e-6][-1:] or [above]
    low, high = below[0].asks["index"].si, above.asks["index"].si
    share = (index - low) / (high - low) if high > low else 1.0

    def straight(ask: str) -> float | None:
        if ask not in above.asks:
            return None
        end = above.asks[ask].si
        return end if ask not in below[0].asks else below[0].asks[ask].si + share * (end - below[0].asks[ask].si)

    asks = {ask: value for ask in ASKS if (value := straight(ask)) is not None}
    typed = dict.fromkeys((below[0].asks["index"].typed, above.asks["index"].typed))
    return _Wanted(asks, straight("at-corners"), f"row{'s' if len(typed) > 1 else ''} {' and '.join(typed)}")


def _down(solved: SolvedEdge) -> float:
    """The least sum of upright foam outside, from the floor's top or the ground down to what bears. [m²·K/W]"""
    low, high = bears(solved), min(solved.edge.ground, 0.0)
    spans = []
    for piece in solved.edge.pieces:
        if piece.face in ("outside", "slab-edge"):
            top = 0.0 if piece.top is None else piece.top
            bottom = low if piece.bottom is None else piece.bottom
            spans.append((bottom, top, piece.board.resistance))
    levels = sorted({low, high, *(y for bottom, top, _ in spans for y in (bottom, top) if low < y < high)})
    middles = [(a + b) / 2.0 for a, b in pairwise(levels) if b - a > 1e-3]
    return min((sum(r for bottom, top, r in spans if bottom <= y <= top) for y in middles), default=0.0)


def _wing(solved: SolvedEdge) -> float:
    return max((piece.board.resistance for piece in solved.edge.pieces if piece.face == "wing"), default=0.0)


def _by_standard(resolved: Resolved, frost: Frost, solved: SolvedEdge) -> Finding:
    """The plain depth of ISO 13793, or why it does not hold here."""
    edge = solved.edge
    stands = edge.ground - bears(solved)
    rows = resolved.held.codes.rows(STANDARD, "frost")
    limits = next(row for row in rows if "floor-resistance" in row.asks)
    empty = Finding(
        ID,
        "Depth of the footing, by the standard's frost in open ground",
        None,
        "m",
        at={"edition": STANDARD, "edge": edge.letter},
        basis=(Basis(_title(resolved), "7, frost in open ground", "memory"),),
        rests_on=(INDEX, limits.path, f"{edge.path}.depth", f"{edge.path}.ground"),
        no_limit="does not apply",
    )
    resistance = sum(layer.resistance for layer in resolved.floor)
    if resolved.outdoor_mean <= 0.0:
        return _with(
            empty, words=f"The standard does not hold where the mean of the year lies below freezing. {limits.note}"
        )
    if resistance > limits.asks["floor-resistance"].si:
        has, most = (say.both(r, "m²·K/W", resolved.system) for r in (resistance, limits.asks["floor-resistance"].si))
        why = "since so little heat keeps the ground less warm"
        words = f"This floor has {has}; the standard ends at {most}, {why}. {INSTEAD}"
        return _with(empty, words=words)
    if frost.index is None:
        return _with(empty, missing=INDEX, words="The standard goes by the index of the design winter.")
    icy, ground = frost.icy[0], resolved.ground
    latent = icy.water * FUSION * (1.0 - icy.unfrozen)
    depth = float(
        undisturbed_depth(frost.index, resolved.outdoor_mean, icy.frozen_conductivity, ground.heat_capacity, latent)
    )
    step = Step(
        "H₀",
        "√(2 λ F / (L + C θ))",
        f"{frost.index / DAY:.0f} K·d, θ {fixed(resolved.outdoor_mean, 1)} °C",
        f"{fixed(depth, 2)} m",
    )
    if stands < depth:
        words = (
            f"Without foam a footing would stand {say.both(depth, 'm', resolved.system)} deep; this one stands "
            f"{say.both(stands, 'm', resolved.system)}. The standard's tables of foam for that were not found. "
            f"{INSTEAD}"
        )
        return _with(empty, words=words)
    return Finding(
        ID, empty.title, stands, "m", at=empty.at, limit=depth, sense="at least", basis=empty.basis,
        rests_on=empty.rests_on, steps=(step,), words="It stands below the frost of open ground: no foam is asked for.",
    )  # fmt: skip


def _title(resolved: Resolved) -> str:
    return resolved.held.codes.editions[STANDARD].title
