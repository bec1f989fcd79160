"""The guide of one product: the rows of the works that touch it, with words that hold wherever it is laid."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ..catalogue.products import FLAT, SHAPED
from ..catalogue.read import table as catalogue_table
from ..measure import Measure, say
from ..measure.table import System
from .inspection import points
from .records import Point, Work
from .sequence import Act, Stage, work
from .table import Row, asked, measured, table
from .things import Thing

if TYPE_CHECKING:
    from ..catalogue.line import Product
    from ..catalogue.records import Use

TIED = "\N{NO-BREAK SPACE}"  # a line never ends between a number and its unit
DRAWN = "as far as the drawing shows"
FITTINGS = ("tape", "edge-strip", "drain", "clip")
ON = {"ground": "the ground", "gravel": "the gravel", "vapour-retarder": "the film", "board": "the boards"}
COVERED = {"vapour-retarder": "before the film", "board": "before the boards", "concrete": "before the pour"}
LAID = ("before", "layer", "slab-edge", "after")  # groups of the table that hold what lies in a build-up


@dataclass(frozen=True, slots=True)
class Guide:
    """What a crew is told of one product, whatever the job."""

    usual: str  # the build-up that its words are taken for
    works: tuple[Work, ...]
    points: tuple[Point, ...]


def guide(product: Product, use: Use | None, system: System) -> Guide:
    """The works of one product in their order, and what to look at in them.

    Parameters
    ----------
    product : Product
        A record of the line.
    use : Use, optional
        What the floor is for: outdoors nothing is said of radon, in a cold store what freezes is.
    system : "US" or "SI"
        Which measures of the trade come first.
    """
    stages = tuple(_stages(product, use, system))
    return Guide(_usual(product, use), tuple(each.work for each in stages), points(stages, ()))


def things(product: Product, use: Use | None) -> tuple[Thing, ...]:
    """The product as the table of works asks for it: itself, as a layer, at the edges, or as a fitting."""
    features = frozenset(_features(product, use))
    words = _words(product)
    itself = Thing("product", product.kind, "", "", features, words, ())
    if product.kind in FITTINGS:
        return (itself, Thing("fitting", product.kind, "", "", features, words, ()))
    return (itself, *_layers(product, features, words), *_pieces(product, features, words))


def _stages(product: Product, use: Use | None, system: System) -> Iterator[Stage]:
    measures = measured("sequence", system)
    rows = table("sequence")
    there = things(product, use)
    number = 0
    for group in ("product-before", *LAID, "fitting", "product-after"):
        taken = [(row, thing) for row in rows[group] for thing in there if _taken(row, thing, group)]
        if group == "layer":  # layer upon layer, from the ground up
            taken.sort(key=lambda each: there.index(each[1]))
        for row, thing in taken:
            number += 1
            act = Act(row, thing, {**measures, **thing.words})
            yield Stage(work(number, [act]), (act,))


def _taken(row: Row, thing: Thing, group: str) -> bool:
    if row.get("rest", False) or (group == "layer") != (thing.each == "layer"):
        return False
    return asked(row, thing)


def _usual(product: Product, use: Use | None) -> str:
    """The build-up, from the ground up, that the words of a layer are taken for.

    A film lies right under the concrete, as in the starter briefs: below the boards where the room is kept cold, and
    below a panel whose knobs the concrete fills. Outdoors there is none.
    """
    above = "gravel, boards, film, concrete"
    below = "gravel, film, boards, concrete"
    none = "gravel, boards, concrete"
    flat = {"": above, "cold-floor": below, "outdoors": none}[_room(use)]
    usual = {
        **dict.fromkeys(FLAT, flat),
        "film": below if flat is below else above,
        "gravel": flat,
        "tube-panel": none if flat is none else below,
        "soil-gas-panel": "levelled ground, panels, film, concrete",
    }
    return usual.get(product.kind, "")


def _room(use: Use | None) -> str:
    """What a use says of the room above: "outdoors", "cold-floor", or nothing of either."""
    if use is None:
        return ""
    return "outdoors" if use.room is None else "cold-floor" if use.cold_floor else ""


def _features(product: Product, use: Use | None) -> Iterator[str]:
    if product.family is not None:
        kind = catalogue_table("foams")[product.family]
        yield from ("board", "foam", str(kind["hatch"]))
        if kind["combustible"]:
            yield "burns"
    yield from (edge.profile for edge in product.edges if edge.profile != "square")
    present = {
        "knobs": product.pattern,
        "channels": product.channels,
        "shaped": product.kind in SHAPED,
        "labelled": any(made.r_label for made in product.made),
        "service": product.service,
        "service-loaded": product.service and product.service.high_loaded,
        "attacked": product.attacked_by,
        "lap": product.lap,
        "tested-to": _tested_to(product),
        "taped": product.facing and product.facing.tapes,
        "untaped": product.facing and not product.facing.tapes,
    }
    yield from (name for name, there in present.items() if there)
    if _room(use):
        yield _room(use)


def _tested_to(product: Product) -> tuple[str, ...]:
    return tuple(dict.fromkeys(each.conditions.to for each in product.evidence if each.conditions.to))


def _words(product: Product) -> Mapping[str, str]:
    name = product.name or product.key
    words = {
        "name": name,
        "board": name,
        "layer": name,
        "reach": DRAWN,
        "top": "its upper end",
        "outside": "whose level the drawing shows",
        "poured": "pour",
        "classes": f", {'; '.join(product.claims)}" if product.claims else "",
        "attacked": ", ".join(product.attacked_by),
        "films": " and to ".join(_tested_to(product)),
        "tape": " or ".join(product.facing.tapes) if product.facing else "",
        "overlap": _length(product.lap) if product.lap else "",
    }
    if product.service:
        words |= {"low": _degrees(product.service.low), "high": _degrees(product.service.high)}
        words |= {"loaded": _degrees(product.service.high_loaded)} if product.service.high_loaded else {}
    if product.pattern:
        words |= {"bend": _length(product.pattern.least_bend), "tubes": f"tube of {', '.join(product.pattern.tubes)}"}
    return words


def _length(measure: Measure) -> str:
    return say.typed(measure, "m", "US")


def _degrees(measure: Measure) -> str:
    return say.typed(measure, "degC", "US").replace(" ", TIED, 1)


def _layers(product: Product, features: frozenset[str], words: Mapping[str, str]) -> Iterator[Thing]:
    """The product as a layer of its usual build-up; flat boards in two layers, since many floors have two."""
    if product.kind in (*FLAT, *SHAPED):
        below, above = _beside(product, features)
        yield _layer("board", features, words, below, above)
        if product.kind in FLAT:
            second = {**words, "layer": f"a second layer of {words['name']}"}
            yield _layer("board", features, second, "board", above)
    elif product.kind == "film":
        below, above = ("gravel", "board") if "cold-floor" in features else ("board", "concrete")
        yield _layer("vapour-retarder", features, words, below, above)
    elif product.kind == "gravel":
        above = "vapour-retarder" if "cold-floor" in features else "board"
        yield _layer("gravel", features, words, "ground", above)


def _beside(product: Product, features: frozenset[str]) -> tuple[str, str]:
    """What lies below boards and what lies on them, in their usual build-up."""
    if product.channels is not None:
        return "ground", "vapour-retarder"
    if "outdoors" in features:
        return "gravel", "concrete"
    if product.pattern is not None or "cold-floor" in features:
        return "vapour-retarder", "concrete"
    return "gravel", "vapour-retarder"


def _layer(each: str, features: frozenset[str], words: Mapping[str, str], below: str, above: str) -> Thing:
    on = "the levelled ground" if "channels" in features else ON[below]
    said = {**words, "below": on, "covered": COVERED[above]}
    return Thing("layer", each, "", "", features | {f"on:{below}", f"under:{above}"}, said, ())


def _pieces(product: Product, features: frozenset[str], words: Mapping[str, str]) -> Iterator[Thing]:
    """A flat board at the edges where boards are usual; below a footing it lies by an engineer's drawing alone."""
    if product.kind not in FLAT:
        return
    outside = features | {"on-footing", "shows", "goes-up-the-wall"}
    yield Thing("piece", "outside", "frost-wall", "", outside, words, ())
    yield Thing("piece", "slab-edge", "footing-wall", "", features | {"on-footing"}, words, ())
    yield Thing("piece", "slab-edge", "raft", "", features, words, ())
    yield Thing("piece", "inside", "footing-wall", "", features | {"on-footing", "above-floor"}, words, ())
