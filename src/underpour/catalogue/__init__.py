"""Tables with sources: what boards, materials, grounds, surfaces, uses and places are known, read on first use."""

from __future__ import annotations

from .belonging import belonging, least_strength, unsuited
from .compatibility import agent, agents, steady_heat
from .concrete_methods import ALLOWABLE_STRESS, EN_1990, LRFD, class_of_load, concrete_method, of_concrete, on_load
from .coverings import covering, coverings
from .drying import drying, of_drying
from .freezing import hard_winters, kept_from_freezing, water_out_of_reach, without_heat
from .frost_heave import fines_limit, may_heave
from .furnishings import furnishing, furnishings
from .ground_surfaces import ground_cover, snow_conductivity, sunlit
from .grounds import default_ground, ground, grounds
from .materials import material, materials
from .named_loads import named_load, named_loads
from .products import Products, products_beside, shipped_products
from .retarders import retarder, retarders
from .sheets import sheet, sheets
from .slabs import of_slabs
from .soil_gas import of_soil_gas, radon_level, radon_level_of, radon_levels, radon_test, radon_tests, soil_gas_numbers
from .sources import source, sources
from .subgrades import modulus_by_cbr, pressure_at_rest, presumed_bearing, subgrade_modulus
from .surfaces import air_layer, air_spaces, limit, limits, surface, surfaces
from .termites import may_be_very_heavy, termite_barrier, termite_region, termite_strip
from .uses import called, use, uses
from .vapour import seams, vapour_factors
from .water import of_water

__all__ = [
    "ALLOWABLE_STRESS",
    "EN_1990",
    "LRFD",
    "Products",
    "agent",
    "agents",
    "air_layer",
    "air_spaces",
    "belonging",
    "called",
    "class_of_load",
    "concrete_method",
    "covering",
    "coverings",
    "default_ground",
    "drying",
    "fines_limit",
    "furnishing",
    "furnishings",
    "ground",
    "ground_cover",
    "grounds",
    "hard_winters",
    "kept_from_freezing",
    "least_strength",
    "limit",
    "limits",
    "material",
    "materials",
    "may_be_very_heavy",
    "may_heave",
    "modulus_by_cbr",
    "named_load",
    "named_loads",
    "of_concrete",
    "of_drying",
    "of_slabs",
    "of_soil_gas",
    "of_water",
    "on_load",
    "pressure_at_rest",
    "presumed_bearing",
    "products_beside",
    "radon_level",
    "radon_level_of",
    "radon_levels",
    "radon_test",
    "radon_tests",
    "retarder",
    "retarders",
    "seams",
    "sheet",
    "sheets",
    "shipped_products",
    "snow_conductivity",
    "soil_gas_numbers",
    "source",
    "sources",
    "steady_heat",
    "subgrade_modulus",
    "sunlit",
    "surface",
    "surfaces",
    "termite_barrier",
    "termite_region",
    "termite_strip",
    "unsuited",
    "use",
    "uses",
    "vapour_factors",
    "water_out_of_reach",
    "without_heat",
]
