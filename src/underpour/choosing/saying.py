"""A choice in the words of an adviser: the thing first, the number, what to do."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from ..measure import System, say
from ..measure.digits import fixed
from ..resolve import Resolved
from .columns import Columns
from .records import By, Choice, Money, Refusal, Row, Word
from .wanted import EdgeFoam, FloorFoam
from .winning import told_apart

WORTH = 0.05  # of a year's heat: a step that saves less is not told
MAY_ASK = ("frost.heave", "bearing.", "code.slab-edge", "code.under-slab", "code.heated-slab", "warm.")
HOURS = 8766.0  # in a year
SAFETY = (
    "A recommendation is not a design. The local code and whoever is licensed to sign for structure, frost, fire and "
    "soil gas decide."
)


def named(floor: FloorFoam, edge: EdgeFoam) -> str:
    """A candidate in one line."""
    if floor.board is None and not any(pieces for _, pieces in edge.insulation):
        return "no foam"
    under = f"{floor.words} under the floor" if floor.board else "no foam under the floor"
    of = f" of {edge.board.label}" if edge.board is not None and floor.board is None else ""
    thick, _, where = edge.words.partition(") ") if edge.board else (edge.words, "", "")
    return f"{under}, {thick}){of} {where}" if edge.board else f"{under}, {edge.words}"


def word(resolved: Resolved, rows: Sequence[Row], under: Row | None, beyond: bool) -> Word:
    """The verdict in a few words; ``under`` is the best with foam under the floor, ``beyond``: no foam mends it."""
    if not_here(resolved):
        return "not this tool"
    best = next((row for row in rows if "recommended" in row.roles), None)
    if best is None:
        return "no product can serve"
    if beyond:
        return "foam does not decide it"
    if best.foam == 0.0:
        dearer = under is not None and best.life is not None and under.life is not None
        refused = under is not None and bool(under.refusals)
        worthless = under is not None and _keeps_in(best, under)
        return "no foam" if dearer or refused or worthless else "no foam is asked for"
    return "no foam under the middle" if best.thickness == 0.0 else "serves"


def not_here(resolved: Resolved) -> bool:
    """Whether what decides is not worked out here: a floor that is kept frozen, or ground that is."""
    return resolved.use.cold_floor or frozen(resolved)


def frozen(resolved: Resolved) -> bool:
    """Whether the ground is frozen all year under a room that is warm."""
    return not resolved.outdoors and not resolved.use.cold_floor and resolved.ground_mean <= 0.0 < resolved.room.mean


def _keeps_in(bare: Row, under: Row) -> bool:
    """Whether foam keeps in, through the year, as much heat as it saves in the months that want heat, or more."""
    if bare.heat is None or under.heat is None or bare.energy is None or under.energy is None:
        return False
    saved = bare.energy - under.energy
    kept = (bare.heat - under.heat) * HOURS / 1000.0 - saved
    return -kept >= saved or saved <= 0.0


def by_words(by: By, table: Columns, resolved: Resolved) -> str:
    """By what it is ranked, and what is not in that."""
    money = resolved.money
    if by == "price of the foam":
        return (
            f"Ranked by the price of the foam alone, in {table.currency}, by the products' records of {table.day} or "
            "later. Labour, digging and what heat costs are open: type them in [money]."
        )
    if by == "foam" and not table.currency:
        return "Ranked by how little foam meets everything that is held. Prices are open: no record has one."
    if by in ("foam", "carbon", "height"):
        said = {"foam": "how little foam it takes", "carbon": "the gas of making its foam", "height": "how thin it is"}
        return f"Ranked by {said[by]}, as the brief asks; equal ones by what they cost."
    assert money is not None
    counted = ["the foam, bought whole"]
    counted += ["its laying"] if money.labour is not None else []
    counted += ["the deeper dig"] if "excavation" in money.prices else []
    left = [
        key
        for key, there in (
            ("money.labour", money.labour is not None),
            ("money.price.excavation", "excavation" in money.prices),
        )
        if not there
    ]
    first = f"First cost is {', '.join(counted)}, in {money.currency}; what is the same in all is not in it."
    lacking = f" Not counted, for the brief does not say: {', '.join(left)}." if left else ""
    day = f"Prices of {table.day} or later; a quotation decides."
    if by == "first cost":
        why = "" if money.heat_price is not None else f" What heat costs is open: type {money.lacks_price}."
        return f"Ranked by first cost. {first}{lacking}{why} {day}"
    return (
        f"Ranked by what {money.years} years cost, today's worth: first cost, and heat in the months in which the room "
        f"wants it, at {fixed(money.heat_price or 0.0, 3)} {money.currency} for a kilowatt hour that reaches it, "
        f"{100.0 * money.discount:.3g} % discount and {100.0 * money.growth:.3g} % growth a year. "
        f"{first}{lacking} {day}"
    )


def says(choice: Choice, resolved: Resolved, under: Row | None) -> Iterator[str]:
    """The recommendation, what it does, and why not the cheaper one."""
    best, system = choice.recommended, resolved.system
    if resolved.use.cold_floor:
        yield (
            "Not a question for this tool alone: a floor that is kept frozen freezes the ground below it and is "
            "lifted, unless the ground is warmed or aired. How much foam and heat that takes is not worked out here. A "
            "designer of cold floors decides it; what follows holds the foam to the other checks only."
        )
        return
    if choice.word == "not this tool":
        mean = say.both(resolved.ground_mean, "degC", system)
        yield (
            f"Not a question for this tool: the mean of the year is {mean}, so the ground may be frozen all year and "
            "settles where a warm floor thaws it. Ask a geotechnical engineer who knows frozen ground before anything "
            "is chosen. What follows is what the other checks say of foam, and no advice to build on it."
        )
        return
    if best is None:
        if choice.sure:
            yield "No product of the lines in hand can serve here."
        else:
            left = choice.candidates - choice.put_aside
            yield f"None of {choice.answered} ways that were answered wholly serves; {left:,} more would have to be."
        yield from _nearest(choice)
        return
    held = "" if resolved.held.editions else " It is held to no code, for the brief names none (project.code)."
    yield (f"Take {best.name}." if best.foam else "Take no foam.") + held
    yield from _does(choice, best, system)
    yield from _still_open(best)
    yield from _why_bare(choice, best, under, resolved)
    second = choice.runner_up
    if second is not None:
        yield f"Next comes {second.name}{_dearer(choice, best, second)}."
    yield from _why_not_cheaper(choice, best, system)
    code = choice.with_role("cheapest that meets code")
    if code is not None and code.refusals:
        lacks = _listed(each.title for each in code.refusals)
        yield f"The cheapest that meets the code is {code.name}; it falls short in what no code asks: {lacks}."
    if not choice.sure:
        yield "Not every way that ranks before it was answered; one of them may serve as well."
    yield from _left_out(choice, best, system)
    for each in {one.title: one for one in reversed(choice.beyond)}.values():
        yield f"Whichever is taken, it falls short here: {each.title}{_against(each, system)}. {each.words}".strip()
    if choice.films:
        those = _listed(each.label for each in choice.films)
        yield f"The film as briefed leaves a question ({choice.film_open}). Of the lines these would meet: {those}."


def _left_out(choice: Choice, best: Row, system: System) -> Iterator[str]:
    """What a ranking without the price of heat leaves out: what the next step of the front saves, for how much more."""
    if choice.by not in ("price of the foam", "first cost") or best.first is None or best.energy is None:
        return
    cost, energy = best.first.amount, best.energy
    steps = [
        row for row in choice.front if row.first is not None and row.first.amount > cost and row.energy is not None
    ]
    step = min(
        (row for row in steps if row.energy is not None and row.energy < (1.0 - WORTH) * energy),
        key=lambda row: row.first.amount if row.first is not None else 0.0,
        default=None,
    )
    if step is None or step.first is None or step.energy is None:
        return
    more = f"{step.first.amount - cost:,.0f} {step.first.currency}"
    saves = say.both(energy - step.energy, "kWh", system)
    yield f"What heat costs is not in this: {step.name} saves {saves} more each year for {more} more."


def _why_not_cheaper(choice: Choice, best: Row, system: System) -> Iterator[str]:
    """The cheapest of what is refused and costs less, with what refuses it."""
    here = _counted(best, choice)
    if here is None or choice.by in ("foam", "carbon", "height"):
        return
    refused = [
        (cost, row) for row in (*choice.refused, *choice.rows) if row.refusals and (cost := _counted(row, choice))
    ]
    cheaper = [(cost, row) for cost, row in refused if cost.amount < here.amount]
    if not cheaper:
        return
    cost, row = min(cheaper, key=lambda each: each[0].amount)
    why = row.refusals[0]
    over = " over the years" if choice.by == "life-cycle cost" else ""
    yield (
        f"Cheaper is {row.name}, at {cost.amount:,.0f} {cost.currency}{over}; it is refused. "
        f"{why.title}{_against(why, system)}."
    )


def _counted(row: Row, choice: Choice) -> Money | None:
    """What a row costs, by what is ranked."""
    return row.life if choice.by == "life-cycle cost" else row.first


def _against(why: Refusal, system: System) -> str:
    """The value beside its limit, where both are told."""
    if why.value is None or why.limit is None or why.unit in ("count", "money"):
        return ""
    value, limit = told_apart(why.value, why.limit, why.unit, system)
    return f": {value}, where {why.sense} {limit} is wanted"


def _still_open(best: Row) -> Iterator[str]:
    """What cannot be told yet and may still ask for foam, or for other foam."""
    asks = [each for each in best.findings if each.verdict == "cannot tell" and each.id.startswith(MAY_ASK)]
    if asks:
        told = _listed(f"{each.title} (type {each.missing})" for each in asks)
        yield f"Not told yet, and it may ask for more: {told}."


def _does(choice: Choice, best: Row, system: System) -> Iterator[str]:
    bare = choice.with_role("no foam")
    if bare is None or best.heat is None or bare.heat is None or not best.foam:
        return
    through = say.both(best.heat, "W", system)
    saved = bare.heat - best.heat
    lacks = _listed(each.title for each in bare.refusals)
    why = f" Without foam it falls short: {lacks}." if lacks else ""
    if bare.heat > 0.0 and saved > 0.0:
        share = f"{100.0 * saved / bare.heat:.0f} %"
        yield f"The floor then loses {through} on the mean of the year, {share} less than without foam.{why}"
    elif why:
        yield why.strip()


def _why_bare(choice: Choice, best: Row, under: Row | None, resolved: Resolved) -> Iterator[str]:
    """Why nothing lies under the middle, or nowhere, and what would tell more."""
    if best.thickness or under is None:
        return
    system = resolved.system
    if choice.word == "no foam" and _keeps_in(best, under):
        saved = (best.energy or 0.0) - (under.energy or 0.0)
        lacks = _listed(each.title for each in under.refusals)
        yield (
            f"{_up(under.name)} would save {say.both(max(saved, 0.0), 'kWh', system)} in the months in which the room "
            "wants heat, and keep in as much or more in the others, which the ground would take: do not insulate here "
            "for the heat."
        )
        if lacks:
            yield f"And it is refused: {lacks}. {under.refusals[0].words}"
        return
    if best.heat is None or under.heat is None:
        return
    if under.refusals:
        yield f"Foam there is refused: {_listed(each.title for each in under.refusals)}. {under.refusals[0].words}"
        return
    less = say.both(best.heat - under.heat, "W", system)
    if best.life is not None and under.life is not None:
        more = f"{under.life.amount - best.life.amount:,.0f} {best.life.currency}"
        yield f"The best with foam there, {under.name}, loses {less} less and costs {more} more over the years."
    elif best.first is not None and under.first is not None:
        more = f"{under.first.amount - best.first.amount:,.0f} {best.first.currency}"
        yield (
            f"The cheapest with foam there, {under.name}, loses {less} less for {more} more. It is left out "
            "only because nothing that is held asks for it. Whether it pays is a question of what heat "
            "costs: type [money]."
        )


def _nearest(choice: Choice) -> Iterator[str]:
    """The row that lacks least, and what."""
    rows = [row for row in (*choice.rows, *choice.refused) if row.refusals]
    nearest = min(rows, key=_far_off, default=None)
    if nearest is not None:
        lacks = _listed(
            f"{each.title}{'' if each.limit is not None else ', which cannot be told'}" for each in nearest.refusals
        )
        yield f"The nearest is {nearest.name}. What falls short with it: {lacks}."
        yield from dict.fromkeys(filter(None, (each.words for each in nearest.refusals[:2])))
    bare = choice.with_role("no foam")
    if bare is not None and bare.refusals and bare is not nearest:
        lacks = _listed(each.title for each in bare.refusals)
        yield f"Without foam it falls short as well: {lacks}. Mend that first."


def _far_off(row: Row) -> tuple[bool, int, int, float]:
    """How far a way is from serving: what falls short weighs before what cannot be told of it."""
    short = [each for each in row.refusals if each.limit is not None]
    return not row.confirmed, len({each.id for each in short}), len(row.refusals), _lack(row)


def _lack(row: Row) -> float:
    return sum(abs(each.margin or 0.0) / (abs(each.limit or 0.0) or 1.0) for each in row.refusals)


def _dearer(choice: Choice, best: Row, second: Row) -> str:
    if choice.by == "life-cycle cost" and best.life is not None and second.life is not None:
        return f", {second.life.amount - best.life.amount:,.0f} {best.life.currency} more over the years"
    if best.first is not None and second.first is not None and choice.by in ("first cost", "price of the foam"):
        return f", {second.first.amount - best.first.amount:,.0f} {best.first.currency} more"
    return ""


def _listed(words: Iterable[str]) -> str:
    return "; ".join(dict.fromkeys(words))


def _up(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}"
