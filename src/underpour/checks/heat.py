"""Heat: resistance, U-value, what the floor loses and where, and how warm its surface stays."""

from __future__ import annotations

from collections.abc import Iterator

from ..catalogue.records import Quantity
from ..findings import Finding, Step
from ..measure import say
from ..measure.digits import fixed
from ..physics.conduction.solve import Told
from ..physics.year import deciding, lowest_moment, month_of
from ..resolve import Resolved, Slice
from .basis import basis, conduction
from .by_formula import second_way
from .edge_psi import linear_transmittance
from .solved import (
    OUTER_METRE,
    SolvedEdge,
    counted_up_to,
    floor_faces,
    floor_rests_on,
    outer_metre,
    summed,
    swing_steps,
    wall_faces,
)

FILM = "heat-loss"
TAKES_IN = "Negative: on the mean of the year heat comes into the room here."
AGAINST = "Negative: the heat goes against the degrees between room and outdoors."
BESIDE_TOO = "What goes to other air than outdoors is in it; the degrees are those between room and outdoors."


def resistance(resolved: Resolved) -> Iterator[Finding]:
    """Thermal resistance of the foam under the floor, as labelled and in place.

    Asks
        How much does the foam resist: by its label, and where it lies?
    Why
        A code reads the label. Heat meets the foam cool, damp and aged.
    Worked out
        Sum of the boards of the floor's build-up.
    Holds for
        Boards that lie over the whole floor.
    Source
        The catalogue's record of each board; ISO 6946 for the sum.
    """
    boards = resolved.boards
    labelled = [(b.words, b.r_label or 0.0) for b in boards]
    in_place = [(b.words, b.resistance) for b in boards]
    for kind, rows, paths in (
        ("as labelled", labelled, [p for b in boards for p in b.r_label_rests_on]),
        ("in place", in_place, [p for b in boards for p in b.rests_on]),
    ):
        value = sum(r for _, r in rows)
        lies = kind == "in place" and boards
        yield Finding(
            "heat.resistance",
            f"Resistance of the foam, {kind}",
            value,
            "m²·K/W",
            at={"value": kind},
            within=0.0,
            basis=(basis("iso-6946-2017", "layers add up"),),
            rests_on=tuple(dict.fromkeys(paths)),
            steps=(
                Step(
                    "R",
                    "sum over the boards",
                    " + ".join(f"{fixed(r, 3)} ({w})" for w, r in rows) or "no board",
                    f"{fixed(value, 3)} m²·K/W",
                ),
                *(_ends(resolved) if lies else ()),
            ),
            words=_range(resolved) if lies else "" if boards else "There is no foam under this floor.",
        )


def _between(resolved: Resolved) -> tuple[float, float]:
    """Least and most that the foam under the floor may resist, as wet or as dry as its ranges let it lie."""
    ends = [
        (b.thickness / lies.high, b.thickness / lies.low) if lies is not None else (b.resistance, b.resistance)
        for b in resolved.boards
        for lies in [_of_record(b)]
    ]
    return sum(least for least, _ in ends), sum(most for _, most in ends)


def _of_record(board: Slice) -> Quantity | None:
    """The conductivity of a board's record, where the brief types no other."""
    known = board.record.conductivity_in_place if board.record is not None else None
    return known if known is not None and known.value == board.conductivity else None


def _ends(resolved: Resolved) -> Iterator[Step]:
    """How each board's conductivity was reached, and how far all of them together may be off."""
    for label, lies in dict.fromkeys((b.label, lies) for b in resolved.boards if (lies := _of_record(b)) is not None):
        yield Step("λ", label, lies.note, f"{fixed(lies.value, 4)} W/(m·K)")
    least, most = _between(resolved)
    yield Step("R", "wettest and driest that it may be", "", f"{fixed(least, 3)} to {fixed(most, 3)} m²·K/W")


def _range(resolved: Resolved) -> str:
    least, most = (say.both(each, "m²·K/W", resolved.system) for each in _between(resolved))
    return f"Between {least} and {most}: as wet as years in the ground may leave it, or dry." if least != most else ""


