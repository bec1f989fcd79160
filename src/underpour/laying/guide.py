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
    return Guide(_usual(product), tuple(each.work for each in stages), points(stages, ()))


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


def _usual(product: Product) -> str:
    """The build-up, from the ground up, that the words of a layer are taken for."""
    usual = {
        "film": "gravel, boards, film, concrete",
        "gravel": "ground, gravel, boards, concrete",
        **dict.fromkeys((*FLAT, "tube-panel"), "gravel, film, boards, concrete"),
        "soil-gas-panel": "levelled ground, panels, film, concrete",
    }
    return usual.get(product.kind, "")


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
    if use is not None and use.room is None:
        yield "outdoors"
    if use is not None and use.cold_floor:
        yield "cold-floor"


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
    name = words["name"]
    if product.kind in (*FLAT, *SHAPED):
        channelled = product.channels is not None
        on, over = ("ground", "vapour-retarder") if channelled else ("vapour-retarder", "concrete")
        below = "the levelled ground" if channelled else "the film"
        first = features | {f"on:{on}", f"under:{over}"}
        covered = "before the film" if channelled else "before the pour"
        yield Thing("layer", "board", "", "", first, {**words, "below": below, "covered": covered}, ())
        if product.kind in FLAT:
            second = {
                **words,
                "layer": f"a second layer of {name}",
                "below": "the boards",
                "covered": "before the pour",
            }
            yield Thing("layer", "board", "", "", features | {"on:board", "under:concrete"}, second, ())
    elif product.kind == "film":
        at = {**words, "below": "the boards", "covered": "before the pour"}
        yield Thing("layer", "vapour-retarder", "", "", features | {"on:board", "under:concrete"}, at, ())
    elif product.kind == "gravel":
        at = {**words, "below": "the ground", "covered": "before the boards"}
        yield Thing("layer", "gravel", "", "", features | {"on:ground", "under:board"}, at, ())


def _pieces(product: Product, features: frozenset[str], words: Mapping[str, str]) -> Iterator[Thing]:
    """A flat board at the edges where boards are usual; below a footing it lies by an engineer's drawing alone."""
    if product.kind not in FLAT:
        return
    outside = features | {"on-footing", "shows", "goes-up-the-wall"}
    yield Thing("piece", "outside", "frost-wall", "", outside, words, ())
    yield Thing("piece", "slab-edge", "footing-wall", "", features | {"on-footing"}, words, ())
    yield Thing("piece", "slab-edge", "raft", "", features, words, ())
    yield Thing("piece", "inside", "footing-wall", "", features | {"on-footing", "above-floor"}, words, ())
