"""Writes docs/code-rows.md, how the rows of each code edition were seen, from the catalogue's tables.

.venv/bin/python docs/making/code_rows_page.py
"""

from collections import Counter
from collections.abc import Iterable, Iterator
from pathlib import Path

from underpour.catalogue.codes import Edition, Row, shipped
from underpour.catalogue.codes.read import SUBJECTS, editions, rows

PAGE = Path(__file__).parents[1] / "code-rows.md"
SEEN = ("document", "quoted", "memory", "practice")

HEAD = """\
# How the rows of codes were seen

Every value that a floor is held to stands in a table with its clause and how it was seen: read in the `document`,
`quoted` by somebody else, from `memory`, or common `practice` without a source. A value that two sources tell
otherwise, or that was remembered and not laid beside the print, is `doubtful`. A row from memory is no code: lay it
beside the book before it is relied on. `missing` names the subjects of which such a document is known to speak and
of which no value was found.

This page is counted from the tables by `docs/making/code_rows_page.py`. How to add what your county asks: [local-
codes.md](local-codes.md).
"""


def page() -> str:
    """The whole page."""
    return "\n".join([HEAD, *by_edition(), "", *by_subject(), "", *by_both(), "", *told(), ""])


def counted(chosen: Iterable[Row]) -> tuple[Counter[str], int, int]:
    """How the values of rows were seen, how many are doubtful, how many there are."""
    seen: Counter[str] = Counter()
    doubtful = 0
    for row in chosen:
        seen.update(row.seen_of(ask) for ask in row.asks)
        doubtful += len(row.asks) if row.doubtful else 0
    return seen, doubtful, seen.total()


def line(name: str, chosen: Iterable[Row], *more: str) -> str:
    seen, doubtful, all_ = counted(chosen)
    cells = [name, *(str(seen[how]) for how in SEEN), str(doubtful), str(all_), *more]
    return "| " + " | ".join(cells) + " |"


def by_edition() -> Iterator[str]:
    yield "## By edition"
    yield ""
    yield "| edition | " + " | ".join(SEEN) + " | doubtful | all values | missing |"
    yield "| --- " + "| --- " * (len(SEEN) + 3) + "|"
    for key, edition in editions().items():
        yield line(f"`{key}`", (row for row in rows() if row.edition == key), ", ".join(missing(edition)))
    yield line("all", rows(), "")


def missing(edition: Edition) -> list[str]:
    """The subjects that it speaks of and that nothing is held of, in it or in what it carries."""
    held = {subject for subject in SUBJECTS for each in (edition.key, edition.carries) if shipped().rows(each, subject)}
    return [subject for subject in edition.needs if subject not in held]


def by_subject() -> Iterator[str]:
    yield "## By subject"
    yield ""
    yield "| subject | " + " | ".join(SEEN) + " | doubtful | all values | missing in |"
    yield "| --- " + "| --- " * (len(SEEN) + 3) + "|"
    for subject in SUBJECTS:
        lacking = [f"`{key}`" for key, edition in editions().items() if subject in missing(edition)]
        yield line(f"`{subject}`", (row for row in rows() if row.subject == subject), ", ".join(lacking))


def by_both() -> Iterator[str]:
    """Values by subject and edition: read or quoted, of all."""
    yield "## By edition and subject"
    yield ""
    yield "Values that were read or quoted, of all that are held. `missing`: it speaks of this and nothing is held;"
    yield "a dash: none is held and none is known to be asked, or the rows stand in what it carries or amends."
    yield ""
    yield "| edition | " + " | ".join(SUBJECTS) + " |"
    yield "| --- " + "| --- " * len(SUBJECTS) + "|"
    for key, edition in editions().items():
        cells, lacking = [], missing(edition)
        for subject in SUBJECTS:
            seen, _, all_ = counted(shipped().rows(key, subject))
            nothing = "missing" if subject in lacking else "–"
            cells.append(f"{seen['document'] + seen['quoted']} of {all_}" if all_ else nothing)
        yield f"| `{key}` | " + " | ".join(cells) + " |"


def told() -> Iterator[str]:
    yield "## The editions"
    yield ""
    yield "| edition | what it is | date | covers | stands on |"
    yield "| --- | --- | --- | --- | --- |"
    for key, edition in editions().items():
        stands = [
            f"carries `{edition.carries}`" if edition.carries else "",
            f"amends `{edition.amends}`" if edition.amends else "",
        ]
        dated = f"{edition.date} ({edition.dated})"
        yield f"| `{key}` | {edition.title} | {dated} | {edition.covers} | {', '.join(filter(None, stands))} |"


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
