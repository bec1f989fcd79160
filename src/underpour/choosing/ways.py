"""From a brief to a choice: wanted, columns, bounds, heat, ranking, full answers, words."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from .. import __version__, cautioning
from ..brief import Reading
from ..economy import life_cycle_cost
from ..findings import Finding
from ..mistakes import Mistake
from ..resolve import Resolved
from ..sections.build import section
from ..trying import Taken, as_taken
from . import saying, winning
from .bounds import PutAside, by_budget, by_heat, by_part, doubtful, refusal
from .columns import Columns, as_briefed, bought_of, columns
from .confirming import Answers, Full, Held, beyond_foam, confirmed, findings_of, first_serving
from .films import films
from .heat import Heat, Known, Name, bought, heat_of
from .loads import by_loads
from .ranking import CENT, front, ordered
from .records import Bound, By, Choice, Money, Ranged, Reason, Role, Row, ToWin
from .wanted import NONE, EdgeFoam, FloorFoam, Wanted, foam_at_edge, wanted

CONFIRMED, MOST = 10, 40  # how many are confirmed by full answers, and how many of them are made for it at most
OF_A_ROLE = 3  # full answers at most for one further role of the table
REFUSED_SHOWN, FRONT_SHOWN = 12, 8
Bools = NDArray[np.bool_]


@dataclass(frozen=True)
class Search:
    """All that one look over the candidates brought, before anything is said of it."""

    wanted: Wanted
    columns: Columns
    taken: Taken
    aside: tuple[PutAside, ...]
    heat: Heat | None
    alive: Bools
    by: By
    cost: NDArray[np.float64]
    life: NDArray[np.float64] | None
    doubted: Bools  # seem to fall short, by less than may be off


def choose(reading: Reading, known: Known | None = None, on: Callable[[int], None] = lambda number: None) -> Choice:
    """What to use in a brief, ranked, with the reason of every refusal.

    Parameters
    ----------
    reading : Reading
        The brief; its alternatives are not looked at.
    known : Known, optional
        Sections solved before, by whoever asks again about the same brief.
    on : callable
        Told the number of each whole answer before it is made. What it raises ends the choice.

    Raises
    ------
    Mistakes
        The brief cannot be used.
    """
    taken = as_taken(reading)
    found = search(reading, taken, known or Known())
    return _told(found, on)


def search(reading: Reading, taken: Taken, known: Known) -> Search:
    """Every candidate held to bounds and ranked; nothing is answered wholly here."""
    resolved = taken.resolved
    all_of_it = wanted(reading, resolved)
    table = columns(all_of_it)
    aside = [*by_part(all_of_it, table, taken.sketched), *by_budget(all_of_it, table), *by_loads(all_of_it, table)]
    alive = ~_any(aside, len(table))
    heat = None
    if not resolved.outdoors and alive.any():
        rows = np.flatnonzero(alive)
        heat = _spread_out(heat_of(all_of_it, table.floor[rows], table.edge[rows], known), rows, len(table))
        aside += by_heat(table, heat)
        alive = ~_any(aside, len(table))
    doubted = np.zeros(len(table), bool) if heat is None else doubtful(table, heat)
    life = life_cycles(resolved, table, heat)
    by, cost = _by(reading, resolved, table, life)
    return Search(all_of_it, table, taken, tuple(aside), heat, alive, by, cost, life, doubted)


def life_cycles(resolved: Resolved, table: Columns, heat: Heat | None) -> NDArray[np.float64] | None:
    """First cost and the heat of the years, today's worth; None where nothing says what heat costs."""
    money = resolved.money
    if money is None or money.heat_price is None or heat is None:
        return None
    known = ~np.isnan(table.first) & ~np.isnan(heat.energy)
    whole = np.full(len(table), np.nan)
    whole[known] = life_cycle_cost(
        table.first[known],
        heat.energy[known] * money.heat_price,
        money.discount,
        money.growth,
        money.years,
        money.again,
        money.residual,
    )
    return whole


