"""Suction below this floor: how far it reaches, what the fan moves, whether channels carry as much as stone."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import pi

import numpy as np

from ...catalogue import of_soil_gas
from ...findings import Basis, Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...physics.domain import OutOfDomain
from ...physics.soil_gas.field import Field, Unsettled
from ...resolve import Resolved
from ...resolve.soil_gas import ResolvedSoilGas
from .layer import (
    CHANNELS,
    MONTHS,
    Layer,
    channels,
    field_of,
    field_of_month,
    layer_of,
    outdoors_in,
    pipe_loss,
    stone_beside,
)

WEAKEST, FLOW, VOID, TEST = "soilgas.weakest-corner", "soilgas.flow", "soilgas.void", "soilgas.communication"
SURE = "Measure it when the fan draws: a gauge in a small hole at this place, and a test of the rooms."
TIGHT = 0.02  # of the value, by cells half as wide
DARCY = Basis("Darcy with Forchheimer's term, leaky layer", "plan of the layer, all pits together", "derived")
PRACTICE = Basis("common practice, no source", "channels on a par with four inches of stone or better", "practice")


def suction(resolved: Resolved, gas: ResolvedSoilGas) -> Iterator[Finding]:
    """Everything that is drawn below the floor; nothing where nothing draws and nothing was tested."""
    yield from void(resolved, gas)
    yield from communication(resolved, gas)
    if not gas.draws:
        return
    yield from weakest(resolved, gas)


def weakest(resolved: Resolved, gas: ResolvedSoilGas) -> Iterator[Finding]:
    """How far the layer is below the room where suction reaches it least, and the air that is drawn.

    Asks
        Does suction reach the farthest corner, with the house at its own worst?
    Why
        Systems are sized by habit, and the far leg of an L-shaped house is forgotten. Where the layer is not below the
        room, soil gas goes on coming in there.
    Worked out
        The layer from above, Darcy and Forchheimer, footings and the ways through them; air from the ground, from the
        room through the joint round the slab; the fan's curve less the pipe's losses; all pits together. Where stone or
        ground were not measured, both ends of what they may be are worked out too. A pipe that draws by itself is
        worked out for each month, the house's own pull falling with the difference of temperature; wind is not in it.
    Holds for
        A slab without open cracks or pipes, dry even ground. The least is 1 Pa below the room.
    Source
        Ergun 1952, Harr 1962 and Poiseuille for what air flows through, Churchill 1977 and Rennels for the pipe; the
        least vacuum is practice.
    """
    least = of_soil_gas("least.vacuum")
    empty = Finding(
        WEAKEST,
        "Vacuum at the weakest corner",
        None,
        "Pa",
        basis=(least.basis(), DARCY),
        rests_on=("soil-gas.system", "soil-gas.suction", "soil-gas.house-vacuum"),
    )
    if not gas.suctions:
        words = "Nothing says where soil gas is drawn from. Write [[soil-gas.suction]] with its place on the plan."
        yield replace(empty, missing="soil-gas.suction.1.at", words=words)
        return
    try:
        found = layer_of(resolved, gas)
    except OutOfDomain:  # what is wrong with the readings is told where they are looked at
        found = CHANNELS if gas.channels else "soil-gas.communication.flow"
    if isinstance(found, str):
        yield replace(empty, missing=found, words=_unknown(found))
        return
    try:
        made = (
            _by_month(resolved, gas, found, empty) if gas.system == "passive" else _by_fan(resolved, gas, found, empty)
        )
        yield from made
    except (OutOfDomain, Unsettled):
        words = "Where the pits lie, what draws on them finds no steady state. Move the first one into the open stone."
        yield replace(empty, missing="soil-gas.suction.1.at", words=words)


def _unknown(missing: str) -> str:
    if missing == CHANNELS:
        return (
            "How well the panel's channels let air through is not known. Ask the maker for its measured flow at two "
            "falls of pressure or more, and write [[soil-gas.channels]]."
        )
    return (
        "No stone lies below this slab, and nobody knows how far suction reaches in what does. Do a communication "
        "test: scan the slab, draw at one hole, read at others, and write [soil-gas.communication]."
    )


def _by_fan(resolved: Resolved, gas: ResolvedSoilGas, of: Layer, empty: Finding) -> Iterator[Finding]:
    units, least = resolved.system, of_soil_gas("least.vacuum").value
    middle = field_of(resolved, gas, of.middle)
    x, y, net = middle.weakest
    assert gas.fan is not None
    rests = tuple(dict.fromkeys((*empty.rests_on, *of.rests_on, *gas.fan.rests_on, *_pipe_rests(gas))))
    words = f"Weakest is {_where(resolved, (x, y))}: {_below(resolved, net)} at its worst."
    made = replace(empty, within=TIGHT * abs(net), rests_on=rests, steps=_steps(resolved, gas, of, middle))
    if not of.sure:
        ends = [field_of(resolved, gas, case).weakest[2] for case in (of.worst, of.best)]
        low, high = (say.both(end, "Pa", units) for end in sorted(ends))
        told = f"Between {low} and {high} by what {_open(of)} may be; with usual values {say.both(net, 'Pa', units)}"
        if min(ends) < least <= max(ends):
            words = f"{told}, weakest {_where(resolved, (x, y))}. Measure it, or have a communication test done."
            yield replace(made, missing=of.open_keys[0], words=words, within=None)
            yield _drawn(resolved, gas, middle, rests)
            return
        words = f"{words} {told}."
    if net < least:
        words = f"{words} {_mend(resolved, gas, (x, y))}"
    yield replace(made, value=net, limit=least, sense="at least", words=f"{words} {SURE}")
    yield _drawn(resolved, gas, middle, rests)


def _by_month(resolved: Resolved, gas: ResolvedSoilGas, of: Layer, empty: Finding) -> Iterator[Finding]:
    """A pipe that draws by itself, month by month, the months by the year's one wave."""
    least = of_soil_gas("least.vacuum").value
    outdoors = [outdoors_in(resolved, month) for month in MONTHS]
    fields = [field_of_month(resolved, gas, of.middle, each) for each in outdoors]
    months = tuple(field.weakest[2] for field in fields)
    worst = int(np.argmin(months))
    back = [month for month, field in enumerate(fields) if field.flow < 0.0]
    rests = tuple(dict.fromkeys((*empty.rests_on, *of.rests_on, *_pipe_rests(gas), resolved.climate_path)))
    best = max(months)
    turns = (
        f"In {len(back)} months of the year the pipe blows outdoor air down below the slab. "
        if back
        else "It draws in every month. "
    )
    words = (
        f"The pipe draws by itself where its air is warmer than outdoors. At the weakest corner, "
        f"{_where(resolved, fields[worst].weakest[:2])}, the layer is {_below(resolved, best)} in the best month and "
        f"{_below(resolved, months[worst])} in the worst. {turns}"
        "Measured homes fell by 30 to 89 % with such pipes: no promise. A fan on the same pipe does it in every month."
    )
    yield replace(
        empty,
        value=months[worst],
        limit=least,
        sense="at least",
        within=TIGHT * abs(months[worst]),
        month=worst + 1,
        months=months,
        rests_on=rests,
        steps=_steps(resolved, gas, of, fields[worst]),
        words=words,
    )
    strongest = int(np.argmax(months))
    yield _drawn(resolved, gas, fields[strongest], rests)


