"""``underpour takeoff``: what to order for a slab, and how its panels are laid."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from ..mistakes import Mistake, nearest
from . import order_folder
from .days import day
from .parsing import Words, one_of
from .stopping import stopped_by_key
from .told import Told

if TYPE_CHECKING:
    from ..brief.model import Brief
    from ..brief.read import Reading
    from ..measure.table import System
    from ..takeoff import Cost, Item, LaidLayer, Loads, Lot, Takeoff

EXAMPLE = "underpour takeoff brief.toml -o order"
HELP = """\
underpour takeoff BRIEF [-o FOLDER] [--alternative NAME] [--json]
                  [--paper a4|us-letter] [--date 2026-11-25]

Counts what to order for one slab. Panels are laid on the floor one by one,
with offcuts used again; beside their number stands the fewest that any plan
in rows could take. Film with its laps, foam of the edges, gravel, concrete.

  BRIEF      the file that says where the slab is and what is under it
  -o FOLDER  written there; the folder has to exist:
             order.csv, cuts.csv, kept.csv and order.xlsx, which has all three;
             rest.csv, the cuts of the rest where [laying] says what lies;
             panels-1.svg, film-1.svg and so on, a plan of each layer;
             panels-1.dxf, the same true to size for a drawing program;
             crew-sheet.pdf, what to look at on delivery, plans, cuts, weights,
             the order of the work; labels.pdf, one for each sawn piece
  --alternative NAME
             orders that alternative of the brief, and says at the end what is
             otherwise than as briefed
  --json     all of it as JSON
  --paper    a4 or us-letter; by the brief's units unless you say
  --date     the date printed on the papers; today unless you say

For example:

  underpour takeoff examples/daylight-basement/brief.toml -o out

Prices are those of the products' records, with their day; what has none is
said, nothing is guessed. Ctrl-C while panels are laid takes the best plans
so far, prints them and says so; pressed again it ends at once.