def _by(
    reading: Reading, resolved: Resolved, table: Columns, life: NDArray[np.float64] | None
) -> tuple[By, NDArray[np.float64]]:
    """By what is ranked, and that column. Raises Mistakes where what [choose] asks for has no prices."""
    asked = reading.brief.choose.least_by if reading.brief.choose is not None else None
    first = np.round(table.first, CENT)
    priced: By = "first cost" if resolved.money is not None else "price of the foam"
    if asked == "life-cycle cost" and life is None:
        lacks = resolved.money.lacks_price if resolved.money is not None else "money"
        wrong = "Nothing says what heat costs, so the years cannot be counted."
        raise reading.placed(
            [Mistake("choose.least-by", f'"{asked}"', wrong, f"Type {lacks or 'money'} in the brief.")]
        )
    if asked == "first cost" and not table.currency:
        wrong = "No board of these has a price with a day."
        raise reading.placed([Mistake("choose.least-by", f'"{asked}"', wrong, "Type prices in [money.price].")])
    if asked == "carbon":
        return "carbon", np.round(table.carbon[0], CENT)
    if asked == "height":
        return "height", np.round(table.height, 6)
    if asked == "foam" or not table.currency:
        return "foam", np.round(table.volume, 6)
    if life is not None and asked != "first cost":
        return "life-cycle cost", np.round(life, CENT)
    return priced, first


def _any(aside: Sequence[PutAside], many: int) -> Bools:
    gone = np.zeros(many, bool)
    for each in aside:
        gone |= each.rows
    return gone


def _spread_out(heat: Heat, rows: NDArray[np.int64], many: int) -> Heat:
    """Columns of some candidates as columns of all; not a number for the others."""

    def wide(column: NDArray[np.float64]) -> NDArray[np.float64]:
        made = np.full(many, np.nan)
        made[rows] = column
        return made

    return replace(
        heat,
        flow=wide(heat.flow),
        flow_within=wide(heat.flow_within),
        energy=wide(heat.energy),
        values={name: wide(column) for name, column in heat.values.items()},
        within={name: wide(column) for name, column in heat.within.items()},
    )


def _told(found: Search, on: Callable[[int], None]) -> Choice:
    table, resolved = found.columns, found.taken.resolved
    answers = Answers(found.wanted, table, found.taken, on)
    beyond = beyond_foam([findings_of(found.taken.findings), *(answers.at(*each) for each in ends(found.wanted))])
    order = ordered(found.alive, [found.cost, table.volume])
    frozen = saying.not_here(resolved)
    if frozen:
        few, fell, learnt = first_serving(order, answers, beyond, 1, 1)
        walked = Held(tuple(few), tuple(fell), tuple(learnt), True)
    else:
        walked = confirmed([int(n) for n in order], found.doubted, answers, beyond, CONFIRMED, MOST)
    held, fell, learnt = list(walked.held), list(walked.fell), list(walked.aside)
    gone = _any(learnt, len(table))
    alive = found.alive & ~gone
    roles: dict[int, list[Role]] = {}
    made = {n: _row(found, answers, n, [], None, beyond) for n in held}
    costs = {n: _cost(found, made[n], n) for n in held}
    held = sorted(held, key=lambda n: (costs[n], held.index(n)))
    rank = {} if frozen else {candidate: n for n, candidate in enumerate(held, 1)}
    for candidate, role in zip([] if frozen else held, ("recommended", "runner-up"), strict=False):
        roles.setdefault(candidate, []).append(role)  # type: ignore[arg-type]
    for role, keys in [] if frozen else _roles(found):
        best_of, _, _ = first_serving(ordered(alive, keys), answers, beyond, 1, OF_A_ROLE)
        for candidate in best_of:
            roles.setdefault(candidate, []).append(role)
    not_by_code = ~_any([each for each in found.aside if each.finding.id.startswith("code.")], len(table))
    by_cost = ordered(not_by_code, [found.cost, table.volume])
    if resolved.held.editions and not frozen:
        best_of, _, _ = first_serving(by_cost, answers, beyond, 1, OF_A_ROLE, "code.")
        for candidate in best_of:
            roles.setdefault(candidate, []).append("cheapest that meets code")
    if found.wanted.edges[0].detail == NONE:
        bare = int(np.flatnonzero((table.floor == 0) & (table.edge == 0))[0])
        roles.setdefault(bare, []).append("no foam")
    rows = [_row(found, answers, n, roles.get(n, []), rank.get(n), beyond) for n in dict.fromkeys([*held, *roles])]
    briefed = _as_briefed(found, beyond)
    same = next((n for n, row in enumerate(rows) if row.changes == briefed.changes), None)
    if same is None:
        rows.append(briefed)
    else:
        rows[same] = replace(rows[same], roles=(*rows[same].roles, "as briefed"))
    refused = [_row(found, answers, n, roles.get(n, []), None, beyond) for n in fell if n not in roles]
    refused += _refused_by_bounds(found, answers, [*roles], beyond)
    counted_at = _counted_at([*found.aside, *learnt], found)
    reasons = _reasons(found, answers, fell, refused, counted_at, beyond)
    best = [n for n in _front(found, alive) if n not in fell][:FRONT_SHOWN]
    at_front = tuple(_row(found, answers, n, roles.get(n, []), rank.get(n), beyond, made=False) for n in best)
    under = None if frozen else _cheapest_under(found, alive, answers, beyond)
    word = saying.word(resolved, rows, under, bool(beyond))
    to_win: list[ToWin] = []
    if len(held) > 1 and found.by not in ("carbon", "height", "foam"):
        parts = [bought_of(found.wanted, *parts_of(found, n)) for n in held[:2]]
        ranked = [next(row for row in rows if row.rank == n) for n in (1, 2)]
        to_win += winning.by_price(ranked[0], ranked[1], costs[held[1]] - costs[held[0]], *parts)
    if held and made[held[0]].first is not None:
        to_win += winning.by_limit(refused, made[held[0]].first.amount, resolved.system)  # type: ignore[union-attr]
    first = held[0] if held else None
    with_it = resolved if first is None else found.wanted.parts(*parts_of(found, first))
    film_open, those = films(with_it, found.wanted.reading.brief.foam)
    choice = Choice(
        title=resolved.title,
        place=resolved.place,
        use=resolved.use.label,
        system=resolved.system,
        version=__version__,
        word=word,
        says=(),
        by=found.by,
        by_words=saying.by_words(found.by, table, resolved),
        rows=tuple(rows),
        refused=tuple(_different(refused)[:REFUSED_SHOWN]),
        front=at_front,
        to_win=tuple(to_win),
        bounds=_bounds([*found.aside, *learnt], counted_at),
        candidates=len(table),
        put_aside=int(len(table) - alive.sum()),
        answered=len(answers.known) + 1,
        sure=walked.sure,
        beyond=tuple(refusal(each, "full answer") for each in beyond.values()),
        open=_open(rows),
        reasons=tuple(reasons),
        film_open=film_open,
        films=those,
        searched=found.wanted.kept,
        assumed=resolved.assumed,
        notes=resolved.notes,
        cautions=(saying.SAFETY, *cautioning.on_papers([resolved])),
    )
    return replace(choice, says=tuple(saying.says(choice, resolved, under)))


