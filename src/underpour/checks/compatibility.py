"""Does anything that gets to the foam attack it?"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from .. import catalogue
from ..catalogue.compatibility import Agent
from ..catalogue.records import Board, Quantity
from ..findings import Basis, Finding, Step
from ..measure import say
from ..measure.digits import fixed
from ..resolve import Resolved
from .boards import LaidBoard, laid_boards

ID = "product.compatible"
TYPED = "floor.touched-by"


@dataclass(frozen=True, slots=True)
class Touch:
    """Something that touches a board, or may."""

    agent: Agent
    paths: tuple[str, ...]  # where the brief says it
    sure: bool = True  # False where the use alone makes it likely
    parted_by: str = ""  # the layer that keeps it away


def foams(resolved: Resolved) -> Iterator[Finding]:
    """What attacks each board, of all that gets to it, and the steady heat it lies in.

    Asks
        Does anything that gets to the foam dissolve, melt or soften it?
    Why
        Fuel that runs through a joint, a torched sheet or a soft vinyl liner takes the foam from under a slab, and
        nobody sees it before the slab cracks.
    Worked out
        What the brief says of the floor, and the sheets beside the foam, against the catalogue's list of what attacks
        which foam and the product's own record; the warmest month of room or air against the heat that the foam
        stands under load.
    Holds for
        Contact for hours and more. Concentrations, mixtures and ground that is already foul are a laboratory's matter.
    Source
        Lists of the trade and makers' sheets, as each row says; the product's record.
    """
    told = False
    for laid in laid_boards(resolved):
        for touch in touches(resolved, laid):
            told = True
            yield _touched(resolved, laid, touch)
        if resolved.touched_by == ():
            told = True
            yield _untouched(laid)
        heat = steady_heat(resolved, laid.board)
        if heat is not None:
            yield _warmed(resolved, laid, heat)
    if not told:
        words = (
            "The brief names nothing that attacks foam. Where fuel, solvent, hot bitumen, soft vinyl, fat or hot water "
            f"may get to it, write {TYPED}."
        )
        yield Finding(
            ID, "What attacks the foam", None, "count", at={"against": "touch"}, no_limit="does not apply", words=words
        )


def touches(resolved: Resolved, laid: LaidBoard) -> Iterator[Touch]:
    """All that touches a board, or likely does, each agent once: as typed, by a sheet beside it, by the use."""
    if not _known(laid.board):
        return
    said: set[str] = set()
    for key in resolved.touched_by or ():
        said.add(key)
        yield Touch(catalogue.agent(key), (TYPED,))
    for touch in _beside(resolved, laid):
        if touch.agent.key not in said:
            said.add(touch.agent.key)
            yield touch
    if resolved.touched_by is None and any(path.startswith("floor.") for path in laid.paths):
        for agent in catalogue.agents():
            if resolved.use.key in agent.uses and agent.key not in said:
                yield Touch(agent, ("project.use",), sure=False)


def cautions(resolved: Resolved) -> frozenset[str]:
    """Names of the cautions that what gets to the foam, or may, asks for on every paper."""
    touching = (touch for laid in laid_boards(resolved) for touch in touches(resolved, laid))
    return frozenset(touch.agent.caution for touch in touching if touch.agent.caution)


def _known(board: Board) -> bool:
    """Whether what attacks its foam is known; an unsuited board is not asked."""
    return catalogue.steady_heat(board.material) is not None


def _beside(resolved: Resolved, laid: LaidBoard) -> Iterator[Touch]:
    """What a sheet in the floor puts on this board, on either side of it."""
    floor = resolved.floor
    for n, layer in enumerate(floor):
        brings = layer.film.brings if layer.film else ""
        if not brings:
            continue
        for way in (-1, 1):
            m = n + way
            between = []
            while 0 <= m < len(floor) and floor[m].film:
                between.append(floor[m].label)
                m += way
            if 0 <= m < len(floor) and floor[m].kind == "board" and floor[m].key == laid.board.key:
                heat_goes_through = brings == "hot-bitumen"
                parted = between[0] if between and not heat_goes_through else ""
                yield Touch(catalogue.agent(brings), (layer.path, floor[m].path), parted_by=parted)


def _touched(resolved: Resolved, laid: LaidBoard, touch: Touch) -> Finding:
    agent, board = touch.agent, laid.board
    at: dict[str, str | float] = {"product": board.key, "against": agent.key}
    title = f"{agent.label} against {board.label}"
    named, record = _record(resolved, board, agent)
    attacked = board.material in agent.attacks or bool(named)
    if attacked and not touch.sure:
        words = (
            f"On a floor of this use {agent.label.lower()} may get to the foam. {agent.happens} "
            f'Say what does: {TYPED} = ["{agent.key}"], or [] where nothing does.'
        )
        return Finding(ID, title, None, "count", at=at, missing="floor.touched-by", words=words)
    value = float(attacked and not touch.parted_by)
    if touch.parted_by:
        words = f"{touch.parted_by} parts them."
    elif attacked:
        own = f" The record of {board.label} names {named}." if named else ""
        words = f"{agent.happens}{own} {agent.do}"
    else:
        words = f"{board.label} stands it."
    return Finding(
        ID,
        title,
        value,
        "count",
        at=at,
        within=0.0,
        limit=0.0,
        sense="at most",
        basis=(agent.basis, *record),
        rests_on=(*laid.paths, *touch.paths),
        steps=(
            Step(
                "n",
                f"does it attack {board.material}, and does it get to it",
                f"{'yes' if attacked else 'no'}, {'no' if touch.parted_by else 'yes'}",
                f"{value:.0f}",
            ),
        ),
        words=words,
    )


def _record(resolved: Resolved, board: Board, agent: Agent) -> tuple[str, tuple[Basis, ...]]:
    """What the product's own record says of this agent, and its source; nothing for a class."""
    if not resolved.products.has(board.key):
        return "", ()
    named = agent.named_by(resolved.products.product(board.key))
    origin = resolved.products.line_of(board.key).source
    return named, (Basis(origin.title, f"attacked-by: {named}", origin.seen),) if named else ()


