"""What a slab lies on as one spring, from the softest to the stiffest that it may be."""

from __future__ import annotations

from dataclasses import dataclass

from ... import catalogue
from ...findings import Basis, Step
from ...measure.digits import fixed
from ...physics.plates import springs
from ...resolve import Bedded, Support

KILO, MEGA = 1e3, 1e6
SERIES = Basis("springs one below another", "1/k = Σ 1/k of each layer", "derived")


@dataclass(frozen=True, slots=True)
class Bed:
    """Foam, gravel and ground as one spring. [N/m³]"""

    soft: float  # with the foam as soft as it may be, the ground as taken
    stiff: float
    softest: float  # with the ground at the soft end of its range as well
    stiffest: float
    steps: tuple[Step, ...]
    basis: tuple[Basis, ...]
    rests_on: tuple[str, ...]
    years: bool  # whether the foam is as it is after decades


def unknown(support: Support, standing: bool) -> Bedded | None:
    """The first board of which nobody knows how stiff it is."""
    return next((each for each in support.boards if _moduli(each, standing) is None), None)


def _moduli(board: Bedded, standing: bool) -> tuple[float, float] | None:
    """Softest and stiffest; under a load of decades as under one that comes and goes where no creep is known. [Pa]"""
    return (board.standing or board.passing) if standing else board.passing


def bed(support: Support, standing: bool) -> Bed:
    """All that the slab lies on, every board's stiffness known."""
    gravel = catalogue.of_slabs("gravel")
    soft, stiff, steps = [], [], []
    for n, board in enumerate(support.boards, start=1):
        moduli = _moduli(board, standing)
        assert moduli is not None  # told by ``unknown``
        thickness = board.slice.thickness
        ends = [float(springs.layer_modulus(each, thickness)) for each in moduli]
        soft.append(ends[0])
        stiff.append(ends[1])
        steps.append(
            Step(
                f"k_{n}",
                f"E / t of {board.slice.label}",
                f"{fixed(moduli[0] / MEGA, 2)} to {fixed(moduli[1] / MEGA, 2)} MPa / {fixed(thickness, 4)} m",
                f"{fixed(ends[0] / MEGA, 1)} to {fixed(ends[1] / MEGA, 1)} MN/m³",
            )
        )
    if support.loose:
        soft.append(float(springs.layer_modulus(gravel.low * KILO, support.loose)))
        stiff.append(float(springs.layer_modulus(gravel.high * KILO, support.loose)))
    ground = support.ground
    steps.append(Step("k_g", f"of the ground: {ground.words}", "", f"{fixed(ground.modulus / MEGA, 1)} MN/m³"))

    def with_ground(layers: list[float], modulus: float) -> float:
        on_slab = support.on_old_slab and layers
        return float(springs.in_series(*layers) if on_slab else springs.in_series(*layers, modulus))

    found = (
        with_ground(soft, ground.modulus),
        with_ground(stiff, ground.modulus),
        with_ground(soft, ground.low),
        with_ground(stiff, ground.high),
    )
    loose = f", {fixed(support.loose, 2)} m of gravel" if support.loose else ""
    steps.append(
        Step(
            "k",
            f"1 / Σ 1/k of foam{loose} and ground" if support.boards else f"1 / Σ 1/k of ground{loose}",
            f"over the whole range of the ground {fixed(found[2] / MEGA, 1)} to {fixed(found[3] / MEGA, 1)}",
            f"{fixed(found[0] / MEGA, 1)} to {fixed(found[1] / MEGA, 1)} MN/m³",
        )
    )
    boards = support.boards
    return Bed(
        *found,
        steps=tuple(steps),
        basis=(SERIES, *dict.fromkeys(each for board in boards for each in board.basis), *ground.basis),
        rests_on=(
            *(path for board in boards for path in (board.slice.path, *board.rests_on)),
            ground.modulus_path,
            *((gravel.path,) if support.loose else ()),
        ),
        years=standing and all(board.standing for board in boards),
    )
