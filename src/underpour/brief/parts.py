"""The parts of a brief that can be read, so that one mistake does not hide the next."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, TypeVar

from pydantic import TypeAdapter, ValidationError

from .kinds import Sides, SidesTyped
from .layers import TypedLayer
from .model import Project
from .tables.edge import Edge
from .tables.floor import FloorTable
from .tables.joint import Joint
from .tables.layer import Layer
from .tables.load import Load
from .tables.money import Money
from .tables.plan import Plan
from .tables.site import Site
from .tables.soil_gas import SoilGas
from .tables.stage import Stage
from .tables.table import Table

_T = TypeVar("_T", bound=Table)
_SIDES: TypeAdapter[Sides] = TypeAdapter(SidesTyped)


@dataclass(frozen=True, slots=True)
class Parts:
    """What could be read; None where a table is missing or cannot be used."""

    project: Project | None
    site: Site | None
    typed_site: Mapping[str, Any]  # as it stands in the file, keys that cannot be read too
    plan: Plan | None
    holes_known: bool  # whether every hole and every name of a side could be read
    floor: FloorTable | None  # without its layers where one of them cannot be read
    layers: tuple[Layer | None, ...]
    typed_layers: tuple[TypedLayer, ...] | None  # None where the build-up is no list of tables
    edges: tuple[Edge | None, ...]
    typed_edges: tuple[Mapping[str, Any], ...]
    sides: tuple[Sides | None, ...]
    loads: tuple[Load | None, ...]
    joints: tuple[Joint | None, ...]
    stages: tuple[Stage | None, ...]
    typed_bays: tuple[Mapping[str, Any], ...]
    soil_gas: SoilGas | None
    money: Money | None


def readable(data: Mapping[str, Any]) -> Parts:
    """The readable parts of a brief's data."""
    floor, site = data.get("floor"), data.get("site")
    typed_layers = tables_in(floor.get("build-up")) if isinstance(floor, dict) else None
    layers = tuple(_part(Layer, layer) for layer in typed_layers or ())
    edges = tables_in(data.get("edge")) or ()
    plan = _part(Plan, data.get("plan"))
    without_layers = {**floor, "build-up": []} if isinstance(floor, dict) else None
    return Parts(
        project=_part(Project, data.get("project")),
        site=_part(Site, site),
        typed_site=site if isinstance(site, dict) else {},
        plan=plan,
        holes_known=plan is not None and all(_as_many(plan, data["plan"], key) for key in ("hole", "side")),
        floor=_part(FloorTable, without_layers),
        layers=layers,
        typed_layers=typed_layers,
        edges=tuple(_part(Edge, edge) for edge in edges),
        typed_edges=edges,
        sides=tuple(_sides(edge.get("sides")) for edge in edges),
        loads=tuple(_part(Load, load) for load in tables_in(data.get("load")) or ()),
        joints=tuple(_part(Joint, joint) for joint in tables_in(data.get("joint")) or ()),
        stages=tuple(_part(Stage, stage) for stage in tables_in(data.get("stage")) or ()),
        typed_bays=(tables_in(floor.get("bay")) or ()) if isinstance(floor, dict) else (),
        soil_gas=_part(SoilGas, data.get("soil-gas")),
        money=_part(Money, data.get("money")),
    )


def _as_many(plan: Plan, typed: Mapping[str, Any], key: str) -> bool:
    """Whether a list of the plan has as many entries as were typed."""
    listed = typed.get(key, ())
    return isinstance(listed, list | tuple) and len(listed) == len(getattr(plan, key))


def tables_in(value: object) -> tuple[Mapping[str, Any], ...] | None:
    """A list of tables as it was typed; None where it is none."""
    if not isinstance(value, list) or not all(isinstance(entry, dict) for entry in value):
        return None
    return tuple(value)


def _part(table: type[_T], data: object) -> _T | None:
    """One table, read without the keys that cannot be; None where it cannot stand without them."""
    if not isinstance(data, dict):
        return None
    try:
        return table.model_validate(data)
    except ValidationError as wrong:
        bad = {error["loc"][0] for error in wrong.errors(include_url=False) if error["loc"]}
    try:
        return table.model_validate({key: value for key, value in data.items() if key not in bad})
    except ValidationError:
        return None


def _sides(typed: object) -> Sides | None:
    try:
        return _SIDES.validate_python(typed)
    except ValidationError:
        return None
