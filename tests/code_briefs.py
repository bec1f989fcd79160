"""Floors held to a code without being solved: codes read labels and lengths, not temperatures."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from types import SimpleNamespace
from typing import Any

from underpour.brief import reads
from underpour.checks import code
from underpour.checks.solved import SolvedEdge
from underpour.findings import Finding
from underpour.physics.conduction.solve import Told
from underpour.resolve import Resolved, resolve
from underpour.sections.levels import levels

TEXT = """\
[project]
use = "{use}"
code = {code}
{project}
[site]
{place}
{site}
[plan]
outline = ["0 0", "40 0", "40 28", "0 28"]
unit = "ft"

[floor]
{inside}
build-up = [{layers}]

[[edge]]
sides = "all"
{edge}
{more}
"""
FROST_WALL = 'kind = "frost-wall"\ndepth = "72 in"'
BASEMENT = 'kind = "footing-wall"\ndepth = "18 in"'
IN_THE_COLD = "monthly = [" + ", ".join(f'"{t} C"' for t in (-10, -8, -2, 5, 12, 17, 20, 18, 13, 7, 0, -7)) + "]"
IN = 0.0254  # m
PER_INCH = 5.0  # R of a board of class c578-iv by the inch


def text(**told: Any) -> str:
    """A brief; each key of the pattern may be given."""
    edge = f'{told.get("kind", FROST_WALL)}\nground = "{told.get("ground", "-8 in")}"\n'
    pieces = ", ".join(told.get("pieces", ()))
    return TEXT.format(
        use=told.get("use", "dwelling"),
        code=f'"{told["code"]}"' if "code" in told else "[]",
        project=told.get("project", ""),
        place=told.get("place", IN_THE_COLD),
        site="\n".join([f'zone = "{told["zone"]}"' if "zone" in told else "", told.get("site", "")]),
        inside=told.get("inside", 'inside = "68 F"'),
        layers=", ".join(told.get("layers", ('{ concrete = "4 in" }', '{ gravel = "4 in" }'))),
        edge=edge + (f"insulation = [{pieces}]" if pieces else ""),
        more=told.get("more", ""),
    )


def board(resistance: float, face: str = "", **more: str) -> str:
    """A piece of foam, or a layer of it, of that R."""
    keys = {"face": face, **more} if face else more
    told = "".join(f', {key} = "{value}"' for key, value in keys.items())
    return f'{{ board = "c578-iv", thickness = "{resistance / PER_INCH:.4f} in"{told} }}'


def found(brief: str, file: str = "") -> Iterator[Finding]:
    """What the code's checks say of a brief, one after the other, its sections not solved."""
    resolved = resolve(reads(brief, file).brief)
    yield from code.asked(resolved, unsolved(resolved))


def unsolved(resolved: Resolved) -> list[SolvedEdge]:
    """The edges with their levels alone, and 1 W/m through each floor."""
    nothing: Any = None
    heat: Any = SimpleNamespace(flow=lambda chosen: Told(1.0, 0j, 0.0))
    return [SolvedEdge(edge, nothing, levels(resolved, edge), heat, nothing) for edge in resolved.edges]


def one(brief: str, id: str, file: str | Path = "", **at: str) -> Finding:
    """The first finding of that id and instance."""
    for finding in found(brief, str(file)):
        if finding.id == id and all(finding.at.get(key) == value for key, value in at.items()):
            return finding
    raise KeyError((id, at))