def _different(refused: Sequence[Row]) -> list[Row]:
    """Those that other findings refuse first; of several that the same refuse, the best before the others."""
    seen: dict[tuple[str, ...], int] = {}
    order = []
    for n, row in enumerate(refused):
        ids = tuple(sorted({each.id for each in row.refusals}))
        seen[ids] = seen.get(ids, -1) + 1
        order.append((seen[ids], n, row))
    return [row for _, _, row in sorted(order, key=lambda each: each[:2])]


def parts_of(found: Search, n: int) -> tuple[FloorFoam, EdgeFoam]:
    """Floor and edge of a candidate."""
    return found.wanted.floors[found.columns.floor[n]], found.wanted.edges[found.columns.edge[n]]


def _cost(found: Search, row: Row, n: int) -> float:
    """By what it is ranked, by its full answer where that tells it better than the columns."""
    if found.by == "life-cycle cost" and row.life is not None:
        return round(row.life.amount, CENT)
    return float(found.cost[n])


def _cheapest_under(found: Search, alive: Bools, answers: Answers, beyond: dict[Name, Finding]) -> Row | None:
    """The best with foam under the floor, to hold against one that has none there; else the one with most."""
    table = found.columns
    order = ordered(alive & table.floor_foam, [found.cost, table.volume])
    held, _, _ = first_serving(order, answers, beyond, 1, OF_A_ROLE)
    floor, edge = fullest(found.wanted)
    most = np.flatnonzero((table.floor == floor) & (table.edge == edge) & table.floor_foam)
    n = held[0] if held else int(most[0]) if len(most) else None
    return None if n is None else _row(found, answers, n, [], None, beyond)


def ends(wanted: Wanted) -> tuple[tuple[int, int], tuple[int, int]]:
    """No foam, or as little as may be taken, and as much as can be: floor and edge of each."""
    return (0, 0), fullest(wanted)


def fullest(wanted: Wanted) -> tuple[int, int]:
    """As much foam as can be: the largest resistance under the floor, and at the edge in the same product."""
    floor = max(range(len(wanted.floors)), key=lambda n: wanted.floors[n].r_label)
    board = wanted.floors[floor].board
    there = [
        n for n, each in enumerate(wanted.edges) if each.board is not None and board and each.board.key == board.key
    ]
    return floor, max(there, key=lambda n: (wanted.edges[n].r_in_place, n), default=0)


