"""Temperatures of a section for the reader's own painter: whole steps in 16 bits, mean and swing apart."""

from __future__ import annotations

from base64 import b64encode
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ...drawings.apart import laid_on
from ...drawings.scale import Scale
from ...drawings.sheet_field import BEYOND, carried
from ...physics.conduction.field import Field

STEP = 0.01  # K
AIR = -32768  # a place well within air


def field_data(field: Field) -> dict[str, Any]:
    """The grid, carried a little into the air so that a clip along a body leaves no gap."""
    parts = {"mean": field.mean, "cosine": field.swing.real, "sine": field.swing.imag}
    return {
        "x": [round(float(x), 5) for x in field.x],
        "y": [round(float(y), 5) for y in field.y],
        "step": STEP,
        "air": AIR,
        **{name: _letters(carried(values.astype(float), BEYOND)) for name, values in parts.items()},
    }


def thumbnail(field: Field, window: tuple[float, float, float, float], across: int = 90) -> dict[str, Any]:
    """The same on an even net of places, for a small picture."""
    x0, x1, y0, y1 = window
    high = max(int(across * (y1 - y0) / (x1 - x0)), 8)
    x, y = np.linspace(x0, x1, across, dtype=np.float32), np.linspace(y0, y1, high, dtype=np.float32)
    mean, swing = (laid_on(values, field, x, y) for values in (field.mean, field.swing))
    return field_data(Field(x, y, mean, swing, field.floor_x, field.floor_mean, field.floor_swing))


def tints(scale: Scale) -> dict[str, Any]:
    """Bounds between the flat tints [degC], and the tints, one more than there are bounds."""
    return {"bounds": [round(level, 4) for level in scale.levels[1:-1]], "colours": list(scale.tints)}


def _letters(values: NDArray[np.float64]) -> str:
    steps = np.where(np.isnan(values), AIR, np.clip(np.round(np.nan_to_num(values) / STEP), -32767, 32767))
    return b64encode(steps.astype("<i2").tobytes()).decode("ascii")
