"""Pages made from product records: data sheet, install guide, comparison. They print what is told."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from .. import __version__
from .letters import Letters
from .typefaces import Typefaces
from .write import Paper, Printed, compiled, day_of

if TYPE_CHECKING:
    from ..catalogue.records import Use
    from ..laying.guide import Guide
    from ..particulars import Comparison, Moved, Particulars
    from .pictures import Picture

LONG = 900  # letters of a cell, from which its row may go on overleaf
BESIDE = 5  # products in one table of a sheet that lies on its long side


def data_sheet(
    told: Mapping[str, Any],
    picture: Picture | None,
    *,
    paper: Paper = "us-letter",
    typefaces: Typefaces | None = None,
    draft: bool = False,
    moved: tuple[str, Sequence[Moved]] | None = None,
) -> Printed:
    """The data sheet as PDF: tagged for screen readers, the same bytes for the same input.

    Parameters
    ----------
    told : mapping
        What `underpour.particulars.sheet` says, its day and the day of its first issue included.
    picture : Picture, optional
        The cut through the product.
    paper : "a4" or "us-letter"
        Size of the sheets.
    typefaces : Typefaces, optional
        Fonts of the user's own, asked after the bundled ones.
    draft : bool
        Each sheet says so.
    moved : (str, sequence of Moved), optional
        Mark and day of an older sheet, and what is otherwise now.
    """
    from .content import picture_row

    letters = Letters(typefaces.drawn if typefaces else frozenset())
    day, printed = day_of(told["day"])
    content = letters.fit(
        {
            **told,
            "printed": printed,
            "version": __version__,
            "draft": draft,
            "picture": None if picture is None else picture_row(picture),
            **_issued(told, moved),
        }
    )
    content = {**content, "absent": letters.named()}
    return compiled("data-sheet.typ", content, letters, day=day, paper=paper, typefaces=typefaces)


def product_comparison(
    told: Mapping[str, Any],
    *,
    paper: Paper = "us-letter",
    typefaces: Typefaces | None = None,
    moved: tuple[str, Sequence[Moved]] | None = None,
) -> Printed:
    """The comparison as PDF, at most five products beside each other, on sheets that lie on their long side.

    Takes what `data_sheet` does, ``told`` by `compared`.
    """
    letters = Letters(typefaces.drawn if typefaces else frozenset())
    day, printed = day_of(told["day"])
    content = letters.fit({**told, "printed": printed, "version": __version__, **_issued(told, moved)})
    content = {**content, "absent": letters.named()}
    return compiled("product-comparison.typ", content, letters, day=day, paper=paper, typefaces=typefaces)


def _issued(told: Mapping[str, Any], moved: tuple[str, Sequence[Moved]] | None) -> dict[str, Any]:
    """The day of the first issue, and what moved since the page that is named."""
    return {
        "first": day_of(told["issued"])[1],
        "since": moved[0] if moved else "",
        "moved": None if moved is None else [{"what": m.what, "was": m.was, "now": m.now} for m in moved[1]],
    }


def product_guide(
    told: Mapping[str, Any],
    picture: Picture | None,
    *,
    paper: Paper = "us-letter",
    typefaces: Typefaces | None = None,
    draft: bool = False,
    moved: tuple[str, Sequence[Moved]] | None = None,
) -> Printed:
    """The install guide as PDF; takes what `data_sheet` does, ``told`` by `guided`."""
    from .content import picture_row

    letters = Letters(typefaces.drawn if typefaces else frozenset())
    day, printed = day_of(told["day"])
    row = None if picture is None else picture_row(picture)
    content = letters.fit(
        {
            **told,
            "printed": printed,
            "version": __version__,
            "draft": draft,
            "picture": row,
            **_issued(told, moved),
        }
    )
    content = {**content, "absent": letters.named()}
    return compiled("product-guide.typ", content, letters, day=day, paper=paper, typefaces=typefaces)


def guided(of: Particulars, guide: Guide, use: Use | None) -> dict[str, Any]:
    """What the guide of a product says, with its mark."""
    from ..particulars import GUIDE, cautions, mark
    from ..particulars.words import words

    cold = use is not None and use.cold_floor
    outdoors = use is not None and use.room is None
    told = {
        "format": GUIDE.format,
        "key": of.product.key,
        "name": of.name,
        "called": of.called,
        "maker": of.maker,
        "invented": of.invented,
        "use": "" if use is None else use.label,
        "note": of.product.note,
        "not": list(words()["kind"][of.product.kind]["not"]),
        "claims": [{"words": each.words, "standing": each.standing} for each in of.claims],
        "made": [
            {
                "thickness": m.words,
                "height": m.height,
                "r": m.r_words,
                "standing": m.standing if m.r_words else "stands",
            }
            for m in of.made
        ],
        "usual": guide.usual,
        "works": [
            {
                "number": w.number,
                "what": w.what,
                "how": list(w.how),
                "mind": w.mind,
                "stops": w.stops,
                "source": w.source,
            }
            for w in guide.works
        ],
        "points": [
            {
                "number": p.number,
                "before": p.before,
                "look_at": p.look_at,
                "wanted": p.wanted,
                "how": p.how,
                "who": p.who,
            }
            for p in guide.points
        ],
        "cautions": cautions(of, more=("cold-floor",) if cold else (), without=("radon",) if outdoors else ()),
        "short": [{"about": each.about(), "wrong": each.wrong, "instead": each.instead} for each in of.short],
    }
    return {**told, "mark": mark(told), "day": of.day.isoformat(), "issued": of.day.isoformat()}


def compared(of: Comparison, closing: str) -> dict[str, Any]:
    """What the comparison says, with its mark."""
    from ..particulars import COMPARISON, mark

    number = len(of.products)
    makers = list(dict.fromkeys(each.maker for each in of.products))
    day = of.products[0].day.isoformat()
    told = {
        "format": COMPARISON.format,
        "title": f"{number} products side by side" if number > 1 else of.products[0].name,
        "lead": f"Made by {', '.join(makers)}. A number stands plain only where its record stands.",
        "invented": any(each.invented for each in of.products),
        "tables": [_table(of, start) for start in range(0, number, BESIDE)],
        "notes": list(of.notes),
        "closing": closing,
    }
    return {**told, "mark": mark(told), "day": day, "issued": day}


def _table(of: Comparison, start: int) -> dict[str, Any]:
    shown = range(start, min(start + BESIDE, len(of.products)))
    cells = [row.cells[n].words for _, rows in of.groups for row in rows for n in shown]
    return {
        "long": max(map(len, cells)) > LONG,
        "products": [{"key": of.products[n].product.key, "name": of.products[n].name} for n in shown],
        "groups": [
            {
                "name": name,
                "rows": [
                    {
                        "name": row.name,
                        "terms": row.terms,
                        "cells": [
                            {"words": c.words, "standing": c.standing, "evidence": c.evidence}
                            for c in (row.cells[n] for n in shown)
                        ],
                    }
                    for row in rows
                ],
            }
            for name, rows in of.groups
        ],
    }
