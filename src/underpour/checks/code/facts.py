"""The facts that decide whether a row of a code applies: true, false, or the key of the brief that would tell."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from ...catalogue import codes
from ...catalogue.codes import triggers
from ...resolve import Resolved, ResolvedEdge

Fact = bool | str
Facts = Mapping[str, Fact]

NEAR = 1e-4  # m: what a tape cannot tell
IN_ONE = ("raft", "thickened-edge", "free-edge")  # slab and footing are one pour


def facts(resolved: Resolved, edge: ResolvedEdge | None = None) -> Facts:
    """Every trigger word with its fact, at one edge or for the floor as a whole.

    Of the whole floor a word about the ground is true where it is true at any edge; that it lies below the frost
    line is true only where it is true at all of them.
    """
    held, use = resolved.held, resolved.use
    edges = (edge,) if edge is not None else resolved.edges
    work = held.work or _key("new")
    conditioned: Fact = _key("conditioned") if held.conditioned is None else held.conditioned
    return {
        "conditioned": conditioned,
        "heated-slab": held.heated,
        "basement": any_of(edges, basement),
        "below-grade": any_of(edges, lambda each: below(each, 0.0)),
        "below-frost-line": all_of(edges, lambda each: below_frost(each, held.frost_depth)),
        "monolithic": any(each.kind in IN_ONE for each in edges),
        "outdoors": resolved.outdoors,
        "unheated-accessory": _unheated(held.winter, use.key),
        "garage": use.key == "garage",
        "granular-fill": sum(stone.thickness for stone in resolved.floor if stone.kind == "gravel") >= _granular(),
        "foam": bool(resolved.boards),
        **{word: work == word if held.work else work for word in ("new", "addition", "alteration")},
        "heat-recovery": _key("heat-recovery") if held.heat_recovery is None else held.heat_recovery,
        "very-heavy-termites": _very_heavy(resolved),
    }


def _very_heavy(resolved: Resolved) -> Fact:
    """Whether termites are very heavy: as typed, or not where the code's map has none such in the state."""
    typed = resolved.around.termites
    if typed:
        return typed == "very-heavy"
    nowhere = resolved.zone.country == "US" and not resolved.around.may_be_very_heavy
    return False if nowhere else _key("very-heavy-termites")


def _unheated(winter: float | None, use: str) -> Fact:
    """Whether nothing heats an accessory, or only so much that it does not freeze; a warmer winter says that it is."""
    if use not in codes.accessory():
        return False
    return _key("unheated-accessory") if winter is None else winter <= codes.unheated_to()


def _granular() -> float:
    """The thickness of stone that counts as granular fill, less what a tape cannot tell. [m]"""
    return codes.granular_from() - NEAR


def basement(edge: ResolvedEdge) -> Fact:
    """Whether the floor is a basement's at this edge: on a footing with its wall in the ground."""
    return edge.kind == "footing-wall" and below(edge, 0.0)


def below(edge: ResolvedEdge, depth: float) -> Fact:
    """Whether the floor lies deeper below the ground outside than that. [m]"""
    return edge.ground > depth if edge.ground_told else f"{edge.path}.ground"


def below_frost(edge: ResolvedEdge, frost: float | None) -> Fact:
    """Whether the whole floor lies below the frost line there; one at or above the ground never does. [m]"""
    sunk = below(edge, 0.0)
    if sunk is not True:
        return sunk
    return _key("below-frost-line") if frost is None else edge.ground >= frost


def any_of(edges: Sequence[ResolvedEdge], fact: Callable[[ResolvedEdge], Fact]) -> Fact:
    """True where one is true, else the first that is not told, else false."""
    found = [fact(edge) for edge in edges]
    return True if True in found else next((each for each in found if isinstance(each, str)), False)


def all_of(edges: Sequence[ResolvedEdge], fact: Callable[[ResolvedEdge], Fact]) -> Fact:
    """False where one is false, else the first that is not told, else true."""
    return both(*(fact(edge) for edge in edges))


def both(*found: Fact) -> Fact:
    """False where one is false, else the first that is not told, else true.

    >>> both(True, "site.zone", False), both(True, "site.zone"), both()
    (False, 'site.zone', True)
    """
    return False if False in found else next((each for each in found if isinstance(each, str)), True)


def no(fact: Fact) -> Fact:
    """The opposite; what is not told stays so."""
    return fact if isinstance(fact, str) else not fact


def _key(word: str) -> str:
    return triggers()[word][1]
