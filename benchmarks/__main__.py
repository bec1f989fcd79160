"""How long things take on this machine, beside general-purpose libraries that reach the same error.

    python3 dev.py bench                        every theme, some minutes; the table, and out/bench.json
    python3 dev.py bench --only steady year     these themes
    python3 dev.py bench -o docs/benchmarks.json     and docs/making/benchmarks_page.py makes the page of it
    python3 dev.py bench --before FOLDER        whole answers beside an earlier source of this project, too

Everything is done on one thread, our way and the peers' turn by turn in this process; ratios are of medians. A peer is
told the right answer and takes its cheapest settings that are near enough; our time counts the estimate as well.
"""

from __future__ import annotations

import os

for threads in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ[threads] = "1"  # before numpy is loaded: sections are too small to gain from more

import argparse  # noqa: E402
import json  # noqa: E402
import sys  # noqa: E402
from collections.abc import Sequence  # noqa: E402
from datetime import UTC, datetime  # noqa: E402
from pathlib import Path  # noqa: E402
from typing import Any  # noqa: E402

from . import gradient, machine, many, papers, process, steady, table, where, year  # noqa: E402
from .posed import CASES, ROOT  # noqa: E402
from .race import raced  # noqa: E402

PLACE = ROOT / "out" / "bench.json"
THEMES = {"steady": steady, "year": year, "gradient": gradient, "many": many, "process": process, "papers": papers}


def found(themes: Sequence[str], tiny: bool, before: Path | None) -> dict[str, Any]:
    """Everything timed, as it is written down."""
    limits = machine.measured(tiny)  # first: papers bring a typesetter with threads of its own
    rows = []
    for theme in themes:
        print(f"{table.THEMES[theme]} ...", file=sys.stderr, flush=True)
        more = {"before": before} if theme == "process" else {}
        for race in THEMES[theme].races(tiny, **more):  # type: ignore[attr-defined]
            rows.append(raced(race, 1 if tiny else None))
            print("\n".join(table.of_row(rows[-1])), file=sys.stderr, flush=True)
    return {
        "format": "benchmarks/1",
        "made": datetime.now(UTC).date().isoformat(),
        "tiny": tiny,
        "machine": limits | {"load": machine.load()},
        "where": {case().name: where.shares(case().still) for case in CASES.values()},
        "rows": rows,
    }


def main(words: Sequence[str]) -> int:
    asked = argparse.ArgumentParser(prog="dev.py bench", description=__doc__.splitlines()[0])  # type: ignore[union-attr]
    asked.add_argument("--only", nargs="+", choices=THEMES, default=list(THEMES), metavar="THEME")
    asked.add_argument("--tiny", action="store_true", help="small sizes, once each: to see that it all works")
    asked.add_argument("--before", type=Path, help="the folder src of an earlier state of this project")
    asked.add_argument("-o", type=Path, default=PLACE, metavar="FILE", help="where the JSON goes")
    typed = asked.parse_args(words)
    told = found(typed.only, typed.tiny, typed.before)
    typed.o.parent.mkdir(parents=True, exist_ok=True)
    typed.o.write_text(json.dumps(told, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")
    print("\n".join(table.lines(told)))
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
