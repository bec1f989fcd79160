"""The proof of it: tests in the closed house, and the gauge on the pipe."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ...catalogue import radon_test
from ...findings import Basis, Finding, Step
from ...measure import say
from ...resolve import Resolved
from ...resolve.soil_gas import ResolvedSoilGas, RoomTest
from ..basis import basis

TEST = "soilgas.test"
GAUGE = "soilgas.gauge"


def tested(resolved: Resolved, gas: ResolvedSoilGas) -> Finding:
    """Whether the finished building was tested for radon so that the test counts.

    Asks
        Was radon tested after everything stood, long enough, and with the house closed where a short test wants it?
    Why
        Nobody smells radon, and no drawing shows it. A test of two days with open windows tells of the weather.
    Worked out
        Tests that hung with what is there now, as long as their kind asks, short ones with the house closed.
    Holds for
        Dwellings and other rooms where people stay. Sales and rentals may have rules of their own.
    Source
        Protocols of the US Environmental Protection Agency, EPA 402-R-93-003 (from memory).
    """
    kit = radon_test("alpha-track")
    when = (
        "When the house is closed and lived in as usual, and not before the fan has been on for a day: an alpha track "
        f"detector for {kit.days_least.value:.0f} days or more in the lowest storey that is lived in, at breathing "
        "height and off outside walls; or two short tests side by side, windows and outside doors shut from twelve "
        "hours before on. Again every two years, and after every change."
    )
    empty = Finding(
        TEST,
        "Tests for radon in the closed house that count",
        None,
        "count",
        basis=(
            basis("epa-402-r-93-003", "how long tests hang, and closed houses"),
            Basis("common practice, no source", "where and when to test again", "practice"),
        ),
        rests_on=("soil-gas.test",),
        no_limit="not required, advised",
        words=f"Not tested yet. {when}",
    )
    if not gas.tests:
        return empty
    why = [(test, why_not(test, gas)) for test in gas.tests]
    counting = [test for test, wrong in why if not wrong]
    steps = tuple(_step(test, wrong, resolved) for test, wrong in why)
    words = (
        f"{len(counting)} of {len(why)} counts. {when}"
        if counting
        else f"None counts: {'; '.join(dict.fromkeys(wrong for _, wrong in why))}. {when}"
    )
    return replace(
        empty,
        value=float(len(counting)),
        limit=1.0,
        sense="at least",
        rests_on=tuple(test.path for test in gas.tests),
        steps=steps,
        words=words,
    )


def why_not(test: RoomTest, gas: ResolvedSoilGas) -> str:
    """Why a test does not count; "" where it does."""
    if test.system != gas.system:
        return "it hung before what is there now"
    if test.kit is None:
        return "its kind is not told"
    if test.days is None:
        return "nothing says how long it hung"
    if test.days < test.kit.days_least.value - 1e-9:
        hung = "1 day" if round(test.days) == 1 else f"{test.days:.0f} days"
        return f"it hung {hung}, and its kind asks {test.kit.days_least.value:.0f}"
    if not test.kit.long and test.closed is not True:
        return "it is a short test, and nothing says that the house was closed"
    return ""


def _step(test: RoomTest, wrong: str, resolved: Resolved) -> Step:
    label = test.kit.label if test.kit is not None else "kind not told"
    days = f", {test.days:.0f} days" if test.days is not None else ""
    where = f", {test.place}" if test.place else ""
    date = f", {test.date}" if test.date else ""
    return Step(
        "n",
        f"{label}{days}{where}{date}",
        say.both(test.level, "Bq/m³", resolved.system),
        f"0: {wrong}" if wrong else "1",
    )


def gauges(resolved: Resolved, gas: ResolvedSoilGas) -> Iterator[Finding]:
    """What the gauge on the pipe showed, kept in the record.

    Asks
        Does the fan still draw as it did on its first day?
    Why
        A fan that stands still is not noticed for years. The gauge's first reading is what every later one is held to.
    Worked out
        The reading as typed; the first one is told beside every later one.
    Holds for
        Pipes with a fan. The gauge tells of the pipe and nothing of the rooms.
    Source
        Common practice, no source.
    """
    first = gas.gauges[0] if gas.gauges else None
    for number, gauge in enumerate(gas.gauges, start=1):
        before = ""
        if first is not None and gauge is not first:
            before = (
                f" The first reading was {say.both(first.vacuum, 'Pa', resolved.system)}; a fifth off it, look why."
            )
        where = f" on {gauge.at}" if gauge.at else ""
        date = f" on {gauge.date}" if gauge.date else ""
        yield Finding(
            GAUGE,
            "Gauge on the pipe",
            gauge.vacuum,
            "Pa",
            at={"reading": f"{number}"},
            basis=(Basis("common practice, no source", "first reading marked on the gauge", "practice"),),
            rests_on=(f"{gauge.path}.vacuum",),
            steps=(Step("p", f"read{date}{where}", "", say.both(gauge.vacuum, "Pa", resolved.system)),),
            words=f"Mark it on the gauge, with the day.{before} It tells nothing of the rooms: test those.",
        )
