"""``underpour catalogue list``: what can be named in a brief, one line an entry."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

from ...catalogue.products import Products
from ...catalogue.records import Board, Covering, Furnishing, Material, NamedLoad, Quantity, Retarder, Seams, Sheet, Use
from ..pages_of import products_named
from ..paragraphs import block, hung, width_of_terminal
from ..parsing import Words, unknown_word
from ..spoken import SEEN, measured
from ..told import Told

EXAMPLE = "underpour catalogue list boards"
HELP = """\
underpour catalogue list [WHAT] [--catalogue FILE-or-FOLDER]

Lists what can be named in a brief, one line each; or what can stand in the
record of a product.

  WHAT         boards, unsuited (boards that do not belong below a slab),
               products, grounds, materials, retarders, sheets, loads (what
               stands or rolls on floors), agents (what may touch foam),
               coverings, furnishings (what lies or stands on floors), seams
               (of vapour retarders), surfaces, air-spaces, codes, vapour,
               drying (of slabs), radon-levels, radon-tests, soil-gas (ground,
               house, pipe and fan), tubes, fluids, heated-floors, estimating,
               labour, fuels, embodied (greenhouse gas of making), limits, uses
               or sources; all of them unless you say.
               For a record: properties (what a test can give, in which unit,
               by which test) or classes
  --catalogue  your own product line, or a folder of them, beside the line that
               comes with the tool

For example:

  underpour catalogue list boards
  underpour catalogue list properties
"""
HEADS = {
    "boards": "Boards, for `board =`",
    "unsuited": "Boards that do not belong below a slab, unless proven",
    "products": "Products, each with its tests",
    "grounds": "Grounds, for `ground =`",
    "materials": "Materials of layers and walls",
    "retarders": "Vapour retarders, for `vapour-retarder =`",
    "coverings": "Floor coverings, for `covering =`",
    "furnishings": "What lies or stands on floors, for `furnishing =`",
    "seams": "Seams of vapour retarders, for `seams =`",
    "sheets": "Foil and bubble sheets, for `sheet =`",
    "loads": "What stands or rolls on floors, for `like =` in [[load]]",
    "agents": "What may touch foam, for `touched-by =`",
    "surfaces": "Surface resistances",
    "air-spaces": "What an air space is worked out with",
    "codes": "Code editions, for `code =`",
    "vapour": "How much slower vapour spreads than in still air",
    "drying": "How long slabs took to dry",
    "radon-levels": "Levels of radon in rooms, for `level-by =`",
    "radon-tests": "Tests for radon in rooms, for `kit =`",
    "soil-gas": "What soil gas is worked out with",
    "tubes": "Tubes of heated floors, for `size =` in [tube]",
    "fluids": "What fills them, for `fluid =`",
    "heated-floors": "What heated floors are worked out with",
    "estimating": "What panels are laid and orders are rounded by",
    "labour": "Hours that laying takes, by what is laid",
    "fuels": "What heats rooms, for `fuel =` in [money]",
    "embodied": "Greenhouse gas of making what a slab takes",
    "limits": "Limits that findings are held to",
    "uses": "Uses, for `use =`",
    "sources": "Sources of the numbers, and how each was seen",
}
OF_RECORDS = {  # what stands in the record of a product: each list by itself
    "properties": "What a test can give, for `property` in a record",
    "classes": "Classes that can be claimed, for `claims` in a record",
}
CODES = "Codes of EN 13163 and EN 13164 are read part by part: docs/products.md, Where the classes stand."


def parser() -> Words:
    words = Words("catalogue list", EXAMPLE)
    words.add_argument("what", nargs="?")
    words.add_argument("--catalogue", metavar="FILE-or-FOLDER")
    return words


def told(words: Sequence[str]) -> Told:
    """The lists asked for, or all of them."""
    asked = parser()
    given = asked.read(words)
    if given.what in OF_RECORDS:
        return Told(_of_records(given.what, width_of_terminal()))
    if given.what is not None and given.what not in HEADS:
        known = (*HEADS, *OF_RECORDS)
        wrong, listing = f"There is no list of {given.what}.", f"To choose from: {', '.join(known)}."
        raise unknown_word("underpour catalogue list", given.what, known, wrong, listing)
    lists = tuple(HEADS) if given.what is None else (given.what,)
    return Told(listed(lists, products_named(given.catalogue), width_of_terminal()))


def listed(lists: Sequence[str], products: Products, width: int) -> str:
    """The lists asked for, each under its heading, entries in the catalogue's order."""
    lines = []
    for what in lists:
        entries = list(shelf(what, products))
        indent = 2 + max((len(key) for key, _ in entries), default=0) + 2
        lines += block(HEADS[what], (line for key, words in entries for line in hung(words, width, indent, f"  {key}")))
    return "\n".join([*lines, "Every number of one: underpour catalogue show NAME"]) + "\n"


