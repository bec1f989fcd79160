"""``underpour catalogue thickness``: from a wanted R or U to the thinnest thickness made, and back."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from ...mistakes import Mistake, Mistakes
from ..pages_of import products_named
from ..paragraphs import hung, width_of_terminal
from ..parsing import Words
from ..told import Told
from .short_records import short_records

if TYPE_CHECKING:
    from ...brief import Reading
    from ...catalogue.choices import Choice
    from ...catalogue.products import Products
    from ...catalogue.thickness import Laid
    from ...measure import System
    from ...sizing import Sized, Tried

EXAMPLE = "underpour catalogue thickness R10 plain-15"
HELP = """\
underpour catalogue thickness R10 [BOARD ...] [--brief BRIEF]
                             [--catalogue LINE]
underpour catalogue thickness "2 in" BOARD ... [--brief BRIEF]
underpour catalogue thickness U0.05 [BOARD] --brief BRIEF

From a wanted R to the thinnest thickness made whose label reaches it, in one
layer or several, and back: what a thickness brings, as labelled and in place.
Of a panel with knobs or channels only its solid part counts; the height over
all stands beside it.

  R10, RSI 1.76   the R that is wanted, as labelled
  "2 in"          a thickness made
  U0.05           the U of a whole floor, ground included: the thinnest
                  made that reaches it and the next thinner, each solved
  BOARD           boards or panels; all of them unless you say. With U, a board
                  in the place of the brief's
  --brief BRIEF   the floor that a U is asked of; its folder's own products are
                  known too
  --catalogue     without a brief: your own product line, or a folder of them,
                  beside the line that comes with the tool

For example:

  underpour catalogue thickness R10
  underpour catalogue thickness "2-1/2 in" plain-15 knob-25
  underpour catalogue thickness U0.05 --brief examples/raft-house/brief.toml
