"""One version of a brief in money and carbon, beside itself with less foam."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from ..checks.solved import SolvedEdge
from ..cut import edges_for_heat, floor_heat_alone
from ..economy import best_of, life_cycle_cost, parabola
from ..physics.domain import OutOfDomain
from ..resolve import Money, Resolved, Slice
from ..takeoff import Item, Takeoff, taken_off
from ..takeoff.layers import size_of
from .carbon import embodied
from .first import first_cost
from .making import of_board
from .prices import by_area, price_of
from .records import Against, Costed, Season
from .season import season
from .versions import main_board, thicknesses, thinner_of, with_thickness, without, without_foam

Heat = Callable[[Resolved], Season]  # of a version, solved for its heat alone


def costed(resolved: Resolved, edges: Sequence[SolvedEdge], takeoff: Takeoff | None = None) -> Costed:
    """What a version costs, what it saves, and the greenhouse gas of both. Wants [money].

    Its takeoff is made unless it is handed in. Versions with less foam are solved for heat alone, by mean and swing of
    the year; what the hours of a weather file bring beyond these is taken to be the same in all of them.
    """
    money = resolved.money
    assert money is not None, "nothing is priced without [money]"
    takeoff = takeoff or taken_off(resolved)
    first, gas, heat = first_cost(resolved, money, takeoff), embodied(resolved, takeoff), season(resolved, edges)
    made = Costed(money, first, gas, heat, None, None, (), None)
    if heat is None:
        return made
    as_wave = season(resolved, [replace(edge, response=None) for edge in edges])
    assert as_wave is not None
    beyond = [told - wave for told, wave in zip(heat.months, as_wave.months, strict=True)]

    def of_version(version: Resolved) -> Season:
        told = season(version, edges_for_heat(version))
        assert told is not None
        return replace(told, months=tuple(a + b for a, b in zip(told.months, beyond, strict=True)))

    bare = without_foam(resolved)
    if bare is not None:
        gas_of_foam = None if gas.lacks else gas.of(foam=True)[0]
        more = None if first.lacks_foam else first.foam
        made = replace(made, bare=Against("no foam", more, gas_of_foam, *_beside(heat, of_version(bare))))
    board = main_board(resolved)
    if board is not None:
        made = replace(made, thinner=_thinner(resolved, money, takeoff, board, heat, of_version))
        made = _with_ladder(made, resolved, money, takeoff, board, of_version)
    return made


def _beside(heat: Season, with_less: Season) -> tuple[float, float]:
    """What a floor saves beside one with less foam, and what it keeps in while the room is cooled. [kWh]"""
    return with_less.energy - heat.energy, with_less.taken - heat.taken


def life(money: Money, first: float, energy: float) -> float | None:
    """Life-cycle cost of a first cost and a year's heat; None where heat has no price. [money, kWh]"""
    if money.heat_price is None:
        return None
    yearly = energy * money.heat_price
    return float(life_cycle_cost(first, yearly, money.discount, money.growth, money.years, money.again, money.residual))


def _bought(takeoff: Takeoff, board: Slice) -> Item | None:
    return next((item for item in takeoff.items if item.where == board.path and item.key == board.key), None)


def _thinner(
    resolved: Resolved, money: Money, takeoff: Takeoff, board: Slice, heat: Season, of_version: Heat
) -> Against | None:
    """The last step of thickness, beside the next thinner board that is made."""
    thin, item = thinner_of(board), _bought(takeoff, board)
    if thin is None or item is None:
        return None
    more = _goods(resolved, money, board, item, board.thickness), _goods(resolved, money, board, item, thin)
    per_metre = of_board(resolved, money, board.record) if board.record is not None else None
    return Against(
        next(made.typed for made in board.record.made if made.thickness == thin) if board.record else "",
        None if more[0] is None or more[1] is None else more[0] - more[1],
        per_metre.value * item.order * (board.thickness - thin) if per_metre is not None else None,
        *_beside(heat, of_version(with_thickness(resolved, board, thin))),
    )


def _goods(resolved: Resolved, money: Money, board: Slice, item: Item, thickness: float) -> float | None:
    """Boards of a layer in one thickness, and what is dug for them; None where no price is known of it."""
    found = price_of(resolved, money, board.key, thickness)
    if found is not None and found.quoted and found.price.per != "m³" and abs(thickness - board.thickness) > 1e-6:
        return None  # a quotation of one thickness says nothing of another
    size = size_of(resolved, board)
    price = by_area(found, thickness, size.width * size.length)
    dig = money.prices.get("excavation")
    dug = resolved.plan.floor.area * thickness * dig.amount if dig and not resolved.on_old_slab else 0.0
    return None if price is None else price * item.order + dug


def _with_ladder(
    made: Costed, resolved: Resolved, money: Money, takeoff: Takeoff, board: Slice, of_version: Heat
) -> Costed:
    """Life-cycle cost without a board and with each thickness that is made, and how flat it lies at the least.

    Heat is solved wholly without it, at the ends and as briefed; between them it goes with the mean of the year, which
    a second way tells of each, by a parabola through the three.
    """
    rungs, item = thicknesses(board), _bought(takeoff, board)
    own = _goods(resolved, money, board, item, board.thickness) if item is not None else None
    if made.first.lacks or own is None or item is None or made.season is None or len(rungs) < 3:
        return made
    goods = [_goods(resolved, money, board, item, each) for each in rungs]
    if None in goods or money.heat_price is None:
        return made
    try:
        means = [floor_heat_alone(with_thickness(resolved, board, each)).mean for each in rungs]
        mean = floor_heat_alone(resolved).mean
    except OutOfDomain:
        return made
    ends = [of_version(with_thickness(resolved, board, each)).energy for each in (rungs[0], rungs[-1])]
    heat = parabola([means[0], mean, means[-1]], [ends[0], made.season.energy, ends[1]], means)
    rest = max(made.first.total - own, 0.0)
    laying = sum(each.labour or 0.0 for each in made.first.outlays if each.where == board.path)
    none = life(money, max(rest - laying, 0.0), of_version(without(resolved, board)).energy)
    priced = [(price, year) for price, year in zip(goods, heat, strict=True) if price is not None]
    costs = [none, *(life(money, rest + price, year) for price, year in priced)]
    ladder = tuple((each, cost) for each, cost in zip((0.0, *rungs), costs, strict=True) if cost is not None)
    return replace(made, ladder=ladder, flat=best_of([t for t, _ in ladder], [c for _, c in ladder]))