def _drawn(resolved: Resolved, gas: ResolvedSoilGas, field: Field, rests: tuple[str, ...]) -> Finding:
    units = resolved.system
    share = 100.0 * field.room_flow / field.flow if field.flow > 0.0 else 0.0
    power = f" The fan takes {say.both(gas.fan.power, 'W', units)} from the mains." if gas.fan is not None else ""
    at_pits = ", ".join(say.both(each, "Pa", units) for each in field.pit_suction)
    of_room = f"{share:.0f} % of the air comes from the room, which is heated for nothing"
    if gas.communication is not None and gas.communication.flow is not None:
        of_room = "a test does not tell how much of the air comes from the room"
    words = f"{at_pits} in the {'pit' if len(field.pits) == 1 else 'pits'}; {of_room}.{power}"
    return Finding(
        FLOW,
        "Air that the pipe draws",
        field.flow,
        "m³/s",
        basis=(DARCY,),
        rests_on=rests,
        steps=(Step("Q", "where the fan's curve less the pipe meets the floor's", "", _liters(resolved, field.flow)),),
        words=words,
    )


def void(resolved: Resolved, gas: ResolvedSoilGas) -> Iterator[Finding]:
    """What a panel's channels carry beside 100 mm (4 in) of crushed stone, at the flow round the pit.

    Asks
        Do the channels below the panel do what four inches of stone would do?
    Why
        A channelled panel stands in for stone; fast air round a pit decides, and a sheet of slow flow hides that.
    Worked out
        Flow for each metre of width over the fall that drives it, of both, at the flow round a pit of usual width where
        50 cfm (24 l/s) are drawn, or what the brief's system draws.
    Holds for
        Channels as they were measured, under the load of the slab.
    Source
        Ergun 1952 for the stone; common practice for the comparison, no source.
    """
    if gas.panel is None and not gas.channels:
        return
    empty = Finding(
        VOID,
        "Channels of the panel beside 100 mm of stone",
        None,
        "%",
        basis=(PRACTICE, DARCY),
        rests_on=(CHANNELS,),
    )
    try:
        ways = channels(resolved, gas)
    except OutOfDomain:
        words = "These readings tell too little: ask for the fall of pressure at two flows or more, one of them low."
        yield replace(empty, missing=CHANNELS, words=words)
        return
    if ways is None:
        yield replace(empty, missing=CHANNELS, words=_unknown(CHANNELS))
        return
    carries, rests = ways
    flow = of_soil_gas("working.flow").value
    width = flow / (pi * of_soil_gas("pit.width").value)
    stone = stone_beside(gas)
    value = 100.0 * carries.transmissivity(width) / stone.transmissivity(width)
    worse = "" if value >= 100.0 else " Lay stone round the pits, take more pits, or another panel."
    words = (
        f"At {_liters(resolved, flow)} round a pit the channels carry {value:.0f} % of what 100 mm (4 in) of clean "
        f"stone carry.{worse}"
    )
    steps = (
        Step(
            "q", "Q / (π d)", f"{_liters(resolved, flow)} round a pit of usual width", f"{width * 1e3:.2f} l/s a metre"
        ),
        Step(
            "T",
            "q / (a q + b q²), channels",
            f"{carries.viscous:.3g}, {carries.inertial:.3g}",
            f"{carries.transmissivity(width):.3g} m³/(s·Pa)",
        ),
        Step(
            "T",
            "q / (a q + b q²), stone",
            f"{stone.viscous:.3g}, {stone.inertial:.3g}",
            f"{stone.transmissivity(width):.3g} m³/(s·Pa)",
        ),
    )
    yield replace(empty, value=value, limit=100.0, sense="at least", rests_on=rests, steps=steps, words=words)


