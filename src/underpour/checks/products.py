"""Products: do the test records behind each product of this floor carry what its maker claims?"""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import lru_cache

from ..catalogue.products import OfMaker
from ..conformity import Held, RecordFinding, held_product, placed
from ..conformity.rules import rules
from ..findings import Basis, Finding, Step
from ..resolve import Resolved, Slice

LACKING = ("product", "record")  # what a product or one of its records must say and does not
KEPT = 64  # products that are held to their records once, while somebody types or tries thicknesses
SHOWN = 2  # shortfalls that are told beside the finding; the others are counted
SEE = "All of it: underpour catalogue validate"


def evidence(resolved: Resolved) -> Iterator[Finding]:
    """Records that fall short behind each product of the floor and of its edges, one finding a product.

    Asks
        Do the tests behind this product stand, on the day of this answer, for what its maker claims?
    Why
        Every other finding leans on those numbers. A certificate that has expired, a class that no test carries or a
        fresh value of a foam that ages makes all of them doubtful.
    Worked out
        The product's record is held to the classes that it claims, to its own other records and to the day; what falls
        short is counted.
    Holds for
        Products of a line, the tool's or the user's own. A standard class is the least of its standard and has no
        records. No board is tested and no certificate opened.
    Source
        The standards of the classes that are claimed, as the catalogue names them, and the records themselves.
    """
    for key, slices in _used(resolved).items():
        yield _finding(resolved, key, slices)


def _used(resolved: Resolved) -> dict[str, list[Slice]]:
    """Where each product is used, by its key, in the order of the build-up and then of the edges."""
    used: dict[str, list[Slice]] = {}
    for piece in resolved.slices:
        if (piece.record or piece.film) and resolved.products.has(piece.key):
            used.setdefault(piece.key, []).append(piece)
    return used


def _finding(resolved: Resolved, key: str, slices: Sequence[Slice]) -> Finding:
    products = resolved.products
    held = _held(products.lines, key, products.day)
    short = [each for each in held.findings if each.verdict == "falls short"]
    lacking = [each for each in held.findings if each.verdict == "cannot tell" and each.id.startswith(LACKING)]
    day = f"{products.day.day} {products.day:%B} {products.day.year}"
    number = len(products.product(key).evidence)
    made = Finding(
        "product.evidence",
        "Test records that fall short",
        float(len(short)),
        "count",
        at={"product": key},
        within=0.0,
        limit=0.0,
        sense="at most",
        basis=_basis(held, resolved),
        rests_on=(*(piece.path for piece in slices), f"catalogue.product.{key}.evidence"),
        steps=(
            Step(
                "n",
                f"records and claims held to {day}, those that fall short counted",
                f"{number} records, {len(held.claims)} claims",
                f"{len(short)}",
            ),
        ),
        words=_words(held, short),
    )
    if lacking and not short:
        asked = " ".join(f"{each.read}: {each.wrong}" for each in lacking[:SHOWN])
        return replace(
            made, value=None, limit=None, sense=None, missing=f"catalogue.product.{key}.{lacking[0].key}", words=asked
        )
    return made


@lru_cache(KEPT)
def _held(lines: tuple[OfMaker, ...], key: str, day: datetime.date) -> Held:
    """A product held to its records: the same for the same lines in hand, whatever else changes in a brief."""
    return held_product([placed(of) for of in lines], key, day, rules())


def _basis(held: Held, resolved: Resolved) -> tuple[Basis, ...]:
    origin = resolved.products.line_of(held.key).source
    told = (finding.basis for finding in held.findings if finding.basis is not None)
    return tuple(dict.fromkeys((Basis(origin.title, f"records of {held.key}", origin.seen), *told)))


def _words(held: Held, short: Sequence[RecordFinding]) -> str:
    carries = f"They stand for {', '.join(held.supports)}." if held.supports else "They stand for no class held here."
    if not short:
        return carries
    told = " ".join(_sentence(each) for each in short[:SHOWN])
    more = f" And {len(short) - SHOWN} more." if len(short) > SHOWN else ""
    return f"{told}{more} {SEE} {held.file}"


def _sentence(of: RecordFinding) -> str:
    """What was read and what is wrong with it; once, where the one begins with the other."""
    return of.wrong if of.wrong.startswith(of.read) else f"{of.read}: {of.wrong}"
