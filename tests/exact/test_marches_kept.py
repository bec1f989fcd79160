"""Marches that are kept by their content: the same numbers are stepped once, another number is stepped anew."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace as Shape

import numpy as np
import pytest

from underpour.physics.frost.cells import Cells, Freezes, cells
from underpour.physics.frost.march import Moment, march
from underpour.wintering import marched
from underpour.wintering.marched import Shelf, content, over_years, through_winter

DAY = 86400.0
COLD = [Moment(np.full(3, -8.0), np.full(3, 0.04))] * 20
MILD = [Moment(np.full(3, 6.0), np.full(3, 0.04))] * 120
START = np.full(12, 4.0)


def column(conductivity: float = 1.5, water: float = 1e8) -> Cells:
    """Ground 1 m wide and 3 m deep below air, in twelve cells."""
    y = np.append(np.linspace(-3.0, 0.0, 13), 1.0)
    box = lambda low, high: ((0.0, low), (1.0, low), (1.0, high), (0.0, high))  # noqa: E731
    ground = Shape(outline=box(-3.0, 0.0), conductivity=conductivity, heat_capacity=3e6, priority=1)
    air = Shape(where="outdoors", outline=box(0.0, 1.0))
    return cells(np.array([0.0, 1.0]), y, [ground], [air], {0: Freezes(2.2, 1.9e6, water, 0.5)})


@pytest.fixture
def stepped(monkeypatch):
    """An empty shelf, and how often a march begins."""
    begun = []

    def counted(*given):
        begun.append(given)
        return march(*given)

    monkeypatch.setattr(marched, "SHELF", Shelf(marched.MOST))
    monkeypatch.setattr(marched, "march", counted)
    return begun


def test_the_same_ground_in_the_same_winter_is_stepped_once(stepped):
    first = through_winter(column(), START, COLD, DAY, 1)
    again = through_winter(column(), START.copy(), list(COLD), DAY, 1)
    assert len(stepped) == 1 and again is first


@pytest.mark.parametrize(
    ("what", "given"),
    [
        ("conductivity", (column(1.5000001), START, COLD, DAY, 1)),
        ("water", (column(water=1.01e8), START, COLD, DAY, 1)),
        ("a cell to begin with", (column(), START + np.eye(12)[3] * 1e-9, COLD, DAY, 1)),
        ("air of one day", (column(), START, [*COLD[:-1], Moment(np.full(3, -8.1), COLD[0].films)], DAY, 1)),
        ("a film", (column(), START, [*COLD[:-1], Moment(COLD[0].air, np.full(3, 0.05))], DAY, 1)),
        ("one day less", (column(), START, COLD[:-1], DAY, 1)),
        ("length of a step", (column(), START, COLD, DAY / 2.0, 1)),
    ],
    ids=lambda each: each if isinstance(each, str) else "",
)
def test_another_number_is_stepped_anew_and_gives_other_temperatures(stepped, what, given):
    first = through_winter(column(), START, COLD, DAY, 1)
    other = through_winter(*given)
    assert len(stepped) == 2, what
    if what != "a cell to begin with":
        assert other.shape != first.shape or not np.array_equal(other, first), what


def test_every_field_of_a_section_tells_it_from_another():
    at = column()
    for name in ("x", "y", "number", "area", "one", "other", "length", "half_one", "half_other"):
        moved = getattr(at, name).copy()
        moved[0] += 1
        assert content(replace(at, **{name: moved})) != content(at), name


def test_what_is_kept_is_bounded_and_what_was_used_longest_ago_goes_first():
    shelf, made = Shelf(1000), []

    def of(name: bytes):
        return shelf.find(name, lambda: made.append(name) or np.zeros(50))  # 400 bytes

    of(b"a"), of(b"b"), of(b"a"), of(b"c")  # b goes
    assert made == [b"a", b"b", b"c"]
    of(b"a")
    assert made == [b"a", b"b", b"c"]
    of(b"b")
    assert made == [b"a", b"b", b"c", b"b"]


def test_what_is_kept_cannot_be_written_to(stepped):
    with pytest.raises(ValueError, match="read-only"):
        through_winter(column(), START, COLD, DAY, 1)[0, 0] = 0.0


def test_a_winter_ends_when_nothing_can_freeze_any_more_and_not_before(stepped):
    """The days up to then are those of the whole march; a cold day at the very end keeps it going."""
    whole = np.array([after.temperature for after in march(column(), START, [*COLD, *MILD], DAY)])
    short = through_winter(column(), START, [*COLD, *MILD], DAY, 1)
    assert len(COLD) < len(short) < len(whole)
    assert short == pytest.approx(whole[: len(short)], abs=1e-5)
    assert whole[len(short) - 1].min() >= 0.0 > whole[len(short) - 2].min()
    assert len(through_winter(column(), START, [*COLD, *MILD], DAY, 135)) == 135
    assert len(through_winter(column(), START, [*COLD, *MILD, COLD[0]], DAY, 1)) == len(whole) + 1


def test_what_is_read_over_years_is_kept_with_what_it_was_read_for(stepped):
    def at(n: int):
        return over_years(column(), START, COLD, DAY, 2, lambda temperature: float(temperature[n]), n)

    assert at(0)[-1] != at(11)[-1] and len(stepped) == 2
    assert at(0)[-1] == at(0)[-1] and len(stepped) == 2


def test_years_end_when_three_running_are_alike_and_the_others_are_as_the_last(stepped):
    """As many years of the same air as it takes: the middle of the column comes to the air's temperature."""
    year = [Moment(np.full(3, 6.0), np.full(3, 0.04))] * 100
    told = over_years(column(), START, year, DAY, 30, lambda temperature: float(temperature[0]))
    whole = [after.temperature[0] for n, after in enumerate(march(column(), START, year * 30, DAY), 1) if n % 100 == 0]
    assert told.shape == (30,) and len(set(told)) < 20
    first = next(n for n in range(30) if told[n] == told[-1])
    assert told[: first + 1] == pytest.approx(whole[: first + 1], abs=1e-9)
    assert np.ptp(told[first - 2 : first + 1]) < marched.STEADY <= np.ptp(told[first - 3 : first])
    assert told[-1] == pytest.approx(6.0, abs=0.01)
