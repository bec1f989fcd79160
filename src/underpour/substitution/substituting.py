"""Which products may stand in the place of a board of a brief."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from .. import cautioning
from ..brief import Reading
from ..brief.alternatives import AS_BRIEFED, edge_names
from ..brief.paths import Path, walked
from ..brief.read import altered
from ..catalogue.classes import ProductClass
from ..catalogue.records import Board
from ..findings import Finding
from ..measure import say
from ..mistakes import Mistake, Mistakes, unknown
from ..resolve import Resolved, Slice, resolve
from ..trying import Taken, as_taken, with_change
from . import changes, holding
from .places import place as place_words
from .records import Exchange, Refusal, Substitute, Substitution

if TYPE_CHECKING:
    from ..catalogue.line import Facing

Place = tuple[Slice, str]  # a slice of the board, and the thickness typed there


@dataclass(frozen=True)
class _Asked:
    """A board in its brief, with all that another must keep."""

    reading: Reading
    taken: Taken
    board: Board
    classes: tuple[ProductClass, ...]
    facing: Facing | None
    places: list[Place]

    @property
    def resolved(self) -> Resolved:
        return self.taken.resolved


def substitution(reading: Reading, key: str, by: str | None = None) -> Substitution:
    """Every product in hand, or the one that is proposed, held against what a board of the brief is asked for.

    A product is asked for every firm number of the classes that the board stands for, for its labelled R at each place
    (the R that the brief wants there, where it names one), for its facing where it has one, and for records that hold.
    What is left is put into the brief, and everything that met there has to meet still.

    Parameters
    ----------
    reading : Reading
        The brief; its alternatives are not looked at.
    key : str
        The board as the brief names it.
    by : str, optional
        The one product that is proposed; all flat boards of the lines in hand unless it is given.

    Raises
    ------
    Mistake
        No such board in the brief, no such product.
    Mistakes
        The brief cannot be used.
    """
    taken = as_taken(reading)
    resolved = taken.resolved
    places = [(piece, _typed(reading, piece)) for piece in resolved.slices if piece.key == key and piece.record]
    if not places:
        known = list(dict.fromkeys(piece.key for piece in resolved.slices if piece.record))
        raise unknown("", key, known, "board of this brief", f"Its boards: {', '.join(known) or 'none'}.")
    asked = resolved.products.board(key)
    candidates = [_proposed(by, asked, resolved)] if by else [b for b in resolved.products.boards() if b.maker]
    classes = holding.classes_asked(asked)
    facing = resolved.products.product(key).facing if resolved.products.has(key) else None
    of = _Asked(reading, taken, asked, classes, facing, places)
    found = [_held(of, board) for board in candidates if board.key != key]
    return Substitution(
        title=resolved.title,
        place=resolved.place,
        use=resolved.use.label,
        system=resolved.system,
        day=resolved.products.day,
        board=asked,
        where=tuple(piece.path.rpartition(".")[0] for piece, _ in places),
        classes=tuple(cls.name for cls in classes),
        needs=tuple(_needs(of)),
        findings=tuple(taken.findings.values()),
        substitutes=tuple(sorted(found, key=_order)),
        notes=resolved.notes,
        cautions=cautioning.on_papers([resolved]),
    )


def _proposed(key: str, asked: Board, resolved: Resolved) -> Board:
    """The product that is proposed. Raises Mistake where it is none, or the board itself."""
    board = resolved.products.board(key)
    if key == asked.key:
        raise Mistake(
            "--by", f'"{key}"', f"{board.label} is what the brief has there already.", "Name another product."
        )
    if not resolved.products.has(key):
        raise Mistake("--by", f'"{key}"', f"{board.label} is a class and no product.", "Name a product of a line.")
    return board


def _typed(reading: Reading, piece: Slice) -> str:
    """The thickness typed at a place of the brief, or taken there for a wanted R; "" where none is."""
    if piece.wanted is not None and piece.wanted.layers:
        return " + ".join(piece.wanted.layers)
    found = reading.versions[AS_BRIEFED].tree.at((*_path(reading, piece.path)[:-1], "thickness"))
    return str(found.value) if found is not None else ""


def _path(reading: Reading, words: str) -> Path:
    return walked(words, edge_names(reading.versions[AS_BRIEFED].tree))


def _needs(of: _Asked) -> Iterator[str]:
    """What is asked for beside the classes, in words."""
    for piece, _ in of.places:
        asked = holding.r_asked(piece)
        if asked is not None:
            at = piece.path.rpartition(".")[0]
            wanted = say.both(asked, "m²·K/W", of.resolved.system)
            yield f"{wanted} as labelled at {place_words(at)} ({of.board.label_terms})"
    if of.facing is not None:
        faces = "both faces" if of.facing.faces == "both" else "one face"
        yield f"a facing on {faces}, {of.facing.below_slab_film} as a film below slabs"
    yield "every finding that meets with the board that is asked for"


def _held(of: _Asked, board: Board) -> Substitute:
    """One product: what refuses it before anything is solved; else the brief with it."""
    products, system = of.resolved.products, of.resolved.system
    found = list(holding.exchanges(of.places, board, system))
    kept = tuple(each for each in found if isinstance(each, Exchange))
    refused = [
        *(each for each in found if isinstance(each, Refusal)),
        *holding.of_label(of.board, board),
        *holding.of_class(board.key, of.classes, products),
        *holding.of_facing(of.facing, board, products),
        *holding.of_records(board.key, products),
    ]
    whole = len(kept) == len(found)
    told = (
        tuple(changes.of_products(of.board, board, [piece for piece, _ in of.places], kept, products)) if whole else ()
    )
    after: tuple[Finding, ...] = ()
    if not refused:
        after, unbuildable = _answered(of, board, kept)
        refused += [*unbuildable, *changes.moved(tuple(of.taken.findings.values()), after)]
    return Substitute(board, kept if whole else (), told, tuple(refused), after)


def _answered(of: _Asked, board: Board, exchanges: Sequence[Exchange]) -> tuple[tuple[Finding, ...], list[Refusal]]:
    """The findings of the brief with the other board in all places; or why it cannot be built."""
    words: dict[Path, object] = {}
    for exchange in exchanges:
        path = _path(of.reading, exchange.path)
        there = of.reading.versions[AS_BRIEFED].tree.at(path)
        if exchange.after and there is not None and there.child("r") is not None:  # its thickness was taken by its R
            kept = {key: value for key, value in there.plain().items() if key != "r"}
            words[path] = {**kept, "board": board.key, "thickness": exchange.after}
            continue
        words[(*path, "board")] = board.key
        if exchange.after:
            words[(*path, "thickness")] = exchange.after
    try:
        reading = altered(of.reading, words)
        return tuple(with_change(of.taken, resolve(reading.brief, products=reading.products)).values()), []
    except Mistakes as mistakes:
        return (), [Refusal("build-up", f"{each.at}: {each.wrong} {each.instead}".strip()) for each in mistakes]
    except Mistake as mistake:
        return (), [Refusal("build-up", f"{mistake.wrong} {mistake.instead}".strip())]


def _order(substitute: Substitute) -> tuple[bool, int, float, str]:
    """Those that serve first, the thinnest before the others; then those with the fewest reasons."""
    height = next((finding.value or 0.0 for finding in substitute.findings if finding.id == "height.total"), 0.0)
    return not substitute.serves, len(substitute.refusals), round(height, 6), substitute.board.key
