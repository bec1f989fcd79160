"""What a crew gets in hand: delivery, weights, plans, rows, cuts by panel, the order of the work; and labels."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import TYPE_CHECKING, Any

from .. import __version__
from ..catalogue.estimating import estimating
from ..drawings.film_plan import film_words
from ..measure import say
from ..takeoff.as_laid import rest_words
from ..takeoff.cutting import Cut, cuts, is_whole, kept, numbered, too_small
from ..takeoff.edges import sawn_strips
from ..takeoff.lifting import loose_boards, weights
from .letters import Letters
from .pictures import Picture
from .write import Paper, Printed, compiled, day_of

if TYPE_CHECKING:
    from ..laying.records import Work
    from ..resolve import Resolved
    from ..takeoff import Item, LaidLayer, Takeoff
    from ..takeoff.film_plan import FilmPlan

UNTITLED = "A slab without a title"
WIDE, TALL = 238.0, 170.0  # mm, a plan on a sheet that lies on its long side, and on one that stands
LABELS = (3, 8)  # across and down a sheet


@dataclass(frozen=True, slots=True)
class ForCrew:
    """What the sheet is made from."""

    resolved: Resolved
    takeoff: Takeoff
    works: tuple[Work, ...]
    panels: tuple[tuple[Picture, ...], ...]  # plans of each layer of panels: the whole, then its parts if it has any
    films: tuple[Picture, ...]
    cautions: tuple[str, ...]


def crew_sheet(of: ForCrew, *, date: str, paper: Paper) -> Printed:
    """The crew sheet as PDF: tagged for screen readers, the same bytes for the same input.

    Parameters
    ----------
    of : ForCrew
        What was counted, with drawings and the works in their order.
    date : str
        Day of issue as year-month-day.
    paper : "a4" or "us-letter"
        Size of the sheets.
    """
    day, words = day_of(date)
    letters = Letters()
    told: dict[str, Any] = letters.fit(
        {
            **_head(of.takeoff, words),
            "counts": list(_counts(of)),
            "works": [_work(work) for work in _up_to_the_pour(of.works)],
            "layers": [_layer(n, of) for n in range(len(of.takeoff.layers))],
            "films": [_film(film, picture, of) for film, picture in zip(of.takeoff.films, of.films, strict=True)],
            "strips": list(_strips(of)),
            "weights": list(_weights(of)),
            "wind": list(_wind(of)),
            "unloading": list(_unloading(of)),
            "cautions": list(of.cautions),
        }
    )
    return compiled("crew-sheet.typ", {**told, "absent": letters.named()}, letters, day=day, paper=paper)


def labels(takeoff: Takeoff, *, date: str, paper: Paper) -> Printed:
    """A label for each sawn piece, three across and eight down a sheet; takes what `crew_sheet` does."""
    day, words = day_of(date)
    letters = Letters()
    every = [
        _label(cut, n, layer, takeoff)
        for n, layer in enumerate(takeoff.layers, start=1)
        for cut in sorted(cuts(layer.layout), key=_by_place)
    ]
    told: dict[str, Any] = letters.fit({**_head(takeoff, words), "labels": every, "grid": list(LABELS)})
    return compiled("labels.typ", {**told, "absent": letters.named()}, letters, day=day, paper=paper)


def _head(takeoff: Takeoff, day: str) -> dict[str, Any]:
    return {"title": takeoff.title or UNTITLED, "day": day, "version": __version__}


def _counts(of: ForCrew) -> Iterator[dict[str, Any]]:
    """A line of the delivery check for each product: what is printed on it, and how many come for what."""
    resolved = of.resolved
    counted = [item for item in of.takeoff.items if item.count is not None]
    for what in dict.fromkeys(item.what for item in counted):
        own = [item for item in counted if item.what == what]
        product = resolved.products.product(own[0].key) if resolved.products.has(own[0].key) else None
        yield {
            "what": what,
            "mark": ", ".join(product.claims) if product else "",
            "counts": [
                {"count": str(item.count), "of": item.of, "where": _where(item), "packs": item.packs} for item in own
            ],
        }


def _where(item: Item) -> str:
    """Where an item is laid, as a crew says it."""
    path, _, more = item.where.partition(", ")
    place = "floor" if path.startswith("floor.") else path.replace(".", " ").replace("-", " ")
    return f"{place}, {more}" if more else place


def _up_to_the_pour(works: Sequence[Work]) -> Sequence[Work]:
    """The works up to the last concrete; all of them where none is poured."""
    last = max((n for n, work in enumerate(works, start=1) if work.key == "pour"), default=len(works))
    return works[:last]


def _work(work: Work) -> dict[str, Any]:
    return {
        "number": str(work.number),
        "what": work.what,
        "where": work.where,
        "how": " ".join(work.how),
        "mind": work.mind,
        "stops": work.stops,
    }


def _layer(n: int, of: ForCrew) -> dict[str, Any]:
    layer, pictures, of_all = of.takeoff.layers[n], of.panels[n], len(of.takeoff.layers)
    layout, system = layer.layout, of.takeoff.system
    fewest, how = layer.bound
    rules = layout.rules

    def cut(metres: float) -> str:
        return say.to_cut(metres, system)

    facts = [
        ("Panels", f"{layout.panels} of {layer.size}; no plan in rows takes fewer than {fewest}, counted {how}"),
        ("Start", "the heavy line of the plan; the first row is laid along it"),
        ("First row", f"a string {cut(layout.first_height)} from the start line, where the row ends"),
        (
            "Joints",
            f"at least {cut(rules.stagger)} from those of the next row; no piece shorter than {cut(rules.least)}",
        ),
        ("A cut takes", cut(rules.kerf) if rules.kerf else "nothing: a knife"),
        ("Sawn", f"{sum(1 for _ in cuts(layout))} pieces from {len({c.panel for c in cuts(layout)})} panels"),
    ]
    small = too_small(layout)
    return {
        "words": layer.words if of_all == 1 else f"layer {n + 1} of {of_all} from below, {layer.words}",
        "pictures": [_shown(picture) for picture in pictures],
        "facts": [{"name": name, "words": words} for name, words in facts],
        "notes": list(layer.notes),
        "rows": list(_rows(layer, of)),
        "cuts": list(_cuts(layer, of)),
        "interlock": rules.interlock,
        "rest": _rest(layer, of) if layer.rest else None,
        "left": f"Smaller offcuts, {say.both(small, 'm²', system)} in all, are waste." if small > 1e-6 else "",
    }


def _rest(layer: LaidLayer, of: ForCrew) -> dict[str, Any]:
    """What is still to be laid, where somebody typed back what lies."""
    assert layer.rest is not None  # asked for only then
    system = of.takeoff.system
    return {
        "words": list(rest_words(layer.rest, layer.size)),
        "cuts": [
            {
                "panel": str(cut.panel) if cut.panel > 0 else f"offcut {-cut.panel}",
                "number": cut.number,
                "size": f"{say.to_cut(cut.length, system)} x {say.to_cut(cut.height, system)}",
                "keeps": ", ".join(filter(None, (cut.keeps, "trim" if cut.slanted else ""))) or "–",
            }
            for cut in layer.rest.cuts
        ],
    }


def _rows(layer: LaidLayer, of: ForCrew) -> Iterator[dict[str, str]]:
    """Each row as it is laid: sawn pieces by number, whole panels by how many."""
    layout = layer.layout
    for row, pieces in groupby(numbered(layout), key=lambda each: each[0].split(".")[0]):
        own = list(pieces)
        said = []
        for whole, run in groupby(own, key=lambda each: is_whole(layout, each[1])):
            numbers = [number for number, _ in run]
            said += [f"{len(numbers)} whole"] if whole else numbers
        yield {
            "row": row,
            "long": say.both(sum(piece.length for _, piece in own), "m", of.takeoff.system),
            "pieces": ", ".join(said),
        }


def _cuts(layer: LaidLayer, of: ForCrew) -> Iterator[dict[str, Any]]:
    """Each sawn panel with its pieces and what is kept of it."""
    system = of.takeoff.system
    left = {panel: list(run) for panel, run in groupby(kept(layer.layout), key=lambda each: each.panel)}
    for panel, run in groupby(cuts(layer.layout), key=lambda cut: cut.panel):
        yield {
            "panel": str(panel),
            "pieces": [
                {
                    "number": cut.number,
                    "size": f"{say.to_cut(cut.length, system)} x {say.to_cut(cut.height, system)}",
                    "from": f"{say.to_cut(cut.u, system)}, {say.to_cut(cut.v, system)}",
                    "keeps": cut.keeps,
                    "slanted": cut.slanted,
                }
                for cut in run
            ],
            "kept": [f"{say.to_cut(k.length, system)} x {say.to_cut(k.height, system)}" for k in left.get(panel, ())],
        }


def _film(film: FilmPlan, picture: Picture, of: ForCrew) -> dict[str, Any]:
    system = of.takeoff.system
    return {
        "words": film.words,
        "picture": _shown(picture),
        "said": " ".join(film_words(film, system)),
        "strips": [
            {"number": str(n), "long": say.both(long, "m", system)} for n, long in enumerate(film.lengths, start=1)
        ],
    }


def _strips(of: ForCrew) -> Iterator[dict[str, str]]:
    """Foam of the edges: into which pieces its boards are sawn."""
    system = of.takeoff.system
    for strip in sawn_strips(of.resolved):
        sizes = [
            f"{count} of {say.to_cut(long, system)} x {say.to_cut(high, system)}" for long, high, count in strip.pieces
        ]
        yield {
            "where": strip.where,
            "what": strip.what,
            "boards": str(strip.boards),
            "size": f"{say.both(strip.length, 'm', system)} long, {say.to_cut(strip.height, system)} high or wide",
            "pieces": "; ".join(sizes),
        }


def _weights(of: ForCrew) -> Iterator[dict[str, str]]:
    for each in weights(of.resolved, of.takeoff):
        people = "one person" if each.people == 1 else "two people" if each.people == 2 else "a machine"
        yield {
            "what": each.what,
            "each": each.each,
            "mass": say.both(each.mass, "kg", of.takeoff.system),
            "by": people,
        }


def _wind(of: ForCrew) -> Iterator[str]:
    system = of.takeoff.system
    for each in loose_boards(of.resolved):
        lifts, held = say.both(each.lifts, "m/s", system), say.both(each.held, "kg", system)
        weighed = (
            f"{held} more on each board, {each.bags} bag{'s' if each.bags > 1 else ''} of sand, hold it"
            if each.bags
            else "it holds itself"
        )
        stop = say.both(estimating("wind", "stop").value, "m/s", system)
        yield f"{each.what}: a wind of {lifts} presses as hard as a board weighs. Up to {stop} {weighed}; then stop."


def _unloading(of: ForCrew) -> Iterator[dict[str, str]]:
    """What comes in packs, from what is laid last to what is laid first: that comes off last and lies on top."""
    placed = [(_laid_at(item, of), n, item) for n, item in enumerate(of.takeoff.items) if _is_stacked(item)]
    for number, (_, _, item) in enumerate(sorted(placed, key=lambda each: (-each[0], -each[1])), start=1):
        yield {
            "number": str(number),
            "what": item.what,
            "where": _where(item),
            "packs": item.packs or f"{item.count} {item.of}",
        }


def _is_stacked(item: Item) -> bool:
    """Whether it comes in stacks or rolls; what comes in boxes is small."""
    return item.bulk is not None or item.of.startswith("roll")


def _laid_at(item: Item, of: ForCrew) -> int:
    """The place in the order of the works at which an item is laid; what no work names comes at the end."""
    paths = {item.where}
    for edge in of.resolved.edges:
        paths |= {
            piece.board.path
            for piece in edge.pieces
            if item.where == f"edge {edge.letter}, {piece.face.replace('-', ' ')}"
        }
    at = [work.number for work in of.works if any(_is_in(path, laid) for path in paths for laid in work.laid)]
    return min(at, default=len(of.works) + 1)


def _is_in(path: str, whole: str) -> bool:
    """Whether a path of the brief is that of a whole, or of something in it.

    >>> _is_in("floor.build-up.2.board", "floor.build-up.2"), _is_in("floor.build-up.21", "floor.build-up.2")
    (True, False)
    """
    return path == whole or path.startswith(f"{whole}.")


def _label(cut: Cut, n: int, layer: LaidLayer, takeoff: Takeoff) -> dict[str, str]:
    system = takeoff.system
    return {
        "number": cut.number,
        "layer": f"layer {n}" if len(takeoff.layers) > 1 else "",
        "size": f"{say.to_cut(cut.length, system)} x {say.to_cut(cut.height, system)}",
        "panel": f"from sawn panel {cut.panel}",
        "keeps": f"keep the {cut.keeps}" if cut.keeps else "",
        "trimmed": "trim on the floor" if cut.slanted else "",
        "board": layer.words,
    }


def _by_place(cut: Cut) -> tuple[int, int]:
    row, place = cut.number.split(".")
    return int(row), int(place)


def _shown(picture: Picture) -> dict[str, Any]:
    return {"svg": picture.svg, "alt": picture.alt, "wide": picture.wide, "flipped": picture.wide == WIDE}
