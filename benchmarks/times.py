"""How long things take on this machine, against what they may take and against a peer in the same hour.

    python3 dev.py bench

Whole processes are timed as a person waits for them. Every time is the median of several, on one thread. The peer of a
whole process is a bare process that loads what the work needs; the peer of a section is scikit-fem with quadratic
triangles and scipy's own sparse solver (peer.py), on its own grid, whose heat flow is as near. The machine factor is
a dense solve on one thread, so that two machines can be compared.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from statistics import median

for threads in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ[threads] = "1"  # before numpy is loaded: sections are too small to gain from more

ROOT = Path(__file__).parents[1]
DEMO = ROOT / "examples" / "daylight-basement" / "brief.toml"
SMALLEST, GROWTH = 0.02, 0.5  # the peer's grid: m beside every line, and how fast it widens
UNKNOWNS = 1500  # of the dense solve


def seconds(times: int, work: Callable[[], object]) -> float:
    """Median of several tries. [s]"""
    taken = []
    for _ in range(times):
        began = time.perf_counter()
        work()
        taken.append(time.perf_counter() - began)
    return median(taken)


def process(*words: object) -> Callable[[], object]:
    command = [sys.executable, *map(str, words)]
    return lambda: subprocess.run(command, cwd=ROOT, capture_output=True, check=False)


def dense_solve() -> None:
    import numpy as np

    matrix = np.random.default_rng(1).random((UNKNOWNS, UNKNOWNS)) + UNKNOWNS * np.eye(UNKNOWNS)
    np.linalg.solve(matrix, matrix[0])


Work = Callable[[], object]


def one_section(alternative: str) -> tuple[Work, Work, Work, str]:
    """The demo's edge: its mean, mean and swing, the peer's mean and swing; and how far they stand apart."""
    import peer

    from underpour import catalogue
    from underpour.brief import read
    from underpour.checks.solved import floor_faces
    from underpour.physics.conduction.shapes import Films
    from underpour.physics.conduction.solve import Climate, solve
    from underpour.resolve import resolve
    from underpour.sections.build import section

    reading = read(DEMO)
    resolved = resolve(dict(reading.alternatives).get(alternative, reading.brief))
    cut = section(resolved, resolved.edges[0])
    films = {
        "room": Films(*(catalogue.surface(key).value for key in ("floor-down", "wall", "floor-up"))),
        "outdoors": Films(*(catalogue.surface("outdoors").value,) * 3),
    }
    climates = {
        "room": Climate(resolved.room.mean),
        "outdoors": Climate(resolved.outdoor_mean, resolved.outdoor_swing),
    }
    room, outdoors = peer.Climate(resolved.room.mean), peer.Climate(resolved.outdoor_mean, resolved.outdoor_swing)

    still = {where: Climate(climate.mean) for where, climate in climates.items()}

    def mean_only() -> float:
        return solve(cut.parts, cut.airs, films, still).flow(floor_faces).mean

    def ours() -> float:
        return solve(cut.parts, cut.airs, films, climates).flow(floor_faces).mean

    def theirs() -> peer.Second:
        return peer.second_way(cut, room, outdoors, smallest=SMALLEST, growth=GROWTH)

    fine = peer.second_way(cut, room, outdoors, smallest=SMALLEST / 4, growth=GROWTH / 2)
    told, second = ours(), theirs()
    apart = (
        f"  heat through the floor, {alternative}: here {told:.4f} W/m, peer {second.floor:.4f} "
        f"({second.unknowns} unknowns), peer on a fine grid {fine.floor:.4f} ({fine.unknowns})"
    )
    return mean_only, ours, theirs, apart


def one_year() -> tuple[Work, Work, Work, Work, Work]:
    """The demo's edge as it is solved first: steady, one harmonic, the hourly year of 20 numbers, and 24 steps in time.

    Last, by the adjoint, what the mean flow into the floor changes with every conductivity and film.

    All on one grid, the coarser of the two that the answer keeps. The steps are implicit, one factorisation for all.
    """
    import numpy as np
    from scipy.sparse.linalg import splu

    from underpour.answer import solved_brief
    from underpour.brief import read
    from underpour.checks.solved import floor_faces
    from underpour.physics.conduction.adjoint import flow, slopes
    from underpour.physics.conduction.response import flow_watched, followed, responding, temperature_watched
    from underpour.physics.conduction.solve import SYMMETRIC, factor
    from underpour.physics.year import YEAR

    reading = read(DEMO)
    _, edges = solved_brief(reading, "as briefed", reading.brief)
    solution = edges[0].heat.coarse
    eq = solution.equations
    felt = eq.faces.space
    matrix = eq.conduction + eq.films(solution.resistance)
    load = eq.load(solution.resistance, np.ones(len(eq.faces.space)))
    order = np.argsort(factor(matrix).perm_c)  # found with the steady solve, kept for every frequency
    conducts, stores = (each[order][:, order].tocsc() for each in (matrix, eq.storage))
    air = np.random.default_rng(1).normal(size=(len(edges[0].heat.climates), 8760))
    x = eq.x[(eq.x >= edges[0].section.corner[0]) & (eq.number[:, np.argmin(np.abs(eq.y))] >= 0)][:19]

    def steady() -> None:
        factor(matrix).solve(load)

    def harmonic() -> None:
        swinging = (conducts + (2j * np.pi / YEAR) * stores).tocsc()
        splu(swinging, permc_spec="NATURAL", diag_pivot_thresh=0.0, options=SYMMETRIC).solve(load + 0j)

    def hours() -> None:
        watched = [temperature_watched(solution, felt, place, 0.0) for place in x]
        followed(responding(solution, felt, [flow_watched(solution, felt, floor_faces), *watched]), air)

    stepping = factor((matrix + eq.storage / 3600.0).tocsc())

    def a_day() -> None:
        temperature = np.zeros(eq.unknowns)
        for _ in range(24):
            temperature = stepping.solve(eq.storage @ temperature / 3600.0 + load)

    bodies, floor = len(edges[0].section.parts), floor_faces(eq.faces)

    def moves() -> None:
        slopes(solution, [flow(solution, floor, 1.0, 0j)], bodies, len(edges[0].heat.climates))

    return steady, harmonic, hours, a_day, moves


def three_edges() -> str:
    """The workshop's brief with an edge of its own for each two of its sides: a submittal of over twenty sheets."""
    text = (DEMO.parents[1] / "frost-wall-workshop" / "brief.toml").read_text(encoding="utf-8")
    head, _, rest = text.partition("[[edge]]")
    edge, _, others = rest.partition("[[alternative]]")
    edges = "".join("[[edge]]" + edge.replace('"all"', f"[{n}, {n + 1}]") for n in (1, 3, 5))
    return f"{head}{edges}[[alternative]]{others}"