def communication(resolved: Resolved, gas: ResolvedSoilGas) -> Iterator[Finding]:
    """How well one stone and one leak explain what the gauges showed.

    Asks
        What do the test holes tell of the layer below the slab?
    Why
        What lies below an old slab is not known; a test beats every table.
    Worked out
        Permeability and leaks fitted to the readings, each weighed by its doubt of a tenth.
    Holds for
        Readings of one test with the flow drawn. Ground and slab leak together and cannot be told apart.
    Source
        Least squares (derived).
    """
    if gas.communication is None:
        return
    empty = Finding(
        TEST,
        "Readings that the fitted layer misses, in the mean",
        None,
        "%",
        basis=(DARCY,),
        rests_on=("soil-gas.communication.flow", *(hole.path for hole in gas.communication.holes)),
    )
    if gas.communication.flow is None:
        words = (
            "Without the flow that was drawn, stone and leaks cannot be told apart: measure it in the hose or the pipe."
        )
        yield replace(empty, missing="soil-gas.communication.flow", words=words)
        return
    if len(gas.communication.holes) + (gas.communication.vacuum is not None) < 2:
        words = "One reading tells stone or leaks, not both. Scan, then drill two holes more, one near and one far off."
        yield replace(empty, missing="soil-gas.communication.vacuum", words=words)
        return
    try:
        found = layer_of(resolved, gas)
    except OutOfDomain:
        words = "No stone and no leak give these readings. Look whether two changed places, and read the flow again."
        yield replace(empty, missing="soil-gas.communication.flow", words=words)
        return
    assert not isinstance(found, str) and found.fitted is not None
    fit = found.fitted
    scan = (
        ""
        if gas.communication.scanned
        else " Scan the slab for tubes, cables and tendons before another hole is drilled."
    )
    words = (
        f"The layer lets air through as {fit.permeability:.2g} m² (a factor of {fixed(fit.permeability_doubt, 1)} "
        f"either way), and {fit.leakage * 1e6:.2g} µm/(s·Pa) leak into it (a factor of {fixed(fit.leakage_doubt, 1)}). "
        f"The readings are missed by {100.0 * fit.residual:.0f} % in the mean.{scan}"
    )
    steps = tuple(
        Step("p", f"hole {n}: read, and by the fitted layer", f"{read:.3g} Pa", f"{ours:.3g} Pa")
        for n, (read, ours) in enumerate(zip(fit.read, fit.found, strict=True), start=1)
    )
    yield replace(empty, value=100.0 * fit.residual, steps=steps, words=words)


