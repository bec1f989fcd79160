"""Lines for a terminal: wrapped to its width, hung under their heads."""

from __future__ import annotations

import shutil
import textwrap
from collections.abc import Iterable, Sequence

NARROWEST, WIDEST = 60, 100


def width_of_terminal() -> int:
    """Columns to fill: those of the terminal within reason, 80 where there is none."""
    return max(NARROWEST, min(WIDEST, shutil.get_terminal_size((80, 24)).columns))


def hung(text: str, width: int, indent: int = 0, head: str = "") -> list[str]:
    """The text as lines under one indent; ``head`` stands to the left of the first one.

    Examples
    --------
    >>> hung("4 in concrete on 2 in of foam", 24, indent=8, head="Layers")
    ['Layers  4 in concrete on', '        2 in of foam']
    """
    gap = " " * indent
    first = f"{head:{indent}}" if len(head) < indent else f"{head}  " if head else gap
    return textwrap.wrap(
        text, width, initial_indent=first, subsequent_indent=gap, break_on_hyphens=False, drop_whitespace=True
    )


def columns(cells: Sequence[str], widths: Sequence[int]) -> list[str]:
    """One row of a table, each cell wrapped in its own column, two spaces between.

    Examples
    --------
    >>> columns(["Floor at the wall", "57 °F", "64 °F"], [10, 6, 6])
    ['Floor at    57 °F   64 °F', 'the wall']
    """
    wrapped = [
        textwrap.wrap(cell, width, break_on_hyphens=False) or [""] for cell, width in zip(cells, widths, strict=True)
    ]
    height = max(map(len, wrapped))
    rows = ([lines[row] if row < len(lines) else "" for lines in wrapped] for row in range(height))
    return ["  ".join(f"{text:{width}}" for text, width in zip(row, widths, strict=True)).rstrip() for row in rows]


def block(head: str, lines: Iterable[str]) -> list[str]:
    """A heading, its lines and an empty line after; nothing at all where there are no lines."""
    body = list(lines)
    return [head, *body, ""] if body else []