def floor_loss(resolved: Resolved, edges: tuple[SolvedEdge, ...]) -> Iterator[Finding]:
    """What the floor, and the wall of a basement, lose.

    Asks
        How much heat leaves through the floor, on the mean of the year and at its peak?
    Why
        The heating pays for it all year; the peak comes weeks after the coldest day.
    Worked out
        Flow of each edge's section times the length of the edge, summed.
    Holds for
        Corners of the plan are not added: ``edge_loss.corners`` says by which rule.
    Source
        ISO 10211 for the section, ISO 13370 for the annual harmonic and for the second way (from memory).
    """
    floor, wall = summed(edges, floor_faces), summed(edges, wall_faces)
    rests_on = _all(resolved, edges)
    between = _bounds(resolved, edges, floor, summed(edges, floor_faces, moving=True))
    yield _mean("floor", "Heat lost through the floor, mean of the year", floor, edges, rests_on, between)
    if any(edge.walled for edge in edges):
        between = _bounds(resolved, edges, wall, summed(edges, wall_faces, moving=True))
        counted = " ".join(filter(None, (counted_up_to(resolved, edges), between)))
        yield _mean("wall", "Heat lost through the foundation wall, mean of the year", wall, edges, rests_on, counted)
    yield _peak("floor", "the floor", floor, rests_on)
    if any(edge.walled for edge in edges):
        yield _peak("wall", "the foundation wall", wall, rests_on, counted_up_to(resolved, edges))
    apart = resolved.room.mean - resolved.outdoor_mean
    if abs(apart) < 1.0:
        yield Finding(
            "heat.u-floor",
            "Heat lost per area and degree, ground included",
            None,
            "W/(m²·K)",
            no_limit="does not apply",
            basis=conduction(),
            words="Room and outdoors are equally warm on the mean of the year; there is nothing to divide by.",
        )
        return
    value = floor.mean / (resolved.area * apart)
    yield Finding(
        "heat.u-floor",
        "Heat lost per area and degree, ground included",
        value,
        "W/(m²·K)",
        within=floor.within / (resolved.area * abs(apart)),
        basis=conduction(),
        rests_on=rests_on,
        steps=(
            Step(
                "U",
                "Φ_mean / (A (θ_room − θ_outdoors))",
                f"{fixed(floor.mean, 1)} / ({fixed(resolved.area, 1)} × {fixed(apart, 2)})",
                f"{fixed(value, 4)} W/(m²·K)",
            ),
            *second_way(resolved, edges, value),
        ),
        words=" ".join(
            filter(None, (AGAINST if value < 0.0 else "", BESIDE_TOO if any(e.edge.beside for e in edges) else ""))
        ),
    )


def _peak(of: str, through: str, told: Told, rests_on: tuple[str, ...], words: str = "") -> Finding:
    """The month of the largest flow: out of the room, or into it where the floor takes in heat on the mean."""
    takes_in = told.mean < 0.0
    month = month_of(lowest_moment(told.swing if takes_in else -told.swing))
    return Finding(
        "heat.loss-peak",
        f"Heat taken in through {through} (negative), most" if takes_in else f"Heat lost through {through}, highest",
        told.mean - abs(told.swing) if takes_in else told.mean + abs(told.swing),
        "W",
        at={"of": of},
        within=told.within,
        month=month,
        months=deciding(told.mean, told.swing, "lowest" if takes_in else "highest"),
        basis=conduction(),
        rests_on=rests_on,
        steps=swing_steps("Φ", told, "W", month, "-" if takes_in else "+"),
        words=words,
    )


def _mean(
    of: str, title: str, told: Told, edges: tuple[SolvedEdge, ...], rests_on: tuple[str, ...], words: str = ""
) -> Finding:
    chosen = floor_faces if of == "floor" else wall_faces
    numbers = " + ".join(f"{fixed(e.heat.flow(chosen).mean, 3)} × {fixed(e.edge.length, 2)}" for e in edges)
    return Finding(
        "heat.loss-mean",
        title,
        told.mean,
        "W",
        at={"of": of},
        within=told.within,
        basis=conduction(),
        rests_on=rests_on,
        steps=(Step("Φ_mean", "sum of flow per metre × length of edge", numbers, f"{fixed(told.mean, 1)} W"),),
        words=" ".join(filter(None, (TAKES_IN if told.mean < -told.within else "", words))),
    )


def _bounds(resolved: Resolved, edges: tuple[SolvedEdge, ...], still: Told, moving: Told) -> str:
    """The loss with ground water that stands still and with water that moves; "" where there is none in reach."""
    if all(edge.moving is None for edge in edges):
        return ""
    said = [say.both(told.mean, "W", resolved.system) for told in (still, moving)]
    held = say.both(resolved.ground_mean, "degC", resolved.system)
    return f"Between {said[0]} where the ground water stands still and {said[1]} where it moves, held at {held}."