def _roles(found: Search) -> list[tuple[Role, list[NDArray[np.float64]]]]:
    table = found.columns
    roles: list[tuple[Role, list[NDArray[np.float64]]]] = [("least height", [table.height, found.cost])]
    if not np.isnan(table.carbon[0]).all():
        roles.append(("least carbon", [table.carbon[0], found.cost]))
    return roles


def _front(found: Search, alive: Bools) -> list[int]:
    if found.heat is None:
        return []
    keys = [found.cost, found.heat.flow, np.nan_to_num(found.columns.carbon[0], nan=0.0)]
    at = front(alive, keys)
    step = max(1, -(-len(at) // FRONT_SHOWN))
    return [int(n) for n in at[::step]]


def _row(
    found: Search,
    answers: Answers,
    n: int,
    roles: Iterable[Role],
    rank: int | None,
    beyond: dict[Name, Finding],
    made: bool = True,
) -> Row:
    table, all_of_it = found.columns, found.wanted
    floor, edge = all_of_it.floors[table.floor[n]], all_of_it.edges[table.edge[n]]
    there = (int(table.floor[n]), int(table.edge[n])) in answers.known
    full = answers.of(n) if made or there else None
    flow = float(found.heat.flow[n]) if found.heat is not None else None
    within = float(found.heat.flow_within[n]) if found.heat is not None else None
    row = Row(
        name=saying.named(floor, edge),
        floor=floor.words,
        edge=edge.words,
        film=", ".join(layer.label for layer in found.taken.resolved.floor if layer.kind == "vapour-retarder"),
        changes=all_of_it.written(floor, edge),
        roles=tuple(roles),
        rank=rank,
        foam=float(table.volume[n]),
        thickness=floor.thickness,
        r_label=floor.r_label,
        r_in_place=floor.r_in_place,
        height=float(table.height[n]),
        heat=_number(flow),
        heat_within=_number(within),
        coldest=None,
        first=_money(table.first[n], table),
        life=None if found.life is None else _money(found.life[n], table),
        energy=_number(None if found.heat is None else found.heat.energy[n]),
        carbon=_ranged(table.carbon[:, n]),
        confirmed=False,
        open=(),
        refusals=(),
    )
    return row if full is None else _answered(row, full, found, beyond)


def _answered(row: Row, full: Full, found: Search, beyond: dict[Name, Finding]) -> Row:
    """A row with what its full answer says; what it costs over the years is told anew by that answer's heat."""
    resolved, money = found.taken.resolved, found.taken.resolved.money
    net = [each.months for each in full.findings if each.id == "heat.loss-year" and each.at.get("flow") == "net"]
    energy = bought(resolved, [sum(each) for each in zip(*(m for m in net if m), strict=True)]) if net else row.energy
    life = row.life
    if money is not None and money.heat_price is not None and row.first is not None and energy is not None:
        cost = life_cycle_cost(
            row.first.amount,
            energy * money.heat_price,
            money.discount,
            money.growth,
            money.years,
            money.again,
            money.residual,
        )
        life = Money(float(cost), row.first.currency, row.first.day)
    flows = [each for each in full.findings if each.id == "heat.loss-mean" and each.value is not None]
    cold = [each.value for each in full.findings if each.id == "heat.floor-coldest" and each.value is not None]
    shorts = [refusal(each, "full answer") for each in full.lacking(beyond).values()]
    return replace(
        row,
        heat=sum(each.value or 0.0 for each in flows) if flows else row.heat,
        heat_within=sum(each.within or 0.0 for each in flows) if flows else row.heat_within,
        coldest=min(cold, default=None),
        energy=energy,
        life=life,
        confirmed=not full.unbuildable,
        open=tuple(dict.fromkeys(each.id for each in full.findings if each.verdict == "cannot tell")),
        refusals=tuple(shorts),
        findings=full.findings,
    )


def _as_briefed(found: Search, beyond: dict[Name, Finding]) -> Row:
    resolved = found.taken.resolved
    row = Row(
        name="as briefed",
        floor=", ".join(layer.words for layer in resolved.boards) or "no foam",
        edge=", ".join(dict.fromkeys(p.board.words for each in resolved.edges for p in each.pieces)) or "no foam",
        film=", ".join(layer.label for layer in resolved.floor if layer.kind == "vapour-retarder"),
        changes=(),
        roles=("as briefed",),
        rank=None,
        foam=float("nan"),
        thickness=sum(layer.thickness for layer in resolved.boards),
        r_label=sum(layer.r_label or 0.0 for layer in resolved.boards),
        r_in_place=sum(layer.resistance for layer in resolved.boards),
        height=resolved.total,
        heat=None,
        heat_within=None,
        coldest=None,
        first=None,
        life=None,
        energy=None,
        carbon=None,
        confirmed=True,
        open=(),
        refusals=(),
    )
    cost = as_briefed(found.wanted)
    row = replace(row, foam=_foam(resolved), carbon=_ranged(np.array(cost.carbon)))
    if not np.isnan(cost.first) and (found.columns.currency or not cost.currency):
        day = min(filter(None, (cost.day, found.columns.day)), default="")
        row = replace(row, first=Money(cost.first, found.columns.currency, day) if found.columns.currency else None)
    return _answered(row, findings_of(found.taken.findings), found, beyond)


def _foam(resolved: Resolved) -> float:
    floor = sum(layer.thickness for layer in resolved.boards) * resolved.area
    edges = (each for edge in resolved.edges for each in foam_at_edge(section(resolved, edge), edge))
    return floor + sum(area * thick for _, area, thick in edges)


def _money(amount: float, table: Columns) -> Money | None:
    return None if np.isnan(amount) or not table.currency else Money(float(amount), table.currency, table.day)


def _number(value: float | None) -> float | None:
    return None if value is None or np.isnan(value) else float(value)


def _ranged(numbers: NDArray[np.float64]) -> Ranged | None:
    value, low, high = (float(each) for each in numbers)
    return None if np.isnan(value) else Ranged(value, low, high)


def _refused_by_bounds(found: Search, answers: Answers, shown: Sequence[int], beyond: dict[Name, Finding]) -> list[Row]:
    """The best of those that bounds put aside, one for each finding that refuses: why not the cheaper one."""
    cheaper = ordered(~found.alive, [found.cost, found.columns.volume])
    reasons: dict[int, list[PutAside]] = {}
    for aside in found.aside:
        first = next((int(n) for n in cheaper if aside.rows[n] and n not in shown), None)
        if first is not None:
            reasons.setdefault(first, []).append(aside)
    rows = []
    for n in sorted(reasons, key=lambda each: (found.cost[each], each)):
        row = _row(found, answers, n, [], None, beyond, made=False)
        told = tuple(refusal(each.of(n), "bound") for each in reasons[n])
        rows.append(row if row.confirmed else replace(row, refusals=told))
    return rows


def _counted_at(aside: Sequence[PutAside], found: Search) -> Counter[str]:
    """How many each finding put aside, each candidate counted at the first that did."""
    counted: Counter[str] = Counter()
    gone = np.zeros(len(found.columns), bool)
    for each in aside:
        counted[each.finding.id] += int((each.rows & ~gone).sum())
        gone |= each.rows
    return counted


def _bounds(aside: Sequence[PutAside], counted: Counter[str]) -> tuple[Bound, ...]:
    titles = {each.finding.id: each.finding.title for each in reversed(aside)}
    return tuple(Bound(id, titles[id], "", count) for id, count in counted.items() if count)


def _reasons(
    found: Search,
    answers: Answers,
    fell: Sequence[int],
    refused: Sequence[Row],
    counted: Counter[str],
    beyond: dict[Name, Finding],
) -> list[Reason]:
    """Every finding that refuses, with how many it refuses and the best of them."""
    lacking = [{each.id for each in answers.of(n).lacking(beyond).values()} for n in fell]
    reasons = []
    for id in dict.fromkeys(each.id for row in refused for each in row.refusals):
        rows = [row for row in refused if any(each.id == id for each in row.refusals)]
        best = min(rows, key=lambda row: row.first.amount if row.first is not None else np.inf)
        why = next(each for each in best.refusals if each.id == id)
        many = sum(id in each for each in lacking)
        reasons.append(Reason(id, why.title, counted[id], many, best.name, best.first, why))
    return sorted(reasons, key=lambda each: (-each.aside - each.answered, each.id))


def _open(rows: Sequence[Row]) -> tuple[tuple[str, str], ...]:
    first = next((row for row in rows if "recommended" in row.roles), None)
    told = first.findings if first is not None else ()
    return tuple(dict.fromkeys((each.id, each.missing) for each in told if each.verdict == "cannot tell"))