def _steps(resolved: Resolved, gas: ResolvedSoilGas, of: Layer, field: Field) -> tuple[Step, ...]:
    units, stone = resolved.system, of.middle.hydraulics
    net = field.weakest[2]
    taken = pipe_loss(gas, field.flow)
    return (
        Step("g", f"a q + b q², {of.what}", f"a = {stone.viscous:.3g} Pa·s/m³, b = {stone.inertial:.3g} Pa·s²/m⁵", ""),
        Step(
            "Δp",
            "friction, bends and both ends of the pipe",
            _liters(resolved, field.flow),
            say.both(taken, "Pa", units),
        ),
        Step(
            "Q",
            "in through the ground, and from the room",
            _liters(resolved, field.ground_flow),
            _liters(resolved, field.room_flow),
        ),
        Step(
            "p",
            "below outdoors at the weakest place, less the house's own",
            f"{fixed(net + field.room, 2)} − {fixed(field.room, 2)} Pa",
            say.both(net, "Pa", units),
        ),
    )


def _mend(resolved: Resolved, gas: ResolvedSoilGas, at: tuple[float, float]) -> str:
    cut_off = [n for n, each in enumerate(gas.footings, start=1) if not each.crossings]
    ways = f", or leave ways through footing {cut_off[0]}" if cut_off else ""
    return f"Draw at a second place near it{ways}."


def _pipe_rests(gas: ResolvedSoilGas) -> tuple[str, ...]:
    return gas.pipe.rests_on if gas.pipe is not None else ()


def _below(resolved: Resolved, net: float) -> str:
    return f"{say.both(abs(net), 'Pa', resolved.system)} {'below' if net >= 0.0 else 'above'} the room"


def _open(of: Layer) -> str:
    names = {"soil-gas.stone.permeability": "the stone", "soil-gas.permeability": "the ground"}
    return " and ".join(names[key] for key in of.open_keys)


def _liters(resolved: Resolved, flow: float) -> str:
    return say.both(flow, "m³/s", resolved.system)


def _where(resolved: Resolved, at: Sequence[float]) -> str:
    """A place on the plan by the corner that it is nearest to, as a mason would say it."""
    corners = resolved.plan.floor.corners
    near = min(corners, key=lambda corner: (corner.point[0] - at[0]) ** 2 + (corner.point[1] - at[1]) ** 2)
    away = ((near.point[0] - at[0]) ** 2 + (near.point[1] - at[1]) ** 2) ** 0.5
    name = f"corner {near.number}" if near.ring == 0 else f"corner {near.number} of hole {near.ring}"
    return f"at {name}" if away < 0.05 else f"{say.both(away, 'm', resolved.system)} from {name}"
