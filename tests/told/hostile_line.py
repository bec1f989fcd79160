"""A product line that a page has to bear: endless names, sixty tests, none, other scripts, records that fall short."""

from __future__ import annotations

import datetime
from typing import Any

from product_lines import evidence, record_of, shipped

LONG = "Donaudampfschifffahrtselektrizitätenhauptbetriebswerkbauunterbeamtengesellschaft" * 2
OLD = {"date": datetime.date(2019, 3, 18), "expires": datetime.date(2022, 3, 18)}


def products() -> list[dict[str, Any]]:
    return [_long(), _sixty(), _bare(), _cyrillic(), _arabic(), _refused(), _empty(), _markup()]


def _long() -> dict[str, Any]:
    found = shipped("knob-25-film") | {
        "key": "long-" + "x" * 60,
        "name": LONG,
        "material": LONG,
        "note": f"{LONG}. " * 4,
    }
    for row in found["evidence"]:
        row["certificate"] = f"{LONG}-{row['certificate']}"
        row["conditions"] = {**row.get("conditions", {}), "note": LONG}
    found["attacked-by"] = [LONG, *found["attacked-by"] * 8]
    found["claims"] = [f"ASTM C578 type {LONG}", *found["claims"]]
    return found


def _sixty() -> dict[str, Any]:
    found = shipped("plain-25") | {"key": "sixty", "name": "Sixty Tests"}
    found["evidence"] += [
        evidence(
            "strength",
            27.0 + n / 100,
            "psi",
            "ASTM D1621",
            certificate=f"T-{n:02}",
            conditions={"thickness": f"{n} mm"},
        )
        for n in range(10, 70)
    ]
    return found


def _bare() -> dict[str, Any]:
    return {"key": "bare", "name": "No Evidence", "kind": "board", "family": "EPS"}


def _cyrillic() -> dict[str, Any]:
    return shipped("plain-15") | {"key": "cyrillic", "name": "Плита Мергельная 15, утеплитель под бетонную плиту"}


def _arabic() -> dict[str, Any]:
    return shipped("plain-15") | {"key": "arabic", "name": "لوح عزل تحت البلاطة"}


def _refused() -> dict[str, Any]:
    found = shipped("xps-25") | {"key": "refused", "name": "Nothing Stands"}
    found["claims"] = ["ASTM C578 type VII", "a class nobody knows"]
    record_of(found, "strength", "ASTM D1621")["statistic"] = "average"
    record_of(found, "resistance-24C").update(OLD)
    record_of(found, "density")["unit"] = "psi"
    record_of(found, "water")["method"] = ""
    record_of(found, "permeance").pop("certificate")
    return found


def _empty() -> dict[str, Any]:
    return {"key": "empty", "kind": "clip"}


def _markup() -> dict[str, Any]:
    name = '#panic("x") $a$ *b* _c_ `d` @e <f> = [g] \\ //'
    return shipped("tape-butyl") | {"key": "markup", "name": name, "note": name, "material": "=1+1"}
