"""Joints of the slab in numbers: where each lies, and what share of a settlement it hands on."""

from __future__ import annotations

from dataclasses import dataclass

from .. import catalogue
from ..brief.joints import lines_of_joint
from ..brief.model import Brief
from ..brief.tables.joint import Joint
from ..findings import Assumed, Basis
from ..outlines.floor import Floor
from .assumptions import Assumptions

WORDS = {
    "none": "hands nothing on",
    "dowels": "dowels",
    "keyed": "a key",
    "aggregate": "the broken faces of the crack",
}


@dataclass(frozen=True, slots=True)
class ResolvedJoint:
    """One joint, or a grid of joints that are alike."""

    number: str  # "1", as the brief counts
    kind: str  # control, construction
    path: str  # "joint.1"
    lines: tuple[tuple[str, float, float, float], ...]  # "x" where x is constant; there, from, to; m
    share: float  # settlement of the unloaded side over that of the loaded one
    words: str  # "dowels, 85 %"
    basis: tuple[Basis, ...]
    rests_on: tuple[str, ...]


def slab_joints(brief: Brief, floor: Floor, assumed: Assumptions) -> tuple[ResolvedJoint, ...]:
    """Every joint, what nobody typed listed as assumed."""
    return tuple(
        _joint(joint, f"joint.{number}", floor, brief.plan.unit, assumed)
        for number, joint in enumerate(brief.joint, start=1)
    )


def _joint(joint: Joint, path: str, floor: Floor, unit: str, assumed: Assumptions) -> ResolvedJoint:
    by: str = joint.transfer or ""
    if not by:
        why = "nothing told of dowels or a key: two edges side by side (common practice, no source)"
        by = assumed.take_word(Assumed(f"{path}.transfer", "none", None, None, "1", why))
    usual = catalogue.of_slabs(f"transfer-{by}")
    basis: tuple[Basis, ...] = (usual.basis(),)
    rests_on: tuple[str, ...] = (path, usual.path)
    if joint.share is not None:
        share, basis, rests_on = joint.share.si, (Basis("the brief", f"{path}.share", "document"),), (path,)
    elif by == "none":
        share = 0.0
    else:
        low, high = 100.0 * usual.low, 100.0 * usual.high
        why = f"{usual.where} (common practice, no source)"
        share = assumed.take(Assumed(f"{path}.share", 100.0 * usual.value, low, high, "%", why)) / 100.0
    words = WORDS[by] if by == "none" else f"{WORDS[by]}, {100.0 * share:.0f} %"
    number = path.rpartition(".")[2]
    return ResolvedJoint(number, joint.kind, path, lines_of_joint(joint, floor, unit), share, words, basis, rests_on)
