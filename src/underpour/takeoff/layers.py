"""Each layer of boards in the floor laid panel by panel; a second layer across the first."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from math import dist

from ..catalogue.estimating import estimating
from ..catalogue.line import Product, Size
from ..measure import say
from ..outlines.floor import Floor
from ..panels.fewest import settled
from ..panels.over import below as joints_below
from ..panels.panel import Rules
from ..panels.search import Found, Wanted, improving
from ..resolve import KeyPlan, Resolved, Slice
from ..resolve.laid_so import LaidSo, comes_in
from .as_laid import rest
from .belonging import tape_of
from .channelled import channel_notes, channels_of
from .cutting import is_whole
from .extent import extent
from .prices import priced_by_area
from .records import Item, LaidLayer, beyond
from .stacked import stacked

OVER_TOLD = 0.01  # m of joints over joints
PLAY = 1e-4  # m; off by less a panel still covers whole pitches

Told = Callable[[str, float], bool | None]  # hands back True where that is enough


def layers(resolved: Resolved, told: Told) -> tuple[LaidLayer, ...]:
    """The floor's layers of boards from the lowest up, each with its plan."""
    found: list[LaidLayer] = []
    for layer in reversed(resolved.boards):
        if layer not in resolved.laid:
            continue
        found.append(_laid(resolved, layer, _wanted(resolved, found), told))
    typed = resolved.laying.laid if resolved.laying else None
    if typed and typed.layer <= len(found):
        of = found[typed.layer - 1]
        found[typed.layer - 1] = replace(of, rest=rest(of.layout, typed, resolved.system))
    return tuple(found)


def _wanted(resolved: Resolved, below: Sequence[LaidLayer]) -> Wanted:
    """How the next layer is to be laid: as it is typed, and across what lies below it."""
    typed = resolved.laying or LaidSo()
    if not below:
        return Wanted(() if typed.angle is None else (typed.angle,), typed.corner, typed.bond)
    angle = (below[-1].layout.angle + 90.0) % 180.0
    lies = joints_below(below[-1].layout, angle, estimating("panel", "over").value)
    return Wanted((angle,), typed.corner, typed.bond, lies)


def rules_of(resolved: Resolved, layer: Slice) -> tuple[Rules, str, Product | None]:
    """The panel that a layer is laid with: its cover, its size in words, and its record."""
    product = resolved.products.product(layer.key) if resolved.products.has(layer.key) else None
    size = size_of(resolved, layer)
    interlock = bool(product and product.edges and product.edges[0].profile == "interlock")
    loses = product.edges[0].loses if product and product.edges else None
    lost = loses.si if interlock and loses else 0.0
    held = "-interlock" if interlock else ""
    length, width, pitch = lined_up(size, lost, pitch_of(product))
    typed = resolved.laying or LaidSo()
    rules = Rules(
        length,
        width,
        interlock,
        _typed_or(typed.stagger, f"stagger{held}"),
        _typed_or(typed.least, f"least{held}"),
        _typed_or(typed.kerf, "kerf"),
        estimating("panel", "narrow").value,
        pitch,
    )
    return rules, size.typed, product


def pitch_of(product: Product | None) -> float:
    """From one knob or channel of a panel to the next; nought where nothing has to line up. [m]"""
    if product is None:
        return 0.0
    if product.pattern:
        return product.pattern.pitch.si
    return product.channels.pitch.si if product.channels and product.channels.aligned else 0.0


def lined_up(size: Size, lost: float, pitch: float) -> tuple[float, float, float]:
    """What a panel covers along its row and across it, and its pitch where both are a whole number of it. [m]

    >>> tuple(round(each, 9) for each in lined_up(Size(0.6223, 1.2319, ""), 0.0127, 0.0762))  # 8 and 16 times 3 in
    (1.2192, 0.6096, 0.0762)
    """
    covered = size.length - lost, size.width - lost
    if not pitch or any(abs(each - round(each / pitch) * pitch) > PLAY for each in covered):
        return *covered, 0.0
    return round(covered[0] / pitch) * pitch, round(covered[1] / pitch) * pitch, pitch


def size_of(resolved: Resolved, layer: Slice) -> Size:
    """The size that a board comes in: as typed where its product is made so, else the first of its record."""
    product = resolved.products.product(layer.key) if resolved.products.has(layer.key) else None
    typed = resolved.laying.size if resolved.laying else None
    if typed and comes_in(typed, layer.key, resolved.products):
        return Size(*typed)
    return product.sizes[0] if product and product.sizes else _sheet(resolved)


def _typed_or(typed: float | None, name: str) -> float:
    return typed if typed is not None else estimating("panel", name).value


def _sheet(resolved: Resolved) -> Size:
    width, length = (estimating("panel", name).value for name in ("sheet-width", "sheet-length"))
    return Size(width, length, " x ".join(say.value(each, "m", resolved.system) for each in (width, length)))