def _all(resolved: Resolved, edges: tuple[SolvedEdge, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys([*floor_rests_on(resolved), *(path for edge in edges for path in edge.rests_on)]))


def edge(resolved: Resolved, solved: SolvedEdge) -> Iterator[Finding]:
    """What one edge loses.

    Asks
        How much does this edge add to what the plain floor and wall would lose, and how much leaves near it?
    Why
        The edge is the cheapest place to mend: little foam, much heat.
    Worked out
        psi as ``edge_psi.linear_transmittance``; flow of the outer metre over that of the floor.
    Holds for
        Floors wider than three metres, for the share.
    Source
        ISO 10211 for the section.
    """
    letter, at = solved.edge.letter, solved.levels
    floor = solved.heat.flow(floor_faces)
    rests_on = (*floor_rests_on(resolved), *solved.rests_on)
    yield linear_transmittance(resolved, solved)
    outer = solved.heat.flow(outer_metre(solved.section.corner[0]))
    title = "Share of the floor's loss that leaves within a metre of the wall"
    if at.half_width <= 1.5 * OUTER_METRE:
        yield _no_share(letter, title, "Nearly all of this floor lies within a metre of a wall.")
    elif outer.mean <= 0.0 or floor.mean <= 0.0:
        yield _no_share(letter, title, "On the mean of the year this floor takes in heat.")
    else:
        share, width = 100.0 * outer.mean / floor.mean, 100.0 * OUTER_METRE / at.half_width
        yield Finding(
            "heat.edge-share",
            title,
            share,
            "%",
            at={"edge": letter, "distance": OUTER_METRE},
            within=share * (outer.within / abs(outer.mean) + floor.within / floor.mean),
            basis=conduction(),
            rests_on=rests_on,
            steps=(
                Step(
                    "share",
                    "flow of the outer metre / flow of the floor",
                    f"{fixed(outer.mean, 3)} / {fixed(floor.mean, 3)}",
                    f"{fixed(share, 1)} % of the heat, {fixed(width, 1)} % of the floor's width",
                ),
            ),
        )


def _no_share(letter: str, title: str, words: str) -> Finding:
    at: dict[str, str | float] = {"edge": letter, "distance": OUTER_METRE}
    return Finding("heat.edge-share", title, None, "%", at=at, no_limit="does not apply", words=words)


def surface(resolved: Resolved, solved: SolvedEdge) -> Iterator[Finding]:
    """How cold the floor's surface gets.

    Asks
        How cold does the floor get, where floor and wall meet, and where people stay?
    Why
        A cold strip along the wall is felt, and dampness starts there.
    Worked out
        Mean of the year less the amplitude at the same place; never a steady winter.
    Holds for
        The settled year, room temperature as typed. A metre from the wall begins the zone where people stay.
    Source
        ISO 10211 and ISO 13370 for the temperatures; ASHRAE 55 for the limit where people sit (from memory).
    """
    x0, half = solved.section.corner[0], solved.levels.half_width
    letter = solved.edge.letter
    rests_on = (*floor_rests_on(resolved), *solved.rests_on)
    corner = solved.heat.temperature(*solved.section.corner)
    month = month_of(lowest_moment(corner.swing))
    yield Finding(
        "heat.corner-coldest",
        "Coldest where floor and wall meet",
        corner.mean - abs(corner.swing),
        "degC",
        at={"edge": letter, "film": FILM},
        within=corner.within,
        month=month,
        months=deciding(corner.mean, corner.swing, "lowest"),
        basis=conduction(),
        rests_on=rests_on,
        steps=swing_steps("θ_corner", corner, "°C", month, "-"),
    )
    inner = "Coldest floor a metre from the wall" if resolved.use.cold_floor else "Coldest floor where people stay"
    for distance, title in ((0.0, "Coldest place of the floor"), (OUTER_METRE, inner)):
        if distance and half < 1.5 * OUTER_METRE:
            continue
        told, place = _coldest(solved, x0 + distance)
        limit = resolved.comfort if distance else None
        month = month_of(lowest_moment(told.swing))
        yield Finding(
            "heat.floor-coldest",
            title,
            told.mean - abs(told.swing),
            "degC",
            at={"edge": letter, "film": FILM, "distance": distance},
            within=told.within,
            month=month,
            months=deciding(told.mean, told.swing, "lowest"),
            limit=limit.value if limit else None,
            sense="at least" if limit else None,
            basis=(*conduction(), *((limit.basis(),) if limit else ())),
            rests_on=(*rests_on, *((limit.path,) if limit else ())),
            steps=(
                Step("x", "coldest place, from the wall", "", f"{fixed(place - x0, 2)} m"),
                *swing_steps("θ_floor", told, "°C", month, "-"),
            ),
        )


def _coldest(solved: SolvedEdge, start: float) -> tuple[Told, float]:
    x, mean, swing, within = solved.heat.along(start, solved.levels.half_width, 0.0)
    n = int((mean - abs(swing)).argmin())
    return Told(float(mean[n]), complex(swing[n]), within), float(x[n])