def _untouched(laid: LaidBoard) -> Finding:
    return Finding(
        ID,
        f"What attacks {laid.board.label}",
        0.0,
        "count",
        at={"product": laid.board.key, "against": "touch"},
        within=0.0,
        limit=0.0,
        sense="at most",
        basis=(Basis("the brief", TYPED, "document"),),
        rests_on=(*laid.paths, TYPED),
        steps=(Step("n", "what gets to the foam and attacks it", "nothing, as the brief says", "0"),),
        words="Nothing gets to it, as the brief says.",
    )


def steady_heat(resolved: Resolved, board: Board) -> Quantity | None:
    """The steady heat that a board stands under load: its maker's word, or what is usual for its foam. [degC]"""
    usual = catalogue.steady_heat(board.material)
    if usual is None or not resolved.products.has(board.key):
        return usual
    service, of = resolved.products.product(board.key).service, resolved.products.line_of(board.key)
    if service is None:
        return usual
    loaded = service.high_loaded or service.high
    path = f"catalogue.product.{board.key}.service"
    return Quantity(
        loaded.si, "degC", loaded.si, loaded.si, of.source, f"service, {loaded.typed} under load", of.source.seen, path
    )


def _warmed(resolved: Resolved, laid: LaidBoard, heat: Quantity) -> Finding:
    room = resolved.room.mean + abs(resolved.room.swing)
    air = resolved.outdoor_mean + abs(resolved.outdoor_swing)
    warmest = max(room, air)
    allowed = say.both(heat.value, "degC", resolved.system)
    return Finding(
        ID,
        f"Steady heat on {laid.board.label} under load",
        warmest,
        "degC",
        at={"product": laid.board.key, "against": "steady-heat"},
        within=0.0,
        limit=heat.value,
        sense="at most",
        basis=(heat.basis(),),
        rests_on=(*laid.paths, *resolved.room.rests_on, resolved.climate_path, heat.path),
        steps=(
            Step(
                "θ",
                "warmer of room and air in their warmest month",
                f"{fixed(room, 1)} and {fixed(air, 1)} °C",
                f"{fixed(warmest, 1)} °C",
            ),
        ),
        words=f"It stands {allowed} under load. Tubes, ducts and hot plant in the floor are not counted: keep them "
        "below that.",
    )
