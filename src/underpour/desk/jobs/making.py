"""The process that makes one paper, or chooses: ``python -m underpour.desk.jobs.making FILE``, the order on its input.

It tells on its standard output how far it is, a line of JSON for each step, and last what became of it.
"""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Iterator
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, Any

from ... import __version__
from ...faults import line_to_send
from ...mistakes import Mistake, Mistakes
from .orders import Order

if TYPE_CHECKING:
    from ...brief import Reading
    from ...choosing import Choice
    from ...dossier import Dossier
    from ...papers.logo import Logo

GENTLE = 5  # steps of the system's own scale by which the page goes before


def main(file: str) -> None:
    """Make what is ordered on standard input into the file."""
    if hasattr(os, "nice"):
        os.nice(GENTLE)
    order = Order(**json.load(sys.stdin))
    try:
        for step in made(order, Path(file)):
            _tell(step)
    except Mistakes as mistakes:
        _tell({"mistakes": [asdict(mistake) for mistake in mistakes]})
    except Mistake as mistake:
        _tell({"mistakes": [asdict(mistake)]})
    except Exception as cause:  # told as one line to send, as everywhere
        _tell({"fault": line_to_send(cause, __version__, f"desk {order.kind}")})


def made(order: Order, file: Path) -> Iterator[dict[str, Any]]:
    """Each step before it is begun, and the last one when the file is there. Raises Mistake and Mistakes."""
    from ...brief import reads
    from ...sections.buildable import buildable

    reading = reads(order.brief, alone=True)
    buildable(reading)
    if order.kind == "guide":
        yield _step(0, 1, "setting")
        content = _guide(order, reading)
        yield from _written(content, file, 1)
        return
    if order.kind == "choice":
        yield _step(0, 1, "choosing")
        yield from _written(_chosen(order, _choice(reading)), file, 1)
        return
    chooses = order.choose and order.kind == "submittal"
    of = len(reading.alternatives) + 3 + chooses
    versions = []
    from ...answer import put_together, solved_versions

    names = iter(["", *(name for name, _ in reading.alternatives)])
    yield _step(0, of, "solving", name=next(names))
    for version in solved_versions(reading):
        versions.append(version)
        if (name := next(names, None)) is not None:
            yield _step(len(versions), of, "solving", name=name)
    choice = None
    if chooses:
        yield _step(of - 3, of, "choosing")
        choice = _choice(reading, of)
    yield _step(of - 2, of, "drawing")
    dossier = put_together(reading, versions)
    if order.kind == "page":
        content = _page(order, dossier)
    else:
        content = (
            _submittal(order, reading, dossier, choice) if order.kind == "submittal" else _one_page(order, dossier)
        )
    yield from _written(content, file, of)


def _written(content: bytes, file: Path, of: int) -> Iterator[dict[str, Any]]:
    file.write_bytes(content)
    yield _step(of, of, "made")


def _step(done: int, of: int, words: str, **given: str) -> dict[str, Any]:
    return {"done": done, "of": of, "words": words, "given": given}


def _tell(step: dict[str, Any]) -> None:
    print(json.dumps(step), flush=True)


def _paper(order: Order, dossier: Dossier) -> Any:
    return order.paper or ("us-letter" if dossier.units == "US" else "a4")


def _submittal(order: Order, reading: Reading, dossier: Dossier, choice: Choice | None) -> bytes:
    from ...handouts.ordered import order_of
    from ...handouts.pictures import for_submittal
    from ...papers import gaps, submittal

    takeoff = order_of(reading)
    pictures = for_submittal(dossier, takeoff)
    missing = gaps(dossier, pictures)
    if missing and not order.draft:
        raise Mistakes([gap.mistake("") for gap in missing])
    printed = submittal(
        dossier,
        pictures,
        date=order.date,
        paper=_paper(order, dossier),
        logo=_logo(dossier),
        gaps=missing,
        draft=order.draft,
        choice=choice,
        takeoff=takeoff,
    )
    return printed.pdf


def _choice(reading: Reading, of: int = 1) -> Choice:
    """What to use; each whole answer on the way is told, in the last but two of so many steps."""
    from ...choosing import choose

    return choose(reading, on=lambda number: _tell(_step(max(of - 3, 0), of, "answering", number=str(number))))


def _chosen(order: Order, choice: Choice) -> bytes:
    """What to use, the brief's text with it, and what the sheet says of it."""
    from ...choosing.choice_json import as_json
    from ...choosing.put_in import put_in
    from ...papers.recommended import recommended

    put = put_in(order.brief, choice)
    whole = {"choice": json.loads(as_json(choice)), "put_in": asdict(put), "said": recommended(choice)}
    return json.dumps(whole, ensure_ascii=False).encode()


def _one_page(order: Order, dossier: Dossier) -> bytes:
    from ...handouts.pictures import for_one_page
    from ...papers import for_one

    printed = for_one(
        dossier,
        for_one_page(dossier),
        order.reader,
        date=order.date,
        paper=_paper(order, dossier),
        logo=_logo(dossier),
        draft=order.draft,
    )
    return printed.pdf


def _page(order: Order, dossier: Dossier) -> bytes:
    from ...drawings.telling import telling_edge
    from ...handouts.pictures import page

    edges = list(dossier.as_briefed.sections)
    if order.edge and order.edge not in edges:
        raise Mistake("edge", order.edge, f"The brief has no edge {order.edge}.", f"Its edges: {', '.join(edges)}.")
    return page(dossier, order.edge or telling_edge(dossier)).encode()


def _guide(order: Order, reading: Reading) -> bytes:
    from datetime import date

    from ...handouts.products import in_hand, paper_of, picture_of, system_of
    from ...laying.guide import guide
    from ...papers import guided, product_guide

    offered = {each.product.key: each for each in in_hand(None, date.fromisoformat(order.date))}
    wanted = [order.product] if order.product else _laid(reading)
    found = next((offered[key] for key in wanted if key in offered), None)
    if found is None:
        wrong = "No product of this brief has a record to make a guide of."
        raise Mistake("floor.build-up", order.product, wrong, f"Those with one: {', '.join(sorted(offered))}.")
    of = found.shown()
    if of.short and not order.draft:
        raise Mistakes([Mistake(each.about(), "", each.wrong, each.instead) for each in of.short])
    content = guided(of, guide(of.product, _use(reading), system_of(of)), _use(reading))
    return product_guide(content, picture_of(of, 112.0), paper=order.paper or paper_of(of), draft=order.draft).pdf


def _use(reading: Reading) -> Any:
    from ...catalogue import uses

    return next(use for use in uses() if reading.brief.project.use in (use.key, *use.aliases))


def _laid(reading: Reading) -> list[str]:
    """The names of boards in the order in which the brief has them."""
    from ...brief.alternatives import AS_BRIEFED

    def names(held: Any) -> Iterator[str]:
        if isinstance(held, dict):
            if isinstance(held.get("board"), str):
                yield held["board"]
            held = held.values()
        if not isinstance(held, str | int | float | bool):
            for inner in held:
                yield from names(inner)

    tree = reading.versions[AS_BRIEFED].tree.plain()
    return list(names([tree.get("floor", {}), tree.get("edge", [])]))


def _logo(dossier: Dossier) -> Logo | None:
    """A brief in the book has no folder, so that a picture beside it cannot be meant."""
    if dossier.handover.logo:
        wrong = "A brief in the book has no folder with a picture beside it."
        raise Mistake("handover.logo", dossier.handover.logo, wrong, "Leave it out, or keep the brief as a file.")
    return None


if __name__ == "__main__":
    main(sys.argv[1])
