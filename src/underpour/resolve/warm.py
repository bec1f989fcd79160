"""The tube in a heated floor: where it lies, what runs in it, and what the room wants of it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TypeVar

from ..brief.tables.tube import Tube
from ..catalogue import heated_floors
from ..catalogue.fluids import mixture
from ..catalogue.products import Products
from ..catalogue.records import Quantity
from ..catalogue.tubes import tube_size
from ..findings import Assumed
from ..measure import System, say
from ..mistakes import Mistake
from .assumptions import Assumptions
from .resolved import Room, Slice
from .tubes import HeatedFloor, Panel, Rest, Water
from .usual import usual

POURED = ("concrete", "screed")
SHORTEST_COIL = 10.0  # m
SAME = 1.5e-3  # m: a spacing this near to a panel's pitches is one of them
LOAD = "tube.load"
Named = TypeVar("Named")


def heated_floor(
    typed: Tube,
    floor: Sequence[Slice],
    room: Room,
    coldest_month: float,
    products: Products,
    system: System,
    assumed: Assumptions,
    found: list[Mistake],
) -> HeatedFloor | None:
    """The heated floor in numbers; None where something of it cannot be, which is then in ``found``."""
    lies_in = next((n for n, each in enumerate(floor) if each.kind in POURED), None)
    if lies_in is None:
        instead = "Lay concrete or screed in the build-up: tubes without it are not answered."
        found.append(
            Mistake("tube", "", "No concrete and no screed stands in this floor for the tube to lie in.", instead)
        )
        return None
    layer = floor[lies_in]
    try:
        water = _water(typed, assumed) if typed.heat != "electric" else None
        panel = _panel(typed, products, floor, lies_in, system)
    except Mistake as mistake:
        found.append(mistake)
        return None
    outside = water.size.outside.value if water is not None else heated_floors.usual("cable").value / 1e3
    spacing = typed.spacing.si if typed.spacing else assumed.take(usual("tube-spacing").assumed("tube.spacing"))
    over = sum(each.thickness for each in floor[:lies_in])
    spare = layer.thickness - outside
    told = typed.depth_from_top.si if typed.depth_from_top else assumed.missing("tube.depth-from-top")
    depth = spare / 2.0 if told is None else told
    if panel is not None:
        depth = layer.thickness - panel.centre - outside / 2.0
    edge = typed.edge_spacing.si if typed.edge_spacing else None
    wrong = _off_the_panel(typed, products, spacing, water, system)
    wrong = wrong or _lies_wrong(typed, layer, outside, spacing, depth, system)
    if wrong is None and edge is not None and not edge < spacing:
        said = typed.edge_spacing.typed if typed.edge_spacing else ""
        wrong = Mistake(
            "tube.edge-spacing", f'"{said}"', "Along the walls tubes lie no closer so than elsewhere.", "Leave it out."
        )
    if wrong is not None:
        found.append(wrong)
        return None
    coldest = coldest_month - heated_floors.usual("colder-day").value
    return HeatedFloor(
        outside=outside,
        spacing=spacing,
        axis=over + depth + outside / 2.0,
        layer=lies_in,
        depth_told=told is not None or panel is not None,
        load=typed.load.si if typed.load else assumed.take(_envelope(room, coldest)),
        coldest=coldest,
        warm_within=typed.warm_within.si if typed.warm_within else None,
        water=water,
        rests_on=(
            *(("tube.size",) if water else ("tube.heat",)),
            "tube.spacing",
            "tube.panel" if panel is not None else "tube.depth-from-top",
            layer.path,
        ),
        panel=panel,
        edge_spacing=edge,
        covered=typed.covered.si if typed.covered else None,
        heat_after=typed.heat_after.si if typed.heat_after else assumed.missing("tube.heat-after"),
        rest=_rest(typed, assumed),
        ties=typed.ties.si if typed.ties else None,
    )


def _water(typed: Tube, assumed: Assumptions) -> Water:
    """What runs in the tubes. Raises Mistake where a size or fluid is not known."""
    key = typed.size or assumed.take_word(_word("tube.size", "1/2 in", "the usual tube of a slab"))
    size = _named(tube_size, key, "tube.size")
    fluid = typed.fluid or assumed.take_word(_word("tube.fluid", "water", "what is in most floors"))
    longest = size.longest
    if typed.loop_limit is not None:
        most, path = typed.loop_limit.si, "tube.loop-limit"
        longest = Quantity(most, "m", most, most, longest.source, "as the brief says", "document", path)
    leader = typed.leader.si if typed.leader else assumed.take(usual("tube-leader").assumed("tube.leader"))
    if 2.0 * leader >= longest.value:
        said = f'"{typed.leader.typed}"' if typed.leader else ""
        raise Mistake("tube.leader", said, "There and back it leaves nothing of a loop.", "Move the manifold nearer.")
    laid = tuple(each.si for each in typed.loop_lengths or ())
    if typed.loops is not None and laid and typed.loops != len(laid):
        wrong = f"There are {typed.loops} loops, and lengths of {len(laid)}."
        raise Mistake("tube.loop-lengths", "", wrong, "Write one length for each loop, or leave out how many they are.")
    short = next((n for n, each in enumerate(laid) if each <= 2.0 * leader), None)
    if typed.loop_lengths and short is not None:
        said = typed.loop_lengths[short].typed
        wrong = "There and back the leader is as long as this loop."
        raise Mistake(f"tube.loop-lengths.{short + 1}", f'"{said}"', wrong, "Lengths count the leaders.")
    return Water(
        size=size,
        fluid=_named(mixture, fluid, "tube.fluid"),
        drop=typed.drop.si if typed.drop else assumed.take(usual("tube-drop").assumed("tube.drop")),
        leader=leader,
        longest=longest,
        loops=len(laid) or typed.loops,
        lengths=laid,
        source=typed.source or "",
        coldest=typed.coldest.si if typed.coldest else assumed.missing("tube.coldest"),
        coil=_coil(typed, laid),
    )


def _coil(typed: Tube, laid: tuple[float, ...]) -> float | None:
    """The coil as typed. Raises Mistake where no loop as laid comes whole out of it."""
    if typed.coil is None:
        return None
    longest = max(laid, default=0.0)
    if typed.coil.si < SHORTEST_COIL or typed.coil.si < longest - SAME:
        wrong = f"No coil of tube is {typed.coil.typed} long."
        if typed.coil.si >= SHORTEST_COIL:
            wrong = "A loop as laid is longer than this coil, and no tube is joined below a slab."
        raise Mistake("tube.coil", f'"{typed.coil.typed}"', wrong, 'Write the length on its label: "300 ft".')
    return typed.coil.si


def _word(path: str, word: str, why: str) -> Assumed:
    return Assumed(path, word, None, None, "1", f"{why} (common practice, no source)")


def _named(of: Callable[[str], Named], key: str, path: str) -> Named:
    try:
        return of(key)
    except Mistake as mistake:
        raise mistake.placed(at=path) from None


def _lies_wrong(
    typed: Tube, layer: Slice, outside: float, spacing: float, depth: float, system: System
) -> Mistake | None:
    if depth + outside > layer.thickness:
        at = "tube.depth-from-top" if typed.depth_from_top else "tube.size"
        said = typed.depth_from_top.typed if typed.depth_from_top else typed.size or ""
        thick = say.both(layer.thickness, "m", system)
        return Mistake(at, f'"{said}"', f"So the tube lies below its layer, which is {thick} thick.", "Lay it higher.")
    if typed.heat == "electric":
        return None
    bends = heated_floors.usual("bend").value
    if spacing < bends * outside:
        least = say.both(bends * outside, "m", system)
        wrong = f"A tube of this size does not turn round so tightly; from tube to tube it needs {least} at the least."
        return Mistake("tube.spacing", f'"{typed.spacing.typed if typed.spacing else ""}"', wrong, "Space it wider.")
    return None


def _panel(typed: Tube, products: Products, floor: Sequence[Slice], lies_in: int, system: System) -> Panel | None:
    """The panel that holds the tube. Raises Mistake where it cannot."""
    if typed.panel is None:
        return None
    said = f'"{typed.panel}"'
    product = _named(products.product, typed.panel, "tube.panel")
    if product.pattern is None:
        raise Mistake(
            "tube.panel", said, f"{product.name} has no knobs that hold a tube.", "underpour catalogue list products"
        )
    if typed.heat == "electric":
        raise Mistake("tube.panel", said, "Its knobs hold tubes, not cables.", "Leave it out.")
    if typed.depth_from_top is not None:
        wrong = "The panel says how deep the tube lies."
        raise Mistake("tube.depth-from-top", f'"{typed.depth_from_top.typed}"', wrong, "Leave one of the two out.")
    below = floor[lies_in + 1] if lies_in + 1 < len(floor) else None
    if below is None or below.kind != "board":
        wrong = "No board lies right below what the tube lies in: that is where the panel's foam stands."
        raise Mistake("tube.panel", said, wrong, "Write its solid foam there as a board of its kind and thickness.")
    of = product.pattern
    if floor[lies_in].thickness <= of.knob_height.si:
        high = say.typed(of.knob_height, "m", system)
        raise Mistake("tube.panel", said, f"Its knobs, {high}, stand out of what is poured over them.", "Pour more.")
    return Panel(
        product.name,
        of.knob_height.si,
        of.knob_share.si,
        of.centre_above_base.si,
        below.conductivity,
        below.heat_capacity,
    )


def _off_the_panel(
    typed: Tube, products: Products, spacing: float, water: Water | None, system: System
) -> Mistake | None:
    """A tube or a spacing that the panel's pattern does not take."""
    if typed.panel is None or water is None:
        return None
    product = products.product(typed.panel)
    of = product.pattern
    assert of is not None
    said = f'"{typed.spacing.typed}"' if typed.spacing else ""
    if water.size.key not in of.tubes:
        wrong = f"{product.name} holds {' and '.join(of.tubes)}."
        return Mistake("tube.size", f'"{water.size.key}"', wrong, "Take a tube that it holds.")
    if spacing < of.least_bend.si - SAME:
        least = say.typed(of.least_bend, "m", system)
        wrong = f"{product.name} lets a tube turn round no more tightly than {least}."
        return Mistake("tube.spacing", said, wrong, "Space it wider.")
    if abs(spacing - round(spacing / of.pitch.si) * of.pitch.si) > SAME:
        pitch = say.typed(of.pitch, "m", system)
        wrong = f"The knobs of {product.name} stand {pitch} apart, so tubes lie that far apart or twice, three times."
        return Mistake("tube.spacing", said, wrong, "Take a whole number of pitches.")
    return None


def _rest(typed: Tube, assumed: Assumptions) -> Rest | None:
    if typed.rest is None:
        return None
    back = typed.set_back.si if typed.set_back else assumed.take(usual("set-back").assumed("tube.set-back"))
    return Rest(typed.rest.si, back, typed.back_within.si if typed.back_within else None)


def _envelope(room: Room, coldest: float) -> Assumed:
    loses = usual("envelope")
    least = heated_floors.usual("least-apart").value
    apart = room.mean - abs(room.swing) - coldest
    told = f"{apart:.0f} K between the room and the coldest day"
    told += f", of which {least:.0f} K are counted at the least" if apart < least else ""
    apart = max(apart, least)
    why = f"{loses.where}; {told} (common practice, no source)"
    return Assumed(LOAD, loses.value * apart, loses.low * apart, loses.high * apart, "W/m²", why)