def _laid(resolved: Resolved, layer: Slice, wanted: Wanted, told: Told) -> LaidLayer:
    rules, size, product = rules_of(resolved, layer)
    plan = extent(resolved, layer)
    found, looked = _best(layer, plan.floor, rules, _on(plan.floor, wanted), told)
    fewest = found.bounds.by_strips if rules.interlock else found.bounds.by_area
    mended, proved = settled(found, fewest) if looked == 1.0 else (found, 0)
    found = found if wanted.bond or wanted.below else mended
    layout = found.layout()
    net = layout.area
    sheet = size_of(resolved, layer)
    order = layout.panels * sheet.width * sheet.length
    cut = sum(not is_whole(layout, piece) for piece in layout.pieces)
    in_rows = "rows that way" if wanted.angles else "rows"
    why = (
        f"{layout.panels} panels in rows at {layout.angle:.3g}° to x, {cut} pieces sawn; "
        f"{100 * layout.waste:.1f} % of them is left over. No plan in {in_rows} takes fewer than {fewest}."
    )
    if proved:
        why += f" {_proved(layout.panels, proved)}"
    cost, unpriced = priced_by_area(resolved, layer, order, layout.panels)
    notes = []
    if looked < 1.0:
        notes.append(f"Stopped after {100 * looked:.0f} % of the looking: this is the best plan until then.")
    if found.broken:
        notes.append(f"{found.broken} joints lie nearer than the stagger, or pieces are shorter than the least.")
    if wanted.below and found.over > OVER_TOLD:
        long, near = (say.both(each, "m", resolved.system) for each in (found.over, wanted.below.near))
        notes.append(f"{long} of its joints lie nearer than {near} to parallel ones of the layer below.")
    if found.rows.narrow:
        said = say.both(rules.narrow, "m", resolved.system)
        notes.append(f"{found.rows.narrow} strips are narrower than {said}: fix them, they break and float.")
    if plan is not resolved.plan:
        notes.append(_reaching(resolved, plan))
    if product is None:
        notes.append(f"No product is named: sheets of {size} are taken. Name a product to have its own size and price.")
    if pitch_of(product) and not rules.pitch:
        covered, step = (say.both(each, "m", resolved.system) for each in (rules.length, pitch_of(product)))
        notes.append(
            f"It covers {covered} along, no whole number of its pitch of {step}: what is on one panel does not line up "
            "with the next. Ask the maker what it covers."
        )
    below = channels_of(resolved, plan.floor, product, layout)
    notes += channel_notes(resolved, product, layout, below)
    hidden = layout.panels * (sheet.width * sheet.length - rules.area)
    item = Item(
        layer.words,
        layer.path,
        layer.key,
        net,
        "m²",
        layout.panels,
        counted(layout.panels, "panel", size),
        order,
        why,
        "",
        cost,
        unpriced,
        beyond(("hidden in joints", hidden), ("cut off", order - net - hidden)),
    )
    items = [
        stacked(item, layer, product, sheet),
        *tape_of(resolved, product, layout.seams, layer.path),
    ]
    return LaidLayer(
        layer.label,
        layer.words,
        layer.path,
        size,
        layout,
        found.bounds,
        tuple(items),
        plan,
        tuple(notes),
        looked=looked,
        channels=below,
        proved=proved,
        over=found.over,
    )


def _proved(panels: int, proved: int) -> str:
    """What an integer programme says of rows that lie where these do."""
    if panels == proved:
        return "Proved the fewest for rows that lie where these do."
    return f"Rows that lie where these do take {proved} or more, as far as is proved."


def _reaching(resolved: Resolved, plan: KeyPlan) -> str:
    covers, inside = (say.both(each.floor.area, "m²", resolved.system) for each in (plan, resolved.plan))
    out = plan.floor.area > resolved.plan.floor.area
    way = "out below the wall" if out else "in to the slope of a thickened edge"
    return f"This layer covers {covers} where the floor inside of the walls has {inside}: it reaches {way}."


def _on(floor: Floor, wanted: Wanted) -> Wanted:
    """The corner to begin at as the layer has it, which may reach out below the walls."""
    if wanted.corner is None:
        return wanted
    return replace(wanted, corner=min(floor.outline.corners, key=partial(dist, wanted.corner)))


def _best(layer: Slice, floor: Floor, rules: Rules, wanted: Wanted, told: Told) -> tuple[Found, float]:
    """The best plan, and the share of the looking after which somebody had enough; 1 where nobody had."""
    looked = 1.0

    def enough(done: float) -> bool:
        nonlocal looked
        if told(layer.label, done):
            looked = min(done, 0.99)
            return True
        return False

    *_, best = improving(floor, rules, wanted, enough=enough)  # there is always a first filling
    return best, looked


def counted(number: int, what: str, size: str) -> str:
    """What is counted, as many as there are.

    >>> counted(1, "board", "4 ft x 8 ft")
    'board of 4 ft x 8 ft'
    """
    return f"{what if number == 1 else what + 's'} of {size}"
