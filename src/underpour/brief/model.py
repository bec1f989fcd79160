"""The brief as read: what the user typed, every measure in SI with its words, nothing filled in.

Field names are the keys of the file with ``-`` for ``_``; help texts and examples go into the JSON Schema, the
documents and the mistakes.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import Literal, get_args

from pydantic import StrictBool
from pydantic.fields import FieldInfo

from . import kinds
from .tables.choose import Choose
from .tables.edge import Edge
from .tables.floor import FloorTable
from .tables.foam import FoamTable
from .tables.handover import Accept, Handover
from .tables.joint import Joint
from .tables.laying import Laying
from .tables.load import Load
from .tables.money import Money
from .tables.plan import Plan
from .tables.site import Site
from .tables.soil_gas import SoilGas
from .tables.stage import Stage
from .tables.table import Table, key
from .tables.tube import Tube


class Project(Table):
    """What the job is called and what the floor is for."""

    title: str = key("What the job is called; printed on every paper.", "Boat workshop, north shore", default="")
    use: str = key("What the floor is for.", "dwelling", "basement", "garage", "workshop", "cold-store")
    units: Literal["US", "SI"] | None = key("The system that answers are printed in first.", "US", "SI", default=None)
    code: kinds.Words = key(
        "The edition of the code that the floor is held to, or several side by side.",
        "irc-2018",
        ["irc-2018", "irc-2021"],
        "nbc-2020",
        "good-practice",
        default=(),
    )
    local_code: kinds.Files = key(
        "A file of local amendments or of house rules, or several, from the brief's folder.",
        "county.toml",
        ["codes/county.toml", "codes/house-rules.toml"],
        default=(),
    )
    work: Literal["new", "addition", "alteration"] | None = key(
        "Whether the building is new, an addition to one, or one that is altered, where the code asks.",
        "new",
        "addition",
        "alteration",
        default=None,
    )
    heat_recovery: StrictBool | None = key(
        "Whether a ventilator that recovers heat serves the building, where the code asks.", True, default=None
    )


class Alternative(Table):
    """A named change to the brief, compared with it."""

    name: str = key("What to call it.", "bare slab")
    remove: tuple[str, ...] = key(
        "Kinds of layer, or paths, to take out.", ["board"], ["edge.A.insulation"], default=()
    )
    set: dict[str, object] = key(
        "Paths, each with what to write there.", {"floor.build-up.2.thickness": "3 in"}, default={}
    )
    edge: tuple[dict[str, object], ...] = key("Edges, each in place of the one of the same name or letter.", default=())


class Brief(Table):
    """One job: what is asked."""

    project: Project = key("What the job is called and what the floor is for.")
    site: Site = key("Where the slab is poured and on what.")
    plan: Plan = key("The floor seen from above.")
    floor: FloorTable = key("The room and the layers under it.")
    edge: tuple[Edge, ...] = key("How the build-up ends, one table for each kind of edge.")
    load: tuple[Load, ...] = key(
        "What stands on the floor or its footing.",
        [{"kind": "wall", "at": "edge A", "force": "1500 lb/ft"}],
        default=(),
    )
    joint: tuple[Joint, ...] = key(
        "Joints in the slab.", [{"spacing": "15 ft", "transfer": "dowels", "share": "85 %"}], default=()
    )
    foam: FoamTable = key(
        "By which basis foam may carry something for good, and how wet it lies.", default_factory=FoamTable
    )
    tube: Tube | None = key("The tube in a heated slab.", {"size": "1/2 in", "spacing": "9 in"}, default=None)
    soil_gas: SoilGas | None = key(
        "Soil gas: what is laid to draw it off, what keeps it out, and what was measured.",
        {"system": "rough-in"},
        default=None,
    )
    stage: tuple[Stage, ...] = key(
        "Stages of the works and times without heat that frost may meet.",
        [{"what": "poured", "from": "15 October"}, {"what": "heated", "from": "15 January"}],
        default=(),
    )
    laying: Laying | None = key(
        "How the boards of the floor are laid.",
        {"rows": "x", "stagger": "12 in"},
        default=None,
    )
    money: Money | None = key(
        "Prices, what heats the room, and how later years count; without it nothing is priced.",
        {"currency": "USD", "date": "2026-11-01", "fuel": "natural-gas", "fuel-price": "1.40 USD/therm"},
        default=None,
    )
    choose: Choose | None = key(
        "What `choose` may take, and by what the best is told.",
        {"boards": ["plain-15", "plain-25"], "layers": 1, "least-by": "first cost"},
        default=None,
    )
    handover: Handover = key("What stands on the first sheet of a submittal.", default_factory=Handover)
    accept: tuple[Accept, ...] = key("Shortfalls that somebody accepted.", default=())
    alternative: tuple[Alternative, ...] = key("Changes to compare with the brief.", default=())


@cache
def fields() -> dict[str, tuple[type[Table], FieldInfo]]:
    """Every key of the brief by its path without numbers ("edge.insulation.face"): its table and its field."""
    return dict(_fields_of(Brief, ""))


def _fields_of(table: type[Table], above: str) -> Iterator[tuple[str, tuple[type[Table], FieldInfo]]]:
    for field in table.model_fields.values():
        path = f"{above}.{field.alias}" if above else str(field.alias)
        yield path, (table, field)
        for inner in _tables_in(field.annotation):
            yield from _fields_of(inner, path)


def _tables_in(annotation: object) -> Iterator[type[Table]]:
    if isinstance(annotation, type) and issubclass(annotation, Table):
        yield annotation
    for part in get_args(annotation):
        yield from _tables_in(part)


def keys_of(path: str) -> list[str]:
    """The keys that the table at a path without numbers can hold; "" is the brief itself."""
    depth = path.count(".") + 1 if path else 0
    return [
        key.rsplit(".", 1)[-1] for key in fields() if key.startswith(path and f"{path}.") and key.count(".") == depth
    ]
