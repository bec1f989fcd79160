"""What a brief says of its foam where it does not leave it to the catalogue."""

from __future__ import annotations

from typing import Literal

from .. import kinds
from .table import Table, key

LongTerm = Literal["smallest", "one-third", "three-tenths", "one-percent", "creep", "cc-code"]


class FoamTable(Table):
    """By which basis foam may carry something for good, and how wet it lies. Boards are called as in the catalogue."""

    long_term: LongTerm | None = key(
        "The basis of what may stand on foam for good: the smallest with evidence, a third of the strength, three "
        "tenths of the strength at 10 % strain, the resistance at 1 % strain, a creep test, or the maker's CC code.",
        "smallest",
        "creep",
        default=None,
    )
    long_term_stress: dict[str, kinds.Stress] = key(
        "What may stand on a board for good, as an engineer sets it; it goes before every basis.",
        {"c578-xiv": "12 psi"},
        default={},
    )
    modulus: dict[str, kinds.Stress] = key(
        "How stiff a board is under what comes and goes, as its maker tests it: stress over strain.",
        {"c578-vi": "1000 psi"},
        default={},
    )
    modulus_for_good: dict[str, kinds.Stress] = key(
        "The same under what stands for decades, its creep counted in.", {"c578-vi": "400 psi"}, default={}
    )
    water: dict[str, kinds.WaterShare] = key(
        "Water that a board holds after years in the ground, by volume.", {"c578-ii": "5 %"}, default={}
    )