It ends with 0, with 2 where the brief or the folder cannot be used, and with
130 where it was stopped from the keyboard.
"""
MIND = "Mind: this counts the brief as briefed. Walls, delivery, breakage, labour and what the site adds are not in it."
STOPPED = 130  # as the shell has it for what was stopped from the keyboard


def parser() -> Words:
    words = Words("takeoff", EXAMPLE)
    words.add_argument("brief", nargs="?")
    words.add_argument("-o", dest="out", metavar="FOLDER")
    words.add_argument("--alternative", metavar="NAME")
    words.add_argument("--json", action="store_true")
    words.add_argument("--paper", type=one_of("--paper", "a4", "us-letter"))
    words.add_argument("--date")
    return words


def told(words: Sequence[str]) -> Told:
    """The order of a brief, as text or JSON; with a folder, its tables and plans as files."""
    from ..brief import read
    from ..brief.alternatives import AS_BRIEFED
    from ..resolve import resolve
    from ..takeoff import taken_off

    asked = parser()
    given = asked.read(words)
    brief = asked.must(given.brief, "Which brief?")
    folder = order_folder.existing(given.out) if given.out else None
    date = day(given.date).isoformat()
    reading = read(Path(brief))
    named = None if given.alternative == AS_BRIEFED else given.alternative
    changed = _alternative(reading, named) if named is not None else None
    resolved = resolve(changed or reading.brief, products=reading.products)
    with stopped_by_key() as stopped:
        shown = _progress()

        def looked(words: str, done: float) -> bool:
            shown(words, done)
            return stopped()

        takeoff = taken_off(resolved, looked)
        briefed = taken_off(resolve(reading.brief, products=reading.products), looked) if changed else None
    if changed:  # so that no paper of it is taken for the brief's
        takeoff = replace(takeoff, title=f"{takeoff.title}, alternative {given.alternative}")
    written: list[str] = []
    if folder:
        paper: Literal["a4", "us-letter"] = given.paper or ("us-letter" if resolved.system == "US" else "a4")
        names = order_folder.written(folder, given.out, resolved, takeoff, date=date, paper=paper)
        written = ["", f"Written to {given.out}: {', '.join(names)}."]
    status = STOPPED if any(layer.looked < 1.0 for layer in takeoff.layers) else 0
    if given.json:
        from ..dossier_json import finding_as_data
        from ..takeoff.told import as_json

        return Told(as_json(takeoff, [finding_as_data(each) for each in takeoff.findings]) + "\n", status)
    from .paragraphs import hung, width_of_terminal

    width = width_of_terminal()
    mind = MIND if briefed is None else MIND.replace("the brief as briefed", f"the alternative {given.alternative}")
    apart = _apart(briefed, takeoff, width) if briefed else ()
    lines = [*_lines(takeoff, width), *apart, *hung(mind, width), *written]
    return Told("\n".join(lines) + "\n", status)


def _alternative(reading: Reading, name: str) -> Brief:
    """The alternative of that name. Raises Mistake."""
    known = dict(reading.alternatives)
    if name in known:
        return known[name]
    at, file = f"--alternative {name}", str(reading.file)
    if not known:
        raise Mistake(at, "", "The brief has no alternatives.", "Leave it out, or add an [[alternative]].", file=file)
    near = nearest(name, known)
    said = f"The nearest is {near[0]}. " if near else ""
    quoted = ", ".join(f'"{each}"' for each in known)
    raise Mistake(at, "", "The brief has no alternative of that name.", f"{said}There are: {quoted}.", file=file)


def _apart(briefed: Takeoff, other: Takeoff, width: int) -> Iterator[str]:
    """What is ordered otherwise than as briefed, and what that does to the price."""
    from ..takeoff.difference import otherwise, totals_apart
    from .paragraphs import hung

    yield from hung("Otherwise than as briefed:", width)
    every = otherwise(briefed, other)
    for each in every:
        was, now = (_short(item, other) for item in (each.was, each.now))
        yield from hung(f"{each.where}: {now}; as briefed {was}.", width, 2)
    if not every:
        yield from hung("Nothing.", width, 2)
    for currency, before, after in totals_apart(briefed, other):
        more = "more" if after > before else "less"
        apart = f": {abs(after - before):,.2f} {more}" if round(after - before, 2) else ""
        yield from hung(f"Priced in all {after:,.2f} {currency}; as briefed {before:,.2f}{apart}.", width, 2)


def _short(item: Item | None, takeoff: Takeoff) -> str:
    return f"{_ordered(item, takeoff)}, {item.what}" if item else "nothing"


def _progress() -> Callable[[str, float], None]:
    """A line that is written over while panels are laid, where somebody looks at a terminal."""
    import sys

    if not sys.stderr.isatty():
        return lambda _words, _done: None

    def show(words: str, done: float) -> None:
        sys.stderr.write(f"\r\x1b[K{words}: {100 * done:.0f} % looked at" if done < 1.0 else "\r\x1b[K")
        sys.stderr.flush()

    return show


def _lines(takeoff: Takeoff, width: int) -> Iterator[str]:
    from ..takeoff.as_laid import rest_words
    from .paragraphs import hung

    yield from hung(f"What to order: {takeoff.title}", width)
    for item in takeoff.items:
        yield ""
        yield from hung(_ordered(item, takeoff), width)
        yield from hung(f"{item.what}; {item.where}.", width, 2)
        yield from hung(item.why, width, 2)
        if item.cost:
            yield from hung(_money(item.cost, item.per_r, takeoff.system), width, 2)
    for layer in takeoff.layers:
        yield ""
        yield from hung(_bound(layer, takeoff.system), width)
        for note in layer.notes:
            yield from hung(note, width, 2)
        for words in rest_words(layer.rest, layer.size) if layer.rest else ():
            yield from hung(words, width, 2)
    yield ""
    for lot in takeoff.lots:
        yield from hung(_lot(lot), width)
    for line in _brought(takeoff.loads, takeoff.system) if takeoff.loads else ():
        yield from hung(line, width)
    for name, tools in takeoff.tools:
        yield from hung(f"{name} is worked with: {tools}.", width)
    for note in takeoff.notes:
        yield from hung(note, width)
    yield ""
    for currency, amount, days in takeoff.totals:
        yield from hung(
            f"Priced in all: {amount:,.2f} {currency} at prices of {days}; what has none is not in it.", width
        )
    for line in _unpriced(takeoff.items):
        yield from hung(line, width)


def _ordered(item: Item, takeoff: Takeoff) -> str:
    from ..measure import say

    amount = say.both(item.order, item.unit, takeoff.system)
    packed = f", {item.packs}" if item.packs else ""
    if item.unit == "count":
        return f"{item.count} {item.of}"
    return f"{item.count} {item.of}{packed} ({amount})" if item.count is not None else amount


def _money(cost: Cost, per_r: float | None, system: System) -> str:
    per = f" {_per_r(per_r, cost.currency, system)}" if per_r is not None else ""
    return f"{cost.amount:,.2f} {cost.currency} at {cost.price} ({cost.day}).{per}"


def _unpriced(items: Sequence[Item]) -> Iterator[str]:
    """What has no price, by the reason."""
    for reason in dict.fromkeys(item.unpriced for item in items if item.unpriced):
        names = dict.fromkeys(item.what for item in items if item.unpriced == reason)
        yield f"Not priced, since {reason}: {'; '.join(names)}."


def _per_r(per_r: float, currency: str, system: System) -> str:
    """Money for each area and each R on the label, in the brief's own units."""
    from ..measure import say

    area, r = (say.number(1.0, unit, system) for unit in ("m²", "m²·K/W"))
    each = "ft² and R-1" if system == "US" else "m² and m²·K/W"
    return f"For each {each}: {per_r / area / r:.3f} {currency}."


def _lot(lot: Lot) -> str:
    packed = f", {lot.pack.words}" if lot.pack else ""
    return f"As one lot: {lot.count} {lot.of}{packed}: {lot.what}, for {'; '.join(lot.where)}."


def _brought(loads: Loads, system: System) -> Iterator[str]:
    """How many lorries bring it."""
    from ..measure import say

    if loads.lorries:
        bulk, lorry = (say.both(each, "m³", system) for each in (loads.bulk, loads.lorry))
        yield (
            f"Boards take {bulk} as they are stacked and weigh {say.both(loads.mass, 'kg', system)}: "
            f"{loads.lorries} {'lorry' if loads.lorries == 1 else 'lorries'} of {lorry}."
        )
    if loads.mixers:
        poured = say.both(loads.concrete, "m³", system)
        yield f"Concrete comes on {loads.mixers} truck{'s' if loads.mixers > 1 else ''}, {poured} in all, pour by pour."


def _bound(layer: LaidLayer, system: System) -> str:
    from ..measure import say

    fewest, how = layer.bound
    layout = layer.layout
    return (
        f"{layer.words}: {layout.panels} panels where no plan in rows takes fewer than {fewest}, counted {how}; "
        f"{say.both(layout.seams, 'm', system)} of joints."
    )
