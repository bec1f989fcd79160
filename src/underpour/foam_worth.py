"""What the foam of an alternative is worth as heat: what it saves, what less foam would save, and where to lay none."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from .checks.settled import HEAT, wanted
from .checks.solved import SolvedEdge, floor_faces, summed, wall_faces
from .dossier import Answer
from .findings import Finding
from .lessons import BOARDS, else_alike
from .measure import System, say
from .physics.conduction.solve import Told
from .resolve import Resolved, Room
from .sections.parts import Outline, Section

DO_NOT = "do not insulate here for the heat."
FROZEN = "which wants no heat: foam lies here against frost in the ground."
LESS = 0.5  # of the foam or less: an alternative worth holding against one with more


@dataclass(frozen=True)
class Floor:
    """One alternative with what its floor loses, a basement's wall counted in, and how much foam it has."""

    answer: Answer
    loss: Told  # W
    through: str  # "the floor", or "floor and wall"
    foam: float  # m³
    months: tuple[float, ...]  # kWh out of the room, month by month, by the hours of a weather file where there is one
    wanted: tuple[int, ...]  # what the room wants in each month
    room: Room
    frozen: bool  # kept frozen: it never wants heat

    def beyond(self, other: Floor) -> tuple[float, float]:
        """What it saves beside another in the months in which the room wants heat, and what in the others. [kWh]"""
        saved = [b - a for a, b in zip(self.months, other.months, strict=True)]
        cold = sum(each for each, want in zip(saved, self.wanted, strict=True) if want == HEAT)
        return cold, sum(saved) - cold


def told(answered: Sequence[tuple[Resolved, tuple[SolvedEdge, ...], Answer]]) -> list[Answer]:
    """The same answers; the floor's mean loss tells what each one's foam saves beside the alternative without any."""
    floors = [_floor(resolved, edges, made) for resolved, edges, made in answered if not resolved.outdoors]
    if len(floors) < 2:
        return [made for _, _, made in answered]
    system = answered[0][0].system
    return [
        replace(floor.answer, findings=tuple(_said(f, floor, floors, system) for f in floor.answer.findings))
        for floor in floors
    ]


def _floor(resolved: Resolved, edges: tuple[SolvedEdge, ...], made: Answer) -> Floor:
    loss = summed(edges, floor_faces)
    walled = any(solved.walled for solved in edges)
    if walled:
        wall = summed(edges, wall_faces)
        loss = Told(loss.mean + wall.mean, loss.swing + wall.swing, loss.within + wall.within)
    foam = sum(
        _area(part.outline) * solved.edge.length
        for solved in edges
        for part in solved.section.parts
        if part.hatch.startswith(BOARDS)
    )
    year = [f.months for f in made.findings if f.id == "heat.loss-year" and f.at["flow"] == "net"]
    months = tuple(sum(each) for each in zip(*year, strict=True))
    through = "floor and wall" if walled else "the floor"
    return Floor(made, loss, through, foam, months, wanted(resolved), resolved.room, resolved.use.cold_floor)


def _area(outline: Sequence[tuple[float, float]]) -> float:
    pairs = zip(outline, [*outline[1:], outline[0]], strict=True)
    return abs(0.5 * sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs))


def _said(finding: Finding, floor: Floor, floors: Sequence[Floor], system: System) -> Finding:
    if finding.id != "heat.loss-mean" or finding.at.get("of") != "floor" or not floor.foam:
        return finding
    alike = [other for other in floors if other is not floor and else_alike(other.answer, floor.answer)]
    bare = next((other for other in alike if not other.foam), None)
    if bare is None:
        return finding
    words = [_against_none(floor, bare, system), *_against_less(floor, bare, alike, system)]
    return replace(finding, words=" ".join(filter(None, [finding.words, *words])))


def _against_none(floor: Floor, bare: Floor, system: System) -> str:
    saved = bare.loss.mean - floor.loss.mean
    amount = say.both(abs(saved), "W", system)
    if bare.loss.mean < 0.0:
        return f"Without foam the ground would bring {amount} {'less' if saved > 0.0 else 'more'} into the room."
    if floor.frozen:
        more = "more" if saved > 0.0 else "less"
        return f"Without foam the ground would take {amount} {more} from this floor, {FROZEN}"
    if saved <= 0.0:
        return f"Without foam the floor would lose {amount} less: do not insulate here for the heat."
    share = f"{100.0 * saved / bare.loss.mean:.0f} %"
    first = f"Foam saves {amount} on the mean of the year, {share} of what leaves through {floor.through} without any."
    return " ".join(filter(None, [first, _not_here(floor, bare, "it", system)]))


def _against_less(floor: Floor, bare: Floor, alike: Sequence[Floor], system: System) -> list[str]:
    """How much of the saving an alternative with less foam brings, and what the rest of the foam is worth."""
    saved = bare.loss.mean - floor.loss.mean
    fewer = [o for o in alike if 0.0 < o.foam <= LESS * floor.foam and 0.0 < bare.loss.mean - o.loss.mean < saved]
    if bare.loss.mean <= 0.0 or floor.frozen or not fewer:
        return []
    best = max(fewer, key=lambda o: (bare.loss.mean - o.loss.mean) / o.foam)
    of_that, of_it = (bare.loss.mean - best.loss.mean) / saved, best.foam / floor.foam
    foam = f"{100.0 * of_it:.0f} %" if of_it >= 0.01 else "less than 1 %"
    first = f"“{best.answer.name}” saves {100.0 * of_that:.0f} % of that with {foam} of the foam."
    if not _laid_too(best.answer, floor.answer):
        return [first]
    return [first, _not_here(floor, best, f"what is laid beyond “{best.answer.name}”", system)]


def _laid_too(fewer: Answer, more: Answer) -> bool:
    """Whether one alternative has all the foam of another, each piece where it lies there."""
    return all(_foam_of(section) <= _foam_of(more.sections[letter]) for letter, section in fewer.sections.items())


def _foam_of(section: Section) -> set[tuple[Outline, str]]:
    return {(part.outline, part.label) for part in section.parts if part.hatch.startswith(BOARDS)}


def _not_here(floor: Floor, other: Floor, what: str, system: System) -> str:
    """Foam that keeps in, while the room wants coolness, what it saves while the room wants heat, or more."""
    saves, keeps_in = floor.beyond(other)
    if keeps_in <= 0.0 or all(want == HEAT for want in floor.wanted):
        return ""
    saved, kept = (say.both(abs(energy), "kWh", system) for energy in (saves, keeps_in))
    if floor.room.cooled_told and not floor.room.cooled:
        does = f"saves {saved}" if saves > 0.0 else "saves nothing"
        return f"In the months in which the room wants heat {what} {does}; in the others it is let go."
    summer = f"in the months in which it is warmer outdoors than in the room, {what} keeps in {kept} that the ground "
    summer += "would take"
    do_not = DO_NOT if floor.room.cooled else f"where the room is cooled then, {DO_NOT}"
    if saves <= 0.0:
        return f"{summer[0].upper()}{summer[1:]}, and the rest of the year it saves nothing: {do_not}"
    if keeps_in >= saves:
        return f"{summer[0].upper()}{summer[1:]}, and it saves {saved} in the rest of the year: {do_not}"
    return f"{summer[0].upper()}{summer[1:]}, against {saved} saved in the rest of the year."
