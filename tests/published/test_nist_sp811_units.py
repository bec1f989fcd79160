"""NIST Special Publication 811 (2008), Guide for the Use of the International System of Units, appendix B.

Seen: from memory; the resistance, Btu, inch and foot of water, perm and perm inch quoted by others (see the rows).
212 F is left out: water boils there, but no brief has it, and the reader refuses it.
"""

import tomllib
from pathlib import Path

import pytest

from ledger import held
from underpour import measure

ROWS = tomllib.loads((Path(__file__).parent / "data" / "nist-sp811-units.toml").read_text(encoding="utf-8"))["row"]


@pytest.mark.parametrize("row", [pytest.param(row, id=f"{row['kind']} {row['typed']}") for row in ROWS])
def test_one_unit_is_what_the_guide_prints(row):
    assert not row["doubtful"]
    read = getattr(measure, row["kind"])(row["typed"])
    tolerance = max(row.get("rel_tol", 0.0) * abs(row["value"]), row.get("abs_tol", 0.0))
    held(read.si, row["value"], tolerance, row["unit"], "NIST Special Publication 811 (2008), appendix B", row["seen"])
