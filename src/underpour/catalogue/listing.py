"""Everything that the catalogue holds, by its path: what ``catalogue list`` and ``catalogue show`` go through."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING

from .belonging import unsuited
from .codes import every_edition
from .compatibility import agents
from .coverings import coverings
from .drying import drying
from .embodied import embodied_rows
from .estimating import estimating_numbers
from .fluids import mixtures
from .fuels import fuels
from .furnishings import furnishings
from .grounds import grounds
from .heated_floors import heated_floor_numbers
from .labour import labour_numbers
from .materials import materials
from .named_loads import named_loads
from .products import Products, shipped_products
from .records import Quantity
from .retarders import retarders
from .sheets import sheets
from .soil_gas import radon_levels, radon_tests, soil_gas_numbers
from .sources import sources
from .surfaces import air_spaces, limits, surfaces
from .tubes import tube_sizes
from .uses import uses
from .vapour import seams, vapour_factors

if TYPE_CHECKING:
    from .codes import Edition
    from .compatibility import Agent
    from .embodied import EmbodiedRow
    from .fluids import Mixture
    from .fuels import Fuel
    from .line import Product
    from .records import Board, Covering, Furnishing, Material, NamedLoad, Retarder, Seams, Sheet, Source, Use
    from .soil_gas import RadonLevel, RadonTest
    from .tubes import TubeSize

    Record = (
        Agent
        | Board
        | Covering
        | Edition
        | EmbodiedRow
        | Fuel
        | Product
        | Material
        | Mixture
        | NamedLoad
        | RadonLevel
        | RadonTest
        | Retarder
        | Sheet
        | TubeSize
        | Furnishing
        | Seams
        | Quantity
        | Use
        | Source
    )

# The word of ``catalogue list``, the second word of the paths in it, and what gives its records.
LISTS: Mapping[str, tuple[str, Callable[[Products], tuple[Record, ...] | dict[str, Quantity]]]] = MappingProxyType(
    {
        "boards": ("foam", lambda held: held.boards()),
        "unsuited": ("foam", lambda _: unsuited()),
        "products": ("product", lambda held: held.products()),
        "materials": ("material", lambda _: materials()),
        "grounds": ("ground", lambda _: grounds()),
        "retarders": ("retarder", lambda _: retarders()),
        "coverings": ("covering", lambda _: coverings()),
        "furnishings": ("furnishing", lambda _: furnishings()),
        "seams": ("seams", lambda _: tuple(seams().values())),
        "sheets": ("sheet", lambda _: sheets()),
        "loads": ("load", lambda _: named_loads()),
        "agents": ("agent", lambda _: agents()),
        "surfaces": ("surface", lambda _: surfaces()),
        "air-spaces": ("air-space", lambda _: air_spaces()),
        "codes": ("code", lambda _: every_edition()),
        "vapour": ("vapour", lambda _: vapour_factors()),
        "drying": ("drying", lambda _: drying()),
        "radon-levels": ("radon-level", lambda _: radon_levels()),
        "radon-tests": ("radon-test", lambda _: radon_tests()),
        "soil-gas": ("soil-gas", lambda _: soil_gas_numbers()),
        "tubes": ("tube", lambda _: tube_sizes()),
        "fluids": ("fluid", lambda _: mixtures()),
        "heated-floors": ("heated-floor", lambda _: heated_floor_numbers()),
        "estimating": ("takeoff", lambda _: estimating_numbers()),
        "labour": ("labour", lambda _: labour_numbers()),
        "fuels": ("fuel", lambda _: fuels()),
        "embodied": ("embodied", lambda _: embodied_rows()),
        "limits": ("limit", lambda _: limits()),
        "uses": ("use", lambda _: uses()),
        "sources": ("source", lambda _: sources()),
    }
)


def everything(products: Products | None = None) -> Iterator[tuple[str, Record]]:
    """Each record of the catalogue with its path, ``("catalogue.foam.plain-25", Board(...))``; places are left out.

    ``products`` are those in hand; the tool's own unless they are given.
    """
    products = products or shipped_products()
    for word, held in LISTS.values():
        records = held(products)
        for record in records.values() if isinstance(records, dict) else records:
            yield record.path if isinstance(record, Quantity) else f"catalogue.{word}.{record.key}", record
