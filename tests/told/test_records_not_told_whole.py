"""Whatever validating cannot tell names one key; the same product with that key written is told otherwise."""

from __future__ import annotations

import copy
import datetime
import re
from pathlib import Path
from typing import Any

import pytest
from tests.product_lines import evidence, held, record_of, shipped

CONFORMITY = Path(__file__).parents[2] / "src" / "underpour" / "conformity"


def without(key: str, *path: str | int) -> dict[str, Any]:
    """A shipped product with one key taken out."""
    product = shipped(key)
    here: Any = product
    for step in path[:-1]:
        here = here[step]
    del here[path[-1]]
    return product


def claiming(key: str, claim: str) -> dict[str, Any]:
    return {**shipped(key), "claims": [claim]}


def twice(property: str, method: str, value: float, unit: str, **more: Any) -> dict[str, Any]:
    """A product with two records of a property by a test of which nobody knows how far laboratories lie apart."""
    product = shipped("gas-15")
    product["evidence"] = [
        evidence(property, value, unit, method, **more),
        evidence(property, 2.0 * value, unit, method, certificate="T-2", **more),
    ]
    return product


CREEP = next(n for n, row in enumerate(shipped("plain-15")["evidence"]) if row["property"] == "creep")
DOUBTFUL = claiming("xps-25", "ASTM C578 type XIII")
FLOW = {"conditions": {"thickness": "1-1/2 in", "slowest": "0.02 m/s", "fastest": "0.60 m/s"}}
NOT_TOLD: list[tuple[str, dict[str, Any], str, Any]] = [
    # id, the product, the one key, what is written there
    ("record.missing", without("plain-15", "evidence", CREEP, "laboratory"), f"evidence.{CREEP + 1}.laboratory",
        "third party"),
    ("record.missing", without("plain-15", "evidence", CREEP, "date"), f"evidence.{CREEP + 1}.date",
        datetime.date(2024, 5, 6)),
    ("record.missing", without("plain-15", "evidence", CREEP, "expires"), f"evidence.{CREEP + 1}.expires",
        datetime.date(2024, 6, 1)),
    ("record.missing", without("plain-15", "evidence", CREEP, "certificate"), f"evidence.{CREEP + 1}.certificate",
        "MB-02-CRE"),
    ("record.missing", without("plain-15", "evidence", CREEP, "statistic"), f"evidence.{CREEP + 1}.statistic",
        "each"),
    ("record.conditions", without("plain-15", "evidence", CREEP, "conditions", "reaches"),
        f"evidence.{CREEP + 1}.conditions.reaches", "500 years"),
    ("record.apart", twice("channel-permeability", "flow rig", 2e-6, "m²", **FLOW), "evidence.2.value", 2e-6),
    ("product.missing", without("plain-15", "sizes"), "sizes", ["4 ft x 8 ft"]),
    ("product.missing", without("plain-15", "name"), "name", "Plain 15"),
    ("product.missing", without("sheet-15", "lap"), "lap", "4 in"),
    ("product.height", without("gas-15", "made", 0, "height"), "made.1.height", "9 in"),
    ("class.doubtful", DOUBTFUL, "claims", ["ASTM C578 type IV"]),
    ("class.no-list", claiming("plain-15", "ASTM C552 type I"), "claims", ["ASTM C578 type II"]),
    ("class.no-list", claiming("plain-15", "CG EN 13167 T4-CS(Y)600"), "claims", ["ASTM C578 type IX"]),
    ("class.nothing-held", claiming("plain-15", "EPS EN 13163 L3-W3"), "claims", ["EPS EN 13163 CS(10)100"]),
]  # fmt: skip


def written(product: dict[str, Any], key: str, value: Any) -> dict[str, Any]:
    """The product with a value under the key that a finding names; lists are counted from 1."""
    made = copy.deepcopy(product)
    here: Any = made
    *path, last = key.split(".")
    for step in path:
        here = here[int(step) - 1] if step.isdigit() else here.setdefault(step, {})
    here[last] = value
    return made


@pytest.mark.parametrize(("id", "product", "key", "value"), NOT_TOLD, ids=[f"{row[0]} {row[2]}" for row in NOT_TOLD])
def test_what_cannot_be_told_names_one_key_and_is_told_once_it_is_written(id, product, key, value):
    (open_,) = (each for each in held(product).findings if each.verdict == "cannot tell")
    assert (open_.id, open_.key) == (id, key)
    after = held(written(product, key, value)).findings
    assert not [each for each in after if each.verdict == "cannot tell"]


@pytest.mark.parametrize(
    ("key", "value", "id"),
    [
        (f"evidence.{CREEP + 1}.expires", datetime.date(2026, 1, 1), "record.expired"),
        (f"evidence.{CREEP + 1}.date", datetime.date(2027, 1, 1), "record.future"),
        (f"evidence.{CREEP + 1}.conditions.reaches", "500 years", "record.carried-forward"),
    ],
)
def test_a_value_that_does_not_stand_falls_short_where_nothing_could_be_told(key, value, id):
    *path, last = key.split(".")
    product = without("plain-15", *(int(step) - 1 if step.isdigit() else step for step in path), last)
    assert not held(product).falls_short
    assert id in [each.id for each in held(written(product, key, value)).findings if each.verdict == "falls short"]


def test_each_missing_key_is_a_finding_of_its_own():
    product = shipped("plain-15")
    record = record_of(product, "creep")
    for key in ("laboratory", "date", "certificate"):
        del record[key]
    del product["sizes"], product["name"]
    keys = [each.key for each in held(product).findings if each.verdict == "cannot tell"]
    n = CREEP + 1
    assert keys == ["sizes", "name", f"evidence.{n}.laboratory", f"evidence.{n}.date", f"evidence.{n}.certificate"]


def test_only_what_cannot_be_told_names_a_key():
    product = shipped("plain-15")
    del product["sizes"]
    record_of(product, "density")["unit"] = "psi"
    for each in held(product).findings:
        assert bool(each.key) == (each.verdict == "cannot tell"), each


def test_every_kind_of_finding_that_cannot_tell_is_tried_here():
    told = "".join(path.read_text("utf-8") for path in CONFORMITY.glob("*.py"))
    calls = re.findall(r"RecordFinding\((?:[^()]|\([^()]*\))*\)", told)
    ids = {re.search(r'"([a-z]+\.[a-z-]+)"', call)[1] for call in calls if '"cannot tell"' in call}
    assert ids == {row[0] for row in NOT_TOLD}