def _of_records(what: str, width: int) -> str:
    from ...catalogue.classes import product_classes
    from ...catalogue.properties import properties

    if what == "properties":
        entries = [
            (
                of.key,
                f"{of.name}: in {of.usual_units}, by {', '.join(of.methods)}"
                + (f"; with {', '.join(f'conditions.{each}' for each in of.at)}" if of.at else ""),
            )
            for of in properties().values()
        ]
        indent = 2 + max(len(key) for key, _ in entries) + 2
        lines = [line for key, words in entries for line in hung(words, width, indent, f"  {key}")]
    else:
        lines = [
            f"  {of.name}" + (" (from memory only: no claim of it is refused)" * of.doubtful)
            for of in product_classes()
        ]
        lines += ["", *hung(CODES, width)]
    return "\n".join(block(OF_RECORDS[what], lines)) + "\n"


def shelf(what: str, products: Products) -> Iterator[tuple[str, str]]:
    """Name and one line of each entry of a list."""
    from ... import catalogue
    from ...catalogue.estimating import estimating_numbers
    from ...catalogue.heated_floors import heated_floor_numbers
    from ...catalogue.labour import labour_numbers

    loose: dict[str, Callable[[], Mapping[str, Quantity]]] = {
        "surfaces": catalogue.surfaces,
        "limits": catalogue.limits,
        "air-spaces": catalogue.air_spaces,
        "vapour": catalogue.vapour_factors,
        "drying": catalogue.drying,
        "soil-gas": catalogue.soil_gas_numbers,
        "estimating": estimating_numbers,
        "labour": labour_numbers,
        "heated-floors": heated_floor_numbers,
    }
    if what in loose:
        for key, quantity in loose[what]().items():
            yield key, f"{_said(quantity)}, {quantity.where}"
        return
    if what == "products":
        from .product_shown import one_line as of_product

        for product in products.products():
            yield product.key, of_product(product, products.line_of(product.key).line)
        return
    if what == "agents":
        for agent in catalogue.agents():
            yield agent.key, f"{agent.label}. {agent.happens}"
        return
    if what == "codes":
        from ...catalogue.codes import every_edition
        from .code_shown import one_line as of_edition

        for edition in every_edition():
            yield edition.key, of_edition(edition)
        return
    if what == "radon-levels":
        for level in catalogue.radon_levels():
            yield level.key, f"{level.label}: {_said(level.level)}. {level.says}"
        return
    if what == "radon-tests":
        for test in catalogue.radon_tests():
            yield test.key, f"{test.label}. {test.says}"
        return
    if what == "tubes":
        from ...catalogue.tubes import tube_sizes

        for size in tube_sizes():
            yield size.key, f"{size.label}: {_said(size.outside)} outside, bore {1e3 * size.bore:.1f} mm"
        return
    if what == "fluids":
        from ...catalogue.fluids import mixtures

        for fluid in mixtures():
            yield fluid.key, f"freezes at {measured(fluid.freezes, 'degC', 'SI')}; {_drinkable(fluid.drinkable)}"
        return
    if what == "fuels":
        from ...catalogue.fuels import fuels

        for of in fuels():
            yield of.key, f"{of.label}: {_said(of.carbon) if of.carbon else 'its carbon is typed, or stays open'}"
        return
    if what == "embodied":
        from ...catalogue.embodied import embodied_rows

        for row in embodied_rows():
            number = row.by_mass or row.by_volume
            assert number is not None
            yield row.key, f"{row.label}: {_said(number)}"
        return
    if what == "sources":
        for source in catalogue.sources():
            yield source.key, f"{source.title} ({SEEN[source.seen]})"
        return
    shelves: dict[
        str,
        Callable[[], Iterable[Board | Covering | Furnishing | Material | NamedLoad | Retarder | Seams | Sheet | Use]],
    ] = {
        "boards": products.boards,
        "unsuited": catalogue.unsuited,
        "grounds": catalogue.grounds,
        "materials": catalogue.materials,
        "retarders": products.retarders,
        "coverings": catalogue.coverings,
        "furnishings": catalogue.furnishings,
        "seams": catalogue.seams().values,
        "sheets": catalogue.sheets,
        "loads": catalogue.named_loads,
        "uses": catalogue.uses,
    }
    for record in shelves[what]():
        yield record.key, one_line(record)


def _drinkable(harmless: bool) -> str:
    return "no poison" if harmless else "poison: nowhere near drinking water"


def one_line(record: Board | Covering | Furnishing | Material | NamedLoad | Retarder | Seams | Sheet | Use) -> str:
    """Label and the number that matters most."""
    if isinstance(record, Board):
        invented = ", an invented product" if record.invented else ""
        material = "" if record.material.casefold() in record.label.casefold() else f", {record.material}"
        return f"{record.label}{material}{invented}: {_said(record.conductivity_in_place)} in place"
    if isinstance(record, Material):
        return f"{record.label}: {_said(record.conductivity)}"
    if isinstance(record, Retarder | Seams):
        return f"{record.label}: {_said(record.permeance)}"
    if isinstance(record, Sheet | Covering | Furnishing):
        return f"{record.label}: {_said(record.resistance)}"
    if isinstance(record, NamedLoad):
        return f"{record.label}: {_said(record.brings)}{'' if record.standing else ', passing'}"
    also = f", also called {', '.join(record.aliases)}" if record.aliases else ""
    room = f": {_said(record.room)}" if record.room else ""
    return f"{record.label}{room}{also}"


def _said(quantity: Quantity) -> str:
    return measured(quantity.value, quantity.unit, "SI")