def paper() -> tuple[Work, Work, int]:
    """The same with its fields there: the pictures and the paper; then pypdf reading the text back; its sheets."""
    import io

    from pypdf import PdfReader

    from underpour.answer import answer
    from underpour.brief import reads
    from underpour.cli.pictures import for_submittal
    from underpour.papers import submittal

    dossier = answer(reads(three_edges(), "workshop.toml"))

    def made() -> bytes:
        return submittal(dossier, for_submittal(dossier), date="2026-11-27").pdf

    pdf = made()

    def read_back() -> list[str]:
        return [page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages]

    return made, read_back, len(PdfReader(io.BytesIO(pdf)).pages)


def line_of_500(folder: Path) -> tuple[Path, Path]:
    """A line of 500 products with 12 tests each, as CSV and as a workbook."""
    from underpour.catalogue.line_file import read_line
    from underpour.catalogue.products import SHIPPED
    from underpour.tabled import table_of

    line = read_line(SHIPPED.read_text(encoding="utf-8"))
    board = next(product for product in line.product if len(product.evidence) >= 12)
    boards = [
        board.model_copy(update={"key": f"board-{n}", "name": f"Board {n}", "evidence": board.evidence[:12]})
        for n in range(500)
    ]
    files = folder / "line.csv", folder / "line.xlsx"
    for file in files:
        file.write_bytes(table_of(line.model_copy(update={"product": tuple(boards)}), file.suffix))
    return files


BARE_CSV = "import csv, sys; list(csv.reader(open(sys.argv[1], encoding='utf-8', newline='')))"
BARE_BOOK = "import openpyxl, sys; [list(sheet.iter_rows()) for sheet in openpyxl.load_workbook(sys.argv[1])]"


