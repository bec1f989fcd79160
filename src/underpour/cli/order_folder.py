"""What `underpour takeoff` writes into a folder: tables, plans, drawing files, papers for the crew."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from ..mistakes import Mistake
from . import files

if TYPE_CHECKING:
    from ..papers.write import Paper
    from ..resolve import Resolved
    from ..takeoff import Takeoff

WIDE = 180.0  # mm, of a plan


def existing(typed: str) -> Path:
    """The folder that is named; a Mistake where there is none or nothing may be written there."""
    path = Path(os.path.realpath(typed))
    if not path.is_dir():
        wrong = "That is a file; a folder is wanted." if path.exists() else "There is no such folder."
        raise Mistake(f"-o {typed}", "", wrong, "Make it first, or write to another folder.")
    if not os.access(path, os.W_OK):
        raise Mistake(f"-o {typed}", "", "Nothing may be written there.", "Write to another folder.")
    return path


def written(
    folder: Path, typed: str, resolved: Resolved, takeoff: Takeoff, *, date: str, paper: Paper
) -> tuple[str, ...]:
    """Everything that an order has, written into a folder; the names of the files."""
    content = dict([*_tables(takeoff), *_drawings(resolved, takeoff), *_papers(resolved, takeoff, date, paper)])
    for name, whole in content.items():
        files.replace_whole(folder / name, whole, str(Path(typed) / name))
    return tuple(content)


def _tables(takeoff: Takeoff) -> Iterator[tuple[str, bytes]]:
    from ..takeoff.tables import as_csv, as_workbook, cut_rows, kept_rows, order_rows, rest_rows

    yield "order.csv", as_csv(order_rows(takeoff))
    yield "cuts.csv", as_csv(cut_rows(takeoff.layers))
    yield "kept.csv", as_csv(kept_rows(takeoff.layers))
    if any(layer.rest for layer in takeoff.layers):
        yield "rest.csv", as_csv(rest_rows(takeoff.layers))
    yield "order.xlsx", as_workbook(takeoff)


def _drawings(resolved: Resolved, takeoff: Takeoff) -> Iterator[tuple[str, bytes]]:
    from ..drawings.film_plan import film_picture
    from ..drawings.panel_dxf import panel_dxf
    from ..drawings.panel_plan import panel_plan

    system = resolved.system
    pipe = resolved.soil_gas.pipe.route if resolved.soil_gas and resolved.soil_gas.pipe else ()
    for n, layer in enumerate(takeoff.layers, start=1):
        yield f"panels-{n}.svg", panel_plan(layer.plan, layer, system, width=WIDE).encode()
        drawn = panel_dxf(layer.plan, layer, system, title=takeoff.title, films=takeoff.films, pipe=pipe)
        yield f"panels-{n}.dxf", drawn
    for n, film in enumerate(takeoff.films, start=1):
        yield f"film-{n}.svg", film_picture(film.plan, film, system, width=WIDE).encode()


def _papers(resolved: Resolved, takeoff: Takeoff, date: str, paper: Paper) -> Iterator[tuple[str, bytes]]:
    from ..handouts.crew import for_crew
    from ..papers.crew_sheet import crew_sheet, labels

    yield "crew-sheet.pdf", crew_sheet(for_crew(resolved, takeoff), date=date, paper=paper).pdf
    if any(layer.sawn for layer in takeoff.layers):
        yield "labels.pdf", labels(takeoff, date=date, paper=paper).pdf
