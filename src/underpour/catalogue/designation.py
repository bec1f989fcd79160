"""The code of a European standard for foam boards, read part by part."""

from __future__ import annotations

import re
from dataclasses import dataclass

STANDARD = re.compile(r"\bEN (1316[0-9]|1317[0-9])\b")
CREEP = re.compile(r"CC\((\d+(?:[.,]\d+)?)/(\d+(?:[.,]\d+)?)/(\d+(?:[.,]\d+)?)\)(\d+(?:[.,]\d+)?)")
LEVEL = re.compile(r"(CS\((?:10|10\\?Y|Y|10/Y)\)|BS|WL\(T\)|WD\(V\)|WL\(P\)|DLT\(\d\)|FTCDI?|FTCI?)(\d+(?:[.,]\d+)?)")


@dataclass(frozen=True, slots=True)
class Creep:
    """Under a stress that stands, how much of its thickness a board loses, and in how many years."""

    total: float  # %
    creep: float  # %, the part of it that comes after the first minutes
    years: float
    stress: float  # kPa


@dataclass(frozen=True, slots=True)
class Designation:
    """What a code declares."""

    standard: str  # "EN 13164"
    levels: tuple[tuple[str, float], ...]  # ("CS(10\\Y)", 500.0), ("BS", 150.0): the number stands behind the letters
    creep: Creep | None
    others: tuple[str, ...]  # parts that are classes of size and shape, or that are not read here: "L3", "DS(70,90)"


def designation(code: str) -> Designation | None:
    """The code of EN 13163, EN 13164 and their like; None where the words hold no such standard.

    A decimal comma and a decimal point mean the same.

    Source: EN 13163:2012 and EN 13164:2012, clause 6, designation code (from memory).

    >>> found = designation("XPS - EN 13164 - T1 - CS(10\\\\Y)500 - CC(2/1,5/50)180 - WL(T)0,7")
    >>> found.levels, found.creep.creep, found.creep.years, found.others
    ((('CS(10\\\\Y)', 500.0), ('WL(T)', 0.7)), 1.5, 50.0, ('T1',))
    """
    standard = STANDARD.search(code)
    if not standard:
        return None
    levels: list[tuple[str, float]] = []
    others: list[str] = []
    creep = None
    for part in _parts(code[standard.end() :]):
        if found := CREEP.fullmatch(part):
            total, by_creep, years, stress = map(_number, found.groups())
            creep = Creep(total, by_creep, years, stress)
        elif found := LEVEL.fullmatch(part):
            levels.append((found[1].replace("10/Y", "10\\Y"), _number(found[2])))
        else:
            others.append(part)
    return Designation(f"EN {standard[1]}", tuple(levels), creep, tuple(others))


def _parts(code: str) -> list[str]:
    """The parts between hyphens and spaces; none of them holds either."""
    return [part for part in re.split(r"[\s–-]+", code) if part]


def _number(typed: str) -> float:
    return float(typed.replace(",", "."))
