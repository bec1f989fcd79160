"""Round values between nought and a largest one, as a reader counts them."""

from __future__ import annotations

from math import floor, log10

ROUND = (1.0, 2.0, 5.0, 10.0)


def levels(largest: float, count: int) -> tuple[float, ...]:
    """About so many round values above nought and below the largest, evenly apart.

    >>> levels(1.41, 6)
    (0.2, 0.4, 0.6, 0.8, 1.0, 1.2, 1.4)
    >>> levels(0.0, 6)
    ()
    """
    if largest <= 0.0:
        return ()
    step = _round(largest / count)
    places = max(0, -floor(log10(step)))
    number = floor(largest / step * (1.0 - 1e-9))
    return tuple(round(step * n, places) for n in range(1, number + 1))


def written(level: float, all_levels: tuple[float, ...]) -> str:
    """A level with as many places as its step has.

    >>> written(0.4, (0.2, 0.4)), written(10.0, (10.0, 20.0))
    ('0.4', '10')
    """
    places = max(0, -floor(log10(all_levels[0]) + 1e-9))
    return f"{level:.{places}f}"


def _round(rough: float) -> float:
    power = 10.0 ** floor(log10(rough))
    return power * min(ROUND, key=lambda each: abs(log10(each * power / rough)))
