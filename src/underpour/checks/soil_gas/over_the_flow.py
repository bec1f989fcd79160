"""Fan, pipe and floor over the flow, and a pipe that draws by itself over the months, as they are drawn."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from ...physics.domain import OutOfDomain
from ...physics.soil_gas.fan import fan_curve
from ...physics.soil_gas.field import Unsettled
from ...resolve import Resolved
from ...resolve.soil_gas import ResolvedSoilGas
from .drawn_off import ByItself, DrawnOff, FanAndFloor, Needed, Of
from .layer import MONTHS, Case, field_of, field_of_month, layer_of, needed, outdoors_in, pipe_loss
from .way import way

SHARES = 0.02, 0.5, 1.0, 1.4  # of the working flow, at which the floor is asked what it takes
DRAWN_AT = 25  # points of a curve


def drawn_off(resolved: Resolved) -> DrawnOff | None:
    """The pipe's way with what draws in it; None where no pipe is laid."""
    gas = resolved.soil_gas
    if gas is None:
        return None
    laid = way(resolved, gas)
    if laid is None:
        return None
    if not gas.draws or not gas.suctions:
        return DrawnOff(laid, None, None)
    try:
        found = layer_of(resolved, gas)
        if isinstance(found, str):
            return DrawnOff(laid, None, None)
        if gas.system == "passive":
            return DrawnOff(laid, None, _by_itself(resolved, gas, found.middle))
        cases: list[tuple[Of, Case]] = [("usual", found.middle)]
        if not found.sure:  # how much flows is least where both are tight, most where both are open
            tight, wide = found.worst, found.best
            cases.append(("least", replace(tight, ground=wide.ground)))
            cases.append(("most", replace(wide, ground=tight.ground)))
        lines = tuple(_needed(resolved, gas, case, of) for of, case in cases)
        return DrawnOff(laid, _fan_and_floor(gas, lines, found.open_keys), None)
    except (OutOfDomain, Unsettled):
        return DrawnOff(laid, None, None)


def _needed(resolved: Resolved, gas: ResolvedSoilGas, case: Case, of: Of) -> Needed:
    """What floor and pipe take at flows round the working one.

    The floor is asked on wide cells, and the whole curve is brought to what the narrow ones give at the working flow.
    """
    field = field_of(resolved, gas, case)
    at, holds = field.flow, max(field.pit_suction)
    seen = np.array([needed(resolved, gas, case, share * at) for share in SHARES])
    of_floor = np.polynomial.Polynomial.fit(np.array(SHARES), seen, len(SHARES) - 1)
    brought = holds / of_floor(1.0)
    shares = np.linspace(SHARES[0], SHARES[-1], DRAWN_AT)
    curve = tuple((float(s * at), float(brought * of_floor(s)) + pipe_loss(gas, float(s * at))) for s in shares)
    return Needed(of, curve, (at, float(holds + pipe_loss(gas, at))))


def _fan_and_floor(gas: ResolvedSoilGas, lines: tuple[Needed, ...], open_keys: tuple[str, ...]) -> FanAndFloor:
    assert gas.fan is not None
    flows, pulls = zip(*gas.fan.curve, strict=True)
    pulled = fan_curve(flows, pulls)
    fan = tuple((float(flow), pulled(float(flow))[0]) for flow in np.linspace(flows[0], flows[-1], DRAWN_AT))
    pipe = tuple((float(flow), pipe_loss(gas, float(flow))) for flow in np.linspace(0.0, flows[-1], DRAWN_AT))
    return FanAndFloor(fan, () if gas.fan.generic else gas.fan.curve, pipe, lines, open_keys)


def _by_itself(resolved: Resolved, gas: ResolvedSoilGas, case: Case) -> ByItself:
    fields = [field_of_month(resolved, gas, case, outdoors_in(resolved, month)) for month in MONTHS]
    return ByItself(
        tuple(float(max(field.pit_suction, key=abs) + pipe_loss(gas, field.flow)) for field in fields),
        tuple(field.flow for field in fields),
        tuple(field.weakest[2] for field in fields),
    )
