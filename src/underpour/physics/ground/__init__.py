"""Heat between buildings and the ground by closed forms: ISO 13370, and ground that no building warms."""

from .basement import (
    basement_wall_transmittance,
    heated_basement_coupling,
    unheated_basement_transmittance,
)
from .edges import (
    added_thickness,
    edge_transmittance,
    horizontal_edge_transmittance,
    vertical_edge_transmittance,
)
from .half_space import admittance, step_under_a_film, stepped_temperature
from .periodic import (
    floor_external,
    floor_internal,
    heated_basement_external,
    heated_basement_internal,
    horizontal_edge_external,
    lag_behind_outdoors,
    lead_before_room,
    monthly_flow,
    penetration_depth,
    unheated_basement_external,
    unheated_basement_internal,
    vertical_edge_external,
)
from .slab import (
    characteristic_dimension,
    equivalent_thickness,
    floor_transmittance,
    macey_transmittance,
    steady_coupling,
)
from .undisturbed import undisturbed_temperature

__all__ = [
    "added_thickness",
    "admittance",
    "basement_wall_transmittance",
    "characteristic_dimension",
    "edge_transmittance",
    "equivalent_thickness",
    "floor_external",
    "floor_internal",
    "floor_transmittance",
    "heated_basement_coupling",
    "heated_basement_external",
    "heated_basement_internal",
    "horizontal_edge_external",
    "horizontal_edge_transmittance",
    "lag_behind_outdoors",
    "lead_before_room",
    "macey_transmittance",
    "monthly_flow",
    "penetration_depth",
    "steady_coupling",
    "step_under_a_film",
    "stepped_temperature",
    "undisturbed_temperature",
    "unheated_basement_external",
    "unheated_basement_internal",
    "unheated_basement_transmittance",
    "vertical_edge_external",
    "vertical_edge_transmittance",
]
