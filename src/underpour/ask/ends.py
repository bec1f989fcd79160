"""The brief answered with an open input at one end of its range."""

from __future__ import annotations

from dataclasses import dataclass

from ..mistakes import Mistake, Mistakes
from ..resolve import resolve
from ..trying import Named, Taken, with_change


@dataclass(frozen=True)
class End:
    """What holds with an open input at one end of its range."""

    value: float
    findings: Named
    unbuildable: str = ""  # why the brief cannot be built with it


def at_end(taken: Taken, path: str, value: float) -> End:
    """The brief with this value at this path, all else as taken."""
    try:
        return End(value, with_change(taken, resolve(taken.brief, {path: value}, taken.resolved.products)))
    except Mistakes as mistakes:
        return End(value, {}, next(iter(mistakes)).wrong)
    except Mistake as mistake:
        return End(value, {}, mistake.wrong)
