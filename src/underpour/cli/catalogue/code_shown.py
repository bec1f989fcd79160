"""One code edition of the catalogue: what it is, and every row with its clause, its values and how it was seen."""

from __future__ import annotations

from collections.abc import Iterator

from ...catalogue.codes import Edition, Row, shipped, triggers
from ...catalogue.codes.read import rows
from ..paragraphs import hung
from ..spoken import SEEN


def one_line(edition: Edition) -> str:
    """Title, day, and how much of it is from memory.

    >>> one_line(shipped().edition("mn-2015"))
    'Minnesota Residential Energy Code 2015 (Minnesota Rules 1322), 2015-02-14: 6 values, none from memory'
    """
    share = shipped().share(edition.key)
    return f"{edition.title}, {edition.date}: {share.all} values, {share.memory or 'none'} from memory"


def shown(edition: Edition, width: int) -> Iterator[str]:
    """What it is, then its rows in the order of the subjects."""
    yield from hung(f"{edition.title} (catalogue.code.{edition.key})", width)
    stands = [f"Prints the rows of {edition.carries} as its own chapter." if edition.carries else ""]
    stands += [f"Stands on {edition.amends} where it has no row." if edition.amends else ""]
    what = [f"For {edition.covers}.", f"{edition.date}: {edition.dated}.", *stands]
    yield from hung(" ".join(filter(None, what)), width, 2)
    yield from hung("Local code and the authority having jurisdiction decide.", width, 2)
    for row in rows():
        if row.edition == edition.key:
            yield ""
            yield from _row(row, width)


def _row(row: Row, width: int) -> Iterator[str]:
    yield from hung(f"{row.subject.replace('-', ' ')}, {row.clause}", width, 2)
    asks = ", ".join(f"{name.replace('-', ' ')} {asked.typed}" for name, asked in row.asks.items())
    yield from hung(". ".join(filter(None, (asks, _when(row)))), width, 4)
    remembered = f", but for {', '.join(row.from_memory)}, from memory" if row.from_memory else ""
    by = f": {row.by}" if row.by else ""
    yield from hung(f"{SEEN[row.seen].capitalize()}{by}{remembered}", width, 4)
    if row.doubtful:
        yield from hung(f"Doubtful: {row.doubtful}", width, 4)
    if row.note:
        yield from hung(row.note, width, 4)


def _when(row: Row) -> str:
    said = [f"zones {', '.join(row.zones)}" if row.zones else ""]
    said += [f"floors less than {row.less_below_grade.typed} below the ground" if row.less_below_grade else ""]
    said += [f"where {triggers()[word][0]}" for word in row.when]
    said += [f"not where {triggers()[word][0]}" for word in row.unless]
    said += [row.place and f"place: {row.place}", row.route and f"route: {row.route}"]
    return "; ".join(filter(None, said))
