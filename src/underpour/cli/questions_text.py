"""Questions as text for the terminal: what to ask, what hangs on it, what to type."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from .paragraphs import hung
from .spoken import measured, named

if TYPE_CHECKING:
    from ..ask import Asked, Move, Open, Question, Turn
    from ..findings import Finding, Verdict
    from ..measure.table import System

HANG = 3  # room for the number of a question
SHOWN = 4  # turned verdicts that are written out under one question; the rest are counted
SAID: dict[Verdict, str] = {
    "meets": "meets",
    "falls short": "falls short",
    "cannot tell": "cannot be told",
    "does not apply": "does not apply",
    "not required, advised": "is advised",
    "stated": "is stated",
}


def questions_text(asked: Asked, width: int) -> str:
    """What to ask about one brief, in lines of at most ``width`` columns; what is not asked stands last."""
    lines = [*hung(asked.title, width), *hung(f"{asked.use.capitalize()}, {asked.place}.", width), ""]
    lines += [*hung(_opening(asked), width), ""]
    for number, question in enumerate(asked.questions, 1):
        lines += [*_question(number, question, asked.units, width), ""]
    for said in _left(asked):
        lines += hung(said, width)
    return "\n".join(lines).rstrip() + "\n"


def _opening(asked: Asked) -> str:
    if not asked.open:
        return "Nothing to ask: the brief leaves nothing open."
    if not asked.questions:
        return (
            "Nothing to ask: no answer to what the brief leaves open turns a verdict or moves the heat loss or the "
            "coldest floor."
        )
    if asked.decides:
        many = len(asked.questions)
        return "One answer turns a verdict." if many == 1 else f"{('Two', 'Three')[many - 2]} answers turn a verdict."
    moved = " or ".join(_heat(move)[0] for move in asked.questions[0].moves)
    return f"No answer turns a verdict. This moves {moved} most:"


def _left(asked: Asked) -> Iterator[str]:
    if asked.further and not asked.decides:
        yield f"Known once the products are chosen, and would turn a verdict then: {', '.join(asked.further)}."
    elif asked.further:
        many = len(asked.further)
        verb = "would turn a verdict too"
        yield f"{many} more {'answer' if many == 1 else 'answers'} {verb}: {', '.join(asked.further)}."
    if asked.idle and asked.decides:
        yield f"Turns no verdict, so it need not be asked: {', '.join(asked.idle)}."
    elif asked.idle and asked.questions:
        yield f"Moves less: {', '.join(asked.idle)}."
    elif asked.idle:
        yield f"Left open: {', '.join(asked.idle)}."


def _question(number: int, question: Question, system: System, width: int) -> Iterator[str]:
    yield from hung(question.words, width, HANG, f"{number}")
    yield from hung(question.look, width, HANG)
    yield from hung(_taken(question.about, system), width, HANG)
    if question.also:
        yield from hung(f"The same line answers {', '.join(question.also)}.", width, HANG)
    for turn in question.turns[:SHOWN]:
        yield from hung(_turn(turn, question.about, system), width, HANG)
    if len(question.turns) > SHOWN:
        yield from hung(f"So with {len(question.turns) - SHOWN} more.", width, HANG)
    if question.turning is not None:
        which = "It turns" if len(question.turns) == 1 else "The first of them turns"
        yield from hung(f"{which} at about {measured(question.turning, question.about.unit, system)}.", width, HANG)
    if not question.turns:
        for move in question.moves:
            yield from hung(_moved(move, system), width, HANG)
    for end, why in zip((question.about.low, question.about.high), question.unbuildable, strict=True):
        if why:
            yield from hung(f"With {measured(end, question.about.unit, system)} it cannot be built: {why}", width, HANG)
    yield from hung(f"Mind: {question.caution}", width, HANG) if question.caution else ()
    yield from hung(f"{_place(question)}, and put what was found where a number stands:", width, HANG)
    yield from (f"{' ' * HANG}  {row}".rstrip() for row in question.line.splitlines())


def _taken(about: Open, system: System) -> str:
    if about.low is None or about.high is None:
        return "The brief does not say."
    span = f"between {measured(about.low, about.unit, system)} and {measured(about.high, about.unit, system)}"
    if about.value is None:
        return f"The brief does not say. It lies {span}: {about.why}."
    return f"Taken as {measured(about.value, about.unit, system)}, {span}: {about.why}."


def _turn(turn: Turn, about: Open, system: System) -> str:
    """What one verdict does: "Depth that the build-up needs: cannot be told. With 6 in it falls short, ..."."""
    now = f"{named(turn.as_taken, system)}: {SAID[turn.as_taken.verdict]} as briefed."
    ends = [
        f"with {_own(value, about, system)} it {SAID[at_end.verdict]}"
        for value, at_end in _ends(turn, about)
        if at_end.verdict != turn.as_taken.verdict
    ]
    if not ends:
        return f"{now} Any answer turns it."
    said = ", ".join(ends)
    return f"{now} {said[0].upper()}{said[1:]}."


def _ends(turn: Turn, about: Open) -> Iterable[tuple[float, Finding]]:
    for value, at_end in ((about.low, turn.at_low), (about.high, turn.at_high)):
        if value is not None and at_end is not None:
            yield value, at_end


def _own(value: float, about: Open, system: System) -> str:
    from ..measure import say

    return say.value(value, about.unit, system)


def _moved(move: Move, system: System) -> str:
    what, now, low, high = _heat(move)
    lowest, highest = (measured(value, move.unit, system) for value in (low, high))
    said = f"{what[0].upper()}{what[1:]} is {measured(now, move.unit, system)}"
    return f"{said}, whatever the answer." if lowest == highest else f"{said}, and lies between {lowest} and {highest}."


def _heat(move: Move) -> tuple[str, float, float, float]:
    """What moves, as taken, lowest and highest; a floor that takes heat in from the ground is told so."""
    values = [value for value in (move.as_taken, move.at_low, move.at_high) if value is not None]
    if move.unit == "W" and max(values) < 0.0:
        return "the heat taken in", -move.as_taken, -max(values), -min(values)
    return move.what, move.as_taken, min(values), max(values)


def _place(question: Question) -> str:
    if question.replaces:
        return f"Write in line {question.file_line}, in place of {question.replaces}"
    table = question.table
    if not table:
        return "Write at the end of the brief"
    if table.rpartition(".")[2].isdecimal():
        return f"Write beside what stands in {table}, line {question.file_line}"
    heading = f"[[edge]] of edge {table.removeprefix('edge.')}" if table.startswith("edge.") else f"[{table}]"
    return f"Write below {heading}, line {question.file_line}"
