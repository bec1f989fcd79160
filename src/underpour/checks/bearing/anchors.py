"""Holes for anchors: whether they end in the concrete, clear of foam and tubes."""

from __future__ import annotations

from collections.abc import Iterator

from ... import catalogue
from ...findings import Basis, Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...resolve import Resolved, ResolvedLoad, Support
from .plates import thickness_under

ID, TITLE = "bearing.anchor-depth", "Depth of the holes for anchors"
ASKED = ("lift",)  # never stands without anchors
TAPE = Basis("thicknesses of slab and pad, as typed", "less what stays", "derived")


def drilled(resolved: Resolved, support: Support, load: ResolvedLoad) -> Iterator[Finding]:
    """Depth of the holes for a load's anchors against the concrete that is there.

    Asks
        Do the holes for the anchors end in the concrete?
    Why
        A drill that breaks through into the foam leaves the anchor no concrete to spread against, and cuts the film. A
        tube that is met floods the slab.
    Worked out
        Thickness of the slab, or of the pad below the load, less the concrete that stays below a hole; where tubes lie
        in the slab, their depth less the concrete that stays over them, if that is less.
    Holds for
        Slabs as thick as drawn. What an anchor holds, how near to an edge and to the next, is its maker's and the
        engineer's; a lift's maker asks a thickness of its own.
    Source
        Common practice, no source; the anchor's approval goes before it.
    """
    at: dict[str, str | float] = {"load": load.number}
    if load.anchor_depth is None:
        if load.kind in ASKED:
            words = (
                f"{load.words}: it is held by anchors, and the brief does not say how deep they are drilled. "
                'Its maker does: write anchor-depth = "3 in" in this [[load]].'
            )
            yield Finding(ID, TITLE, None, "mm", at=at, missing=f"{load.path}.anchor-depth", words=words)
        return
    if support.heated and support.tube_depth is None:
        words = (
            f"{load.words}: tubes lie in this slab, and the brief does not say how deep. "
            'Write depth-from-top = "2 in" in [tube]; nobody drills before they are located.'
        )
        yield Finding(ID, TITLE, None, "mm", at=at, missing="tube.depth-from-top", words=words)
        return
    yield _held(resolved, support, load, load.anchor_depth, at)


def _held(
    resolved: Resolved, support: Support, load: ResolvedLoad, depth: float, at: dict[str, str | float]
) -> Finding:
    below, beside = catalogue.of_slabs("below-anchor"), catalogue.of_slabs("beside-tube")
    thickness = thickness_under(support, load)
    room, stays, what = thickness, below, "pad" if load.pad else "slab"
    if support.tube_depth is not None and support.tube_depth - beside.value < thickness - below.value:
        room, stays, what = support.tube_depth, beside, "concrete over the tubes"
    limit = room - stays.value
    short = depth > limit

    def said(length: float) -> str:
        return say.both(length, "m", resolved.system)

    through = " It goes right through into what lies below." if depth >= thickness else ""
    mend = f"{through} Shorter anchors, or a pad below it." if short else ""
    tubes = " Have the tubes located all the same before anybody drills." if support.heated else ""
    return Finding(
        ID,
        TITLE,
        1000.0 * depth,
        "mm",
        at=at,
        within=0.0,
        limit=1000.0 * limit,
        sense="at most",
        basis=(TAPE, stays.basis()),
        rests_on=(
            f"{load.path}.anchor-depth",
            *(load.pad.paths if load.pad else (support.concrete.thickness_path,)),
            *(("tube.depth-from-top",) if support.heated else ()),
            stays.path,
        ),
        steps=(
            Step(
                "t",
                f"{what} − what stays",
                f"{fixed(1000.0 * room, 1)} − {fixed(1000.0 * stays.value, 0)}",
                f"{fixed(1000.0 * limit, 1)} mm",
            ),
        ),
        words=f"{load.words}: its anchors are drilled {said(depth)} deep; the {what} has room for {said(limit)}.{mend}"
        f"{tubes}",
    )