def main() -> int:
    with tempfile.TemporaryDirectory() as folder:
        bad, picture = Path(folder) / "bad.toml", Path(folder) / "picture.svg"
        bad.write_text(DEMO.read_text(encoding="utf-8").replace('"2 in"', '"2"'), encoding="utf-8")
        plain_mean, plain, plain_peer, plain_apart = one_section("no foam")
        wrapped_mean, wrapped, wrapped_peer, wrapped_apart = one_section("as briefed")
        bare, reader = seconds(7, process("-c", "")), seconds(7, process("-c", "from pydantic import BaseModel"))
        peers = seconds(7, plain_peer), seconds(7, wrapped_peer)
        six = 4.0 * peers[0] + 2.0 * peers[1]  # three alternatives, two films
        alone = "scikit-fem, without an estimate"
        underpour = ("-m", "underpour")
        workshop, printed = Path(folder) / "workshop.toml", Path(folder) / "paper.pdf"
        workshop.write_text(three_edges(), encoding="utf-8")
        made, read_back, sheets = paper()
        back = seconds(3, read_back)
        table, book = line_of_500(Path(folder))
        steady, harmonic, hours, a_day, moves = one_year()
        solved = seconds(7, wrapped_mean)
        still, two_years = seconds(15, steady), 730.0 * seconds(7, a_day)
        line = ("-o", Path(folder) / "line.toml", "--over")
        bare_csv, bare_book = (
            seconds(5, process("-c", words, file)) for words, file in ((BARE_CSV, table), (BARE_BOOK, book))
        )
        cold = process(*underpour, "submittal", workshop, "-o", printed, "--draft")
        rows = [
            ("help, whole process", seconds(7, process(*underpour, "--help")), 0.1, bare, "a bare process"),
            ("a brief that cannot be used, whole process", seconds(7, process(*underpour, "answer", bad)), 0.4, reader,
             "a process that loads pydantic"),
            ("the demo, answer --json, whole process", seconds(5, process(*underpour, "answer", DEMO, "--json")), 2.0,
             six, "six sections by the peer, warm"),
            ("the demo, compare with its picture", seconds(5, process(*underpour, "compare", DEMO, "-o", picture)), 2.0,
             six, "six sections by the peer, warm"),
            ("one mean with its estimate, no foam", seconds(7, plain_mean), 0.06, peers[0], alone),
            ("the same, foam all round the corner", solved, 0.06, peers[1], alone),
            ("mean and swing with estimates, no foam", seconds(7, plain), None, peers[0], alone),
            ("the same, foam all round the corner", seconds(7, wrapped), None, peers[1], alone),
            ("one harmonic, on one grid", seconds(15, harmonic), 3.0 * still, still, "the mean on the same grid"),
            ("the hourly year, 20 numbers, on one grid", seconds(7, hours), 0.5, two_years, "two years of steps there"),
            ("slopes of its floor's flow in all values", seconds(15, moves), 0.02 * solved, still,
             "the mean on the same grid"),
            (f"a submittal of {sheets} sheets, fields there", seconds(5, made), 2.5, back, "pypdf reads its text back"),
            ("the same, whole process", seconds(3, cold), 4.0, back, "pypdf reads its text back"),
            ("500 products, 6000 tests from CSV", seconds(5, process(*underpour, "catalogue", "import", table, *line)),
             5.0, bare_csv, "a process that reads the cells with csv"),
            ("the same from XLSX, whole process", seconds(5, process(*underpour, "catalogue", "import", book, *line)),
             5.0, bare_book, "a process that reads the cells with openpyxl"),
        ]  # fmt: skip
    machine = seconds(5, dense_solve)
    print(f"{'':44} {'here':>9} {'may take':>9} {'machine':>8} {'peer':>8}")
    for name, taken, limit, other, what in rows:
        may = f"{limit:7.3f} s" if limit else f"{'':9}"
        print(f"{name:44} {taken:7.3f} s {may} {taken / machine:7.1f}x {taken / other:7.2f}x  {what}")
    print(plain_apart, wrapped_apart, sep="\n")
    print(
        f"  peer: scikit-fem, ElementTriP2, {1000 * SMALLEST:.0f} mm beside every line, widening by {GROWTH:g}; "
        "scipy spsolve as it comes (SuperLU, COLAMD), mean and harmonic"
    )
    print(f"  machine: a dense solve of {UNKNOWNS} unknowns on one thread takes {machine:.4f} s")
    return int(any(limit is not None and taken > limit for _, taken, limit, *_ in rows))


if __name__ == "__main__":
    sys.exit(main())
