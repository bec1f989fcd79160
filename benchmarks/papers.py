"""A submittal of many sheets and a line of 500 products: beside the libraries that read the same bytes."""

from __future__ import annotations

import io
from pathlib import Path

from .posed import DEMO
from .process import UNDERPOUR, Process, folder, way
from .race import Race, Way

THEME = "papers"
BARE_CSV = "import csv, sys; list(csv.reader(open(sys.argv[1], encoding='utf-8', newline='')))"
BARE_BOOK = "import openpyxl, sys; [list(sheet.iter_rows()) for sheet in openpyxl.load_workbook(sys.argv[1])]"


def three_edges() -> str:
    """The workshop's brief with an edge of its own for each two of its sides: a submittal of over twenty sheets."""
    text = (DEMO.parents[1] / "frost-wall-workshop" / "brief.toml").read_text(encoding="utf-8")
    head, _, rest = text.partition("[[edge]]")
    edge, _, others = rest.partition("[[alternative]]")
    edges = "".join("[[edge]]" + edge.replace('"all"', f"[{n}, {n + 1}]") for n in (1, 3, 5))
    return f"{head}{edges}[[alternative]]{others}"


def line_of(count: int) -> tuple[Path, Path]:
    """A line of so many products with 12 tests each, as CSV and as a workbook."""
    from underpour.catalogue.line_file import read_line
    from underpour.catalogue.products import SHIPPED
    from underpour.tabled import table_of

    line = read_line(SHIPPED.read_text(encoding="utf-8"))
    board = next(product for product in line.product if len(product.evidence) >= 12)
    boards = [
        board.model_copy(update={"key": f"board-{n}", "name": f"Board {n}", "evidence": board.evidence[:12]})
        for n in range(count)
    ]
    files = folder() / "line.csv", folder() / "line.xlsx"
    for file in files:
        file.write_bytes(table_of(line.model_copy(update={"product": tuple(boards)}), file.suffix))
    return files


def races(tiny: bool = False) -> list[Race]:
    count = 5 if tiny else 500
    table, book = line_of(count)
    line = ("-o", folder() / "line-made.toml", "--over")
    imported = [
        Race(
            THEME, f"import-{file.suffix[1:]}", f"{count} products, {12 * count} tests from {file.suffix[1:].upper()}",
            way("here", "underpour catalogue import", Process(*UNDERPOUR, "catalogue", "import", file, *line)),
            (way(f"a process that reads the cells with {name}", "", Process("-c", words, file)),),
            limit=5.0, turns=1 if tiny else 3,
        )
        for file, name, words in ((table, "csv", BARE_CSV), (book, "openpyxl", BARE_BOOK))
    ]  # fmt: skip
    return imported[:1] if tiny else [*submittals(), *imported]


def submittals() -> list[Race]:
    """The pictures and the paper with the fields there, and the whole process; pypdf reads the text back."""
    from pypdf import PdfReader

    from underpour.answer import answer
    from underpour.brief import reads
    from underpour.handouts.pictures import for_submittal
    from underpour.papers import submittal

    workshop, printed = folder() / "workshop.toml", folder() / "paper.pdf"
    workshop.write_text(three_edges(), encoding="utf-8")
    dossier = answer(reads(three_edges(), "workshop.toml"))

    def made() -> bytes:
        return submittal(dossier, for_submittal(dossier), date="2026-11-27").pdf

    pdf = made()
    sheets = len(PdfReader(io.BytesIO(pdf)).pages)

    def read_back() -> list[str]:
        return [page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages]

    pypdf = Way("pypdf reads its text back", "", read_back)

    def untold() -> float:
        """The typesetter has threads of its own, which a forked child does not get: it would wait for ever."""
        return float("nan")

    cold = Process(*UNDERPOUR, "submittal", workshop, "-o", printed, "--draft")
    return [
        Race(THEME, "submittal", f"A submittal of {sheets} sheets, fields there",
             Way("here", "submittal", made, memory=untold), (pypdf,), limit=2.5, turns=3),
        Race(THEME, "submittal-process", "The same, whole process",
             way("here", "underpour submittal", cold), (pypdf,), limit=4.0, turns=3),
    ]  # fmt: skip
