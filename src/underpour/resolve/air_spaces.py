"""Air spaces, and the foil and bubble sheets that may lie against them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from .. import catalogue
from ..measure import Measure, System, say
from ..mistakes import Mistake
from .resolved import AirSpace, Slice
from .wanted import wanted_of

STILL_AIR = 1200.0  # J/(m³·K), air at room temperature: 1.2 kg/m³ at 1000 J/(kg·K)


def upright_air(thickness: Measure, path: str, r: Measure | None, system: System) -> Slice:
    """An air space as it stands in a wall; one that lies in a floor is worked out once its neighbours are known."""
    resistance, row = catalogue.air_layer(thickness.si)
    return Slice(
        "air-space",
        "Air space",
        f"Air space, {say.typed(thickness, 'm', system)}",
        thickness.si,
        thickness.si / resistance,
        STILL_AIR,
        "air",
        path,
        (path, row.path),
        wanted=wanted_of(r, _beside(path), system),
    )


def sheet_slice(key: str, path: str, r: Measure | None, system: System) -> Slice:
    """A foil or bubble sheet: its thin body alone. One that has no body is a line, as a film is. Raises Mistake."""
    try:
        sheet = catalogue.sheet(key)
    except Mistake as mistake:
        raise mistake.placed(at=path) from None
    resists = sheet.resistance.value
    return Slice(
        "sheet",
        sheet.label,
        f"{sheet.label}, {say.both(sheet.thickness, 'm', system)}" if resists else sheet.label,
        sheet.thickness if resists else 0.0,
        sheet.thickness / resists if resists else 1.0,
        sheet.heat_capacity.value,
        "sheet" if resists else "film",
        path,
        (path, sheet.resistance.path),
        key=sheet.key,
        wanted=wanted_of(r, _beside(path), system),
    )


def with_lying_air(floor: Sequence[Slice], rising: bool) -> tuple[Slice, ...]:
    """The floor with each of its air spaces worked out as it lies, between its neighbours.

    Parameters
    ----------
    floor : sequence of Slice
        From the room down.
    rising : bool
        Whether heat flows up through the floor: its room is colder than the ground on the mean of the year.
    """
    if not any(layer.kind == "air-space" for layer in floor):
        return tuple(floor)
    faces = [None, *floor, None]
    return tuple(
        _lying(layer, faces[n], faces[n + 2], rising) if layer.kind == "air-space" else layer
        for n, layer in enumerate(floor)
    )


def _lying(layer: Slice, over: Slice | None, under: Slice | None, rising: bool) -> Slice:
    from ..physics import air_space

    known = catalogue.air_spaces()
    ordinary, mean = known["ordinary-face"], known["mean"]
    bare = catalogue.sheet("foil").emissivity
    above, below = (
        catalogue.sheet(each.key).emissivity if each is not None and each.kind == "sheet" else ordinary
        for each in (over, under)
    )
    metal = [face.value < 0.5 * ordinary.value for face in (above, below)]
    foils = metal if any(metal) else [True, False]
    carried = (air_space.convection_up if rising else air_space.convection_down)(layer.thickness)

    def resists(one: float, other: float) -> float:
        return air_space.resistance(carried, air_space.radiation(one, other, mean.value))

    value = resists(above.value, below.value)
    return replace(
        layer,
        conductivity=layer.thickness / value,
        rests_on=tuple(dict.fromkeys((layer.path, above.path, below.path, mean.path))),
        air=AirSpace(
            rising=rising,
            faces=(above.value, below.value),
            foil=any(metal),
            convection=carried,
            radiation=air_space.radiation(above.value, below.value, mean.value),
            ordinary=resists(ordinary.value, ordinary.value),
            clean=resists(ordinary.value, bare.value),
            dull=resists(*(bare.high if foil else ordinary.value for foil in foils)),
        ),
    )


def _beside(path: str) -> str:
    """The path of the R that is wanted of the layer at ``path``."""
    return f"{path.rsplit('.', 1)[0]}.r"
