"""A whole line held to its evidence."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from .claims import claim, not_held, supported
from .findings import Held, RecordFinding, Validation
from .products import by_itself, companions, names_twice, tapes
from .rules import Rules
from .single import row
from .together import together

if TYPE_CHECKING:
    from ..catalogue.line import Line, Product
    from ..catalogue.products import OfMaker

RANK = {"falls short": 0, "cannot tell": 1, "not required, advised": 2, "stated": 3}


@dataclass(frozen=True, slots=True)
class ReadLine:
    """A product line with the places of its records."""

    line: Line
    file: str
    products: tuple[int, ...] = ()  # line of each product; empty where that is not known
    rows: tuple[int, ...] = ()  # line of each record, product after product


def validation(lines: Sequence[ReadLine], today: datetime.date, rules: Rules) -> Validation:
    """Every product of one or several files held to its evidence.

    Parameters
    ----------
    lines : sequence of ReadLine
        The files, read.
    today : date
        The day that certificates are held to.
    rules : Rules
        The catalogue's tables (`underpour.conformity.rules.rules`).

    Returns
    -------
    Validation
        Product by product, in the order of the files; within one, what falls short first.
    """
    twice = names_twice([each.line for each in lines])
    known, keys = _tapes_in(lines), _keys_in(lines)
    held = []
    for each in lines:
        begun = 0
        for n, product in enumerate(each.line.product):
            at = each.products[n] if each.products else 0
            rows = each.rows[begun : begun + len(product.evidence)]
            begun += len(product.evidence)
            beside = (*tapes(product, known, today, rules), *companions(product, keys))
            found = (*twice.get(id(product), ()), *beside)
            held.append(_held(product, each, at, rows, found, today, rules))
    return Validation(today, tuple(held))


def placed(of: OfMaker) -> ReadLine:
    """A line in hand, with the place of each of its records."""
    from ..catalogue.line_file import heads

    rows = sum(len(product.evidence) for product in of.line.product)
    return ReadLine(of.line, of.file, *map(tuple, heads(of.text, len(of.line.product), rows)))


def held_product(lines: Sequence[ReadLine], key: str, today: datetime.date, rules: Rules) -> Held:
    """The first product of that key held to its evidence, beside the others of its line.

    Parameters
    ----------
    lines : sequence of ReadLine
        The files, read; one of them holds the product.
    key : str
        What a brief calls it.
    today : date
        The day that certificates are held to.
    rules : Rules
        The catalogue's tables.
    """
    of, product = next((each, product) for each in lines for product in each.line.product if product.key == key)
    n = of.line.product.index(product)
    begun = sum(len(each.evidence) for each in of.line.product[:n])
    beside = (*tapes(product, _tapes_in(lines), today, rules), *companions(product, _keys_in(lines)))
    found = (*names_twice([of.line]).get(id(product), ()), *beside)
    at = of.products[n] if of.products else 0
    return _held(product, of, at, of.rows[begun : begun + len(product.evidence)], found, today, rules)


def _keys_in(lines: Sequence[ReadLine]) -> set[str]:
    """Every product that can be named beside these lines: those of the tool's own too, unless one stands alone."""
    from ..catalogue.products import shipped_products

    own = {product.key for each in lines for product in each.line.product}
    alone = any(each.line.stands_alone for each in lines)
    return own if alone else own | {product.key for product in shipped_products().products()}


def _tapes_in(lines: Sequence[ReadLine]) -> dict[str, Product]:
    return {product.key: product for each in lines for product in each.line.product if product.kind == "tape"}


def _held(
    product: Product,
    of: ReadLine,
    at: int,
    places: Sequence[int],
    found: tuple[RecordFinding, ...],
    today: datetime.date,
    rules: Rules,
) -> Held:
    rows = [
        row(evidence, product, places[n] if places else 0, today, rules) for n, evidence in enumerate(product.evidence)
    ]
    carried = supported(product, rows, rules)
    of_claims = {words: tuple(claim(words, product, rows, carried, rules)) for words in product.claims}
    findings = [
        *found,
        *by_itself(product, of.line, today, rules),
        *(finding for said in of_claims.values() for finding in said),
        *(_of_record(n, finding) for n, each in enumerate(rows, start=1) for finding in each.findings),
        *together(product, rows, rules),
    ]
    return Held(
        key=product.key,
        name=product.name,
        file=of.file,
        line=at,
        claims=product.claims,
        refused=tuple(words for words, said in of_claims.items() if any(f.verdict == "falls short" for f in said)),
        supports=tuple(cls.name for cls in carried),
        not_held=tuple(part for words in product.claims for part in not_held(words)),
        findings=tuple(
            sorted((each.placed(product.key, of.file, at) for each in findings), key=lambda f: RANK[f.verdict])
        ),
    )


def _of_record(n: int, finding: RecordFinding) -> RecordFinding:
    """A finding of one record, its key with the number of the record in its product."""
    return replace(finding, key=f"evidence.{n}.{finding.key}") if finding.key else finding