"""
HERE = "underpour catalogue thickness"
RESISTS = "m²·K/W"


def parser() -> Words:
    words = Words("catalogue thickness", EXAMPLE)
    words.add_argument("wanted", nargs="?")
    words.add_argument("boards", nargs="*")
    words.add_argument("--brief")
    words.add_argument("--catalogue", metavar="FILE-or-FOLDER")
    return words


def told(words: Sequence[str]) -> Told:
    """What a wanted R or U takes, or what a thickness brings."""
    asked = parser()
    given = asked.read(words)
    wanted = asked.must(given.wanted, "Which R, U or thickness? Such as R10, U0.05 or 2 in.")
    from ...brief import read

    if given.brief and given.catalogue:
        wrong = "The brief has the lines of the folder beside it."
        raise Mistake(f"{HERE} --catalogue", "", wrong, "Leave --catalogue or --brief out.")
    reading = read(given.brief) if given.brief else None
    products = reading.products if reading else products_named(given.catalogue)
    try:
        lines = list(_lines(wanted, given.boards, reading, products, width_of_terminal()))
    except Mistake as mistake:
        if reading is not None and mistake.at:
            raise Mistakes(reading.placed([mistake])) from None
        word = mistake.typed.strip('"') or wanted
        raise replace(mistake, at=f"{HERE} {word}", typed="") from None
    return Told("\n".join(lines) + "\n")


def _lines(
    wanted: str, boards: Sequence[str], reading: Reading | None, products: Products, width: int
) -> Iterator[str]:
    letter = wanted.strip()[:1].upper()
    if letter == "U":
        if reading is None:
            wrong = "The U of a whole floor hangs on its size, its edges and the ground."
            raise Mistake("", "", wrong, f"Name the brief: {HERE} {wanted} --brief brief.toml")
        if len(boards) > 1:
            raise Mistake("", "", "The U of a floor is asked of one board.", f"Leave {boards[0]}, or ask one by one.")
        yield from _for_u(wanted, boards[0] if boards else None, reading, width)
    elif letter == "R":
        yield from _for_r(wanted, boards, reading, products, width)
    else:
        yield from _of_thickness(wanted, boards, reading, products, width)


def _for_r(
    wanted: str, boards: Sequence[str], reading: Reading | None, products: Products, width: int
) -> Iterator[str]:
    from ... import measure
    from ...catalogue.choices import all_keys, choices
    from ...measure import say

    system = _system(wanted, "resistance", reading)
    r = measure.resistance(wanted, system)
    if r.si == 0.0:
        raise Mistake("", "", f"{wanted} is nothing.", "Write the R that is wanted, such as R10 or RSI 1.76.")
    found = list(choices(products, boards or all_keys(products), r.si, system))
    indent = 4 + max(len(choice.key) for choice in found)
    yield f"For {say.typed(r, RESISTS, system)}, as labelled"
    for choice in found:
        lines = list(_choice(choice, r.si, system, every=bool(boards)))
        yield from hung(lines[0], width, indent, f"  {choice.key}")
        for line in lines[1:]:
            yield from hung(line, width, indent)
    yield ""
    yield from hung(
        "Where several layers lie on one another, the joints of each are crossed by the next. Of a panel the solid "
        "part counts; knobs and channels add height and no R.",
        width,
    )
    for said in short_records([choice.key for choice in found], products):
        yield from ("", *hung(said, width))


def _choice(choice: Choice, wanted: float, system: System, *, every: bool) -> Iterator[str]:
    from ...catalogue.thickness import Laid, made_in, most_layers
    from ...measure import say

    one, layers = choice.one, choice.layers
    if one is not None:
        yield _laid(choice, one, system)
    if layers is not None and (one is None or every or layers.thickness < one.thickness - 1e-6):
        thinner = one is not None and layers.thickness < one.thickness - 1e-6
        yield f"{'or thinner, ' if thinner else 'or ' if one is not None else ''}{_laid(choice, layers, system)}"
    if one is None and layers is None:
        made = made_in(choice.board, system)
        if not made:
            yield "no thickness of it has an R-value as labelled"
            return
        most = Laid((made[-1],) * (1 if choice.shaped else most_layers()))
        yield f"not reached: the most is {most.typed}, {say.both(most.r_label, RESISTS, system)} as labelled"


def _laid(choice: Choice, laid: Laid, system: System) -> str:
    from ...measure import Measure, say

    thick = say.typed(Measure(laid.thickness, laid.typed), "m", system)
    if choice.height and laid is choice.one:
        thick = f"{thick} of solid foam, {choice.height} over all"
    label = say.value(laid.r_label, RESISTS, system)
    in_place = say.value(choice.board.r_in_place(laid.thickness), RESISTS, system)
    price = f", {choice.price}" if choice.price and laid is choice.one else ""
    return f"{thick}: {label} as labelled, {in_place} in place{price}"


def _of_thickness(
    wanted: str, boards: Sequence[str], reading: Reading | None, products: Products, width: int
) -> Iterator[str]:
    from ... import measure
    from ...catalogue.choices import brought

    thickness = measure.thickness(wanted)
    if not boards and reading is None:
        wrong = "A thickness brings another R with each board."
        raise Mistake("", "", wrong, f'Name the board: {HERE} "{wanted}" plain-15')
    system = _system(wanted, "length", reading)
    for key in boards:
        choice = brought(products, key, thickness, system)
        assert choice.one is not None
        yield from hung(_laid(choice, choice.one, system), width, 4 + len(key), f"  {key}")
    for said in short_records(boards, products):
        yield from ("", *hung(said, width))
    if reading is not None:
        from ...sizing import u_of

        for name in boards or (None,):
            tried, board, system = u_of(reading, thickness, name)
            yield from hung(f"{board.label}, {_tried(tried, system)} of the whole floor", width, 4)


def _for_u(wanted: str, key: str | None, reading: Reading, width: int) -> Iterator[str]:
    from ...measure import say
    from ...sizing import thickness_for_u

    sized = thickness_for_u(reading, wanted, key)
    limit = say.typed(sized.wanted, "W/(m²·K)", sized.system)
    yield from hung(f"For {limit} of the whole floor, ground included, with {sized.board.label}", width)
    for each in sized.tried:
        said = "reaches it" if each.u <= sized.wanted.si else "falls short"
        yield from hung(f"{_tried(each, sized.system)}: {said}", width, 6, "  tried")
    yield ""
    yield from hung(_found(sized), width)


def _found(sized: Sized) -> str:
    from ...measure import say
    from ...sizing import words_of

    if sized.chosen is None:
        assert sized.thinner is not None
        most = words_of(sized.thinner.laid, sized.system)
        u = say.both(sized.thinner.u, "W/(m²·K)", sized.system)
        return (
            f"No thickness reaches it: the thickest that can be built, {most}, leaves {u}. The rest "
            "leaves at the edge; foam there does more."
        )
    words = f"{words_of(sized.chosen.laid, sized.system)} is the thinnest made that reaches it"
    if sized.thinner is None:
        return f"{words}; it is made no thinner."
    return f"{words}; {words_of(sized.thinner.laid, sized.system)}, the next thinner, falls short."


def _tried(tried: Tried, system: System) -> str:
    from ...measure import say
    from ...sizing import words_of

    label = say.value(tried.laid.r_label, RESISTS, system)
    u = say.both(tried.u, "W/(m²·K)", system)
    return f"{words_of(tried.laid, system)}, {label} as labelled: U is {u}"


def _system(typed: str, kind: str, reading: Reading | None) -> System:
    """The brief's system, or that of the unit that was typed; inches where it could be either."""
    if reading is not None:
        from ...resolve import resolve

        return resolve(reading.brief, products=reading.products).system
    from ...measure.read import amount
    from ...measure.table import table

    _, unit = amount(typed, table().kinds[kind], "US")
    return "SI" if unit.system == "SI" else "US"
