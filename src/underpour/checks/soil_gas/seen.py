"""Suction below the floor as it is drawn: on even lines over the plan, with its pits, footings and weakest corner."""

from __future__ import annotations

import numpy as np

from ...physics.domain import OutOfDomain
from ...physics.soil_gas.field import Unsettled
from ...resolve import Resolved
from .layer import field_of, layer_of
from .suction import Suction

LINES = 120  # across the longer side


def seen(resolved: Resolved) -> Suction | None:
    """Suction on even lines; None where no fan draws or too little is told."""
    gas = resolved.soil_gas
    if gas is None or gas.system != "fan" or not gas.suctions:
        return None
    try:
        layer = layer_of(resolved, gas)
        if isinstance(layer, str):
            return None
        field = field_of(resolved, gas, layer.middle)
    except (OutOfDomain, Unsettled):
        return None
    low_x, high_x, low_y, high_y = field.cells.x[0], field.cells.x[-1], field.cells.y[0], field.cells.y[-1]
    step = max(high_x - low_x, high_y - low_y) / LINES
    x = np.linspace(low_x, high_x, round((high_x - low_x) / step) + 1)
    y = np.linspace(low_y, high_y, round((high_y - low_y) / step) + 1)
    px, py = np.meshgrid(x, y, indexing="ij")
    net = field.at(px.ravel(), py.ravel()).reshape(px.shape) - field.room
    single = np.float32
    return Suction(
        x.astype(single),
        y.astype(single),
        net.astype(single),
        tuple((pit.x, pit.y, pit.radius) for pit in field.pits),
        tuple(tuple((float(a), float(b)) for a, b in ring) for ring in field.plan.footings),
        field.weakest,
    )
