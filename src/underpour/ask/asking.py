"""Which open inputs would turn a verdict: the brief answered with the low and the high of each in turn."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from .. import __version__, catalogue
from ..brief import Reading
from ..catalogue import zones
from ..findings import Assumed, Finding, Verdict
from ..mistakes import Mistake
from ..resolve import zone_for
from ..trying import Named, Taken, as_taken, named
from .ends import End, at_end
from .questions import Asked, Move, Open, Question, Turn
from .wording import Wording, missing_input, row_of, wordings

MOST = 3  # questions at once: what a caller will answer on the telephone
Heat = tuple[tuple[str, str, str, Callable[[list[float]], float]], ...]
# Numbers of the heat that a question may move: id of the findings, their name, unit, and how all of them make one.
IN_A_ROOM: Heat = (
    ("heat.loss-mean", "the heat loss", "W", sum),
    ("heat.floor-coldest", "the coldest floor", "degC", min),
)
OUTDOORS: Heat = (("heat.ground-temperature", "the coldest ground under the slab", "degC", min),)


def asked(reading: Reading) -> Asked:
    """The missing or assumed inputs that would turn a verdict of the brief as briefed.

    Each open input is set to its plausible low and high, one at a time, all others as taken. Those that turn a
    verdict are asked: first what is missing of loads, since that can hurt somebody; then what makes most findings
    fall short, then what turns most findings, then what turns one with the smallest change, as a share of its range.
    Where that change lies is read off the margins as taken and at the end, as if they ran straight between: about
    right, and without solving again. A missing input without a range is asked as it is, for any answer turns it.
    Inputs that one line of the brief answers are one question. What is known once a product is chosen is named as
    open and not asked: a caller does not know it yet.

    Where none turns a verdict, the one that moves the heat loss most is asked, and the one that moves the coldest
    place of the floor most; of a slab outdoors the one that moves the coldest ground under it. Alternatives are not
    asked about.

    Raises
    ------
    Mistakes
        As ``answer`` does, with file and line.
    """
    return asked_of(reading, as_taken(reading))


def asked_of(reading: Reading, taken: Taken, on: Callable[[int, int], None] = lambda done, of: None) -> Asked:
    """The same for a brief that is answered already. ``on`` hears how many inputs of how many were tried."""
    resolved = taken.resolved
    inputs = left_open(taken)
    tried = []
    for n, each in enumerate(inputs):
        on(n, len(inputs))
        tried.append(_tried(taken, each))
    turning = sorted((question for question in tried if question.turns), key=decisive)
    on_the_telephone = [each for each in turning if not wordings()[each.about.row].when_ordered]
    chosen = together(on_the_telephone) if on_the_telephone else moving_most(tried)
    questions = [_written(reading, taken, each) for each in chosen[:MOST]]
    shown = {path for question in questions for path in (question.about.path, *question.also)}
    return Asked(
        title=resolved.title,
        use=catalogue.called(reading.brief.project.use),
        place=resolved.place,
        units=resolved.system,
        version=__version__,
        open=tuple(question.about for question in tried),
        questions=tuple(questions),
        further=tuple(question.about.path for question in turning if question.about.path not in shown),
    )


def left_open(taken: Taken) -> list[Open]:
    """Every input that is missing or assumed, what is missing first."""
    asked_for = (finding.missing for finding in (*taken.findings.values(), *taken.priced))
    assumed = {each.path for each in taken.resolved.assumed}  # of these a range is known, missing or not
    missing = dict.fromkeys(  # a record of the catalogue is no key of the brief
        path for path in asked_for if path and path not in assumed and not path.startswith("catalogue.")
    )
    return [
        *(missing_input(path, row_of(path, taken.resolved)) for path in missing),
        *(_assumed(each, row_of(each.path, taken.resolved)) for each in taken.resolved.assumed),
    ]


def _assumed(each: Assumed, row: str) -> Open:
    value, low, high = (None if isinstance(n, str) else n for n in (each.value, each.low, each.high))
    return Open(each.path, value, low, high, each.unit, each.why, row)


def _tried(taken: Taken, about: Open) -> Question:
    """What the input's low and high do; the words are still to come. An end that is what was taken is not tried."""
    low, high = (
        at_end(taken, about.path, value) if value is not None and value != about.value else None
        for value in (about.low, about.high)
    )
    turns = turned({**taken.findings, **named(taken.priced)}, about, low, high)
    needed, turning = first_turn(turns, about)
    return Question(
        about=about,
        also=(),
        words="",
        look="",
        caution="",
        turns=turns,
        turning=turning,
        needed=needed,
        moves=moves(OUTDOORS if taken.resolved.outdoors else IN_A_ROOM, taken.findings, low, high),
        unbuildable=(low.unbuildable if low else "", high.unbuildable if high else ""),
        table="",
        line="",
        file_line=0,
        replaces="",
    )


def turned(taken: Named, about: Open, low: End | None, high: End | None) -> tuple[Turn, ...]:
    """The findings whose verdict an answer turns, those that would fall short first."""
    turns = []
    for name, finding in taken.items():
        turn = Turn(finding, *(end.findings.get(name) if end else None for end in (low, high)))
        asked_as_it_is = about.low is None and finding.missing == about.path
        ends = [end.verdict for end in (turn.at_low, turn.at_high) if end is not None]
        if asked_as_it_is or any(_decides(finding.verdict, verdict) for verdict in ends):
            turns.append(turn)
    return tuple(sorted(turns, key=lambda turn: not turn.towards_short))


def _decides(now: Verdict, then: Verdict) -> bool:
    """Whether a verdict has turned; a number that is only stated or no longer applies decides nothing."""
    return now != then and not {now, then} <= {"stated", "does not apply"}


def first_turn(turns: Sequence[Turn], about: Open) -> tuple[float | None, float | None]:
    """The smallest change that turns a verdict, as a share of the range, and the value where that is.

    A missing input is turned by any answer: nought. The value is then the one between low and high where the verdicts
    part, if they do. Where a verdict has no margin the change is the whole way, and there is no value.
    """
    if not turns:
        return None, None
    if about.low is None or about.high is None:
        return 0.0, None
    if about.value is None:
        parting = [_crossing(t.at_low, t.at_high, about.low, about.high) for t in turns if t.at_low and t.at_high]
        return 0.0, next((value for value in parting if value is not None), None)
    changes = [
        (abs((value if value is not None else end) - about.value) / (about.high - about.low), value)
        for turn in turns
        for end, at_end in ((about.low, turn.at_low), (about.high, turn.at_high))
        if at_end is not None and at_end.verdict != turn.as_taken.verdict
        for value in [_crossing(turn.as_taken, at_end, about.value, end)]
    ]
    return min(changes, key=lambda change: change[0])


def _crossing(one: Finding, other: Finding, at_one: float, at_other: float) -> float | None:
    """The value between two at which the margin is nought; None where the verdict is the same or has no margin."""
    if one.verdict == other.verdict or one.margin is None or other.margin is None:
        return None
    return at_one + (at_other - at_one) * one.margin / (one.margin - other.margin)


def decisive(question: Question) -> tuple[bool, int, int, float]:
    """Sorts questions: first what a slab may fail under, then the most decisive."""
    carries = any(turn.as_taken.id.startswith("bearing.") for turn in question.turns) and question.about.value is None
    return (not carries, -question.towards_short, -len(question.turns), question.needed or 0.0)


def together(questions: Sequence[Question]) -> list[Question]:
    """Questions that one line of the brief answers as one, the more decisive speaking for both."""
    by_line: dict[str, Question] = {}
    for question in questions:
        place = wordings()[question.about.row].place(question.about.path)
        first = by_line.setdefault(place, question)
        if first is not question:
            by_line[place] = replace(first, also=(*first.also, question.about.path))
    return list(by_line.values())


def moving_most(questions: Sequence[Question]) -> list[Question]:
    """Where no verdict turns: for each number of the heat the input that moves it most, if any does."""
    chosen: list[Question] = []
    for n in range(max((len(question.moves) for question in questions), default=0)):
        most = max(questions, key=lambda question: question.moves[n].by)
        if most.moves[n].by > 0.0 and most not in chosen:
            chosen.append(most)
    return together(chosen)


def moves(heat: Heat, taken: Named, low: End | None, high: End | None) -> tuple[Move, ...]:
    """Those numbers of the heat that the brief as taken has, at the ends as well."""
    sets = (taken, low.findings if low else {}, high.findings if high else {})
    made = []
    for id, what, unit, over in heat:
        now, at_low, at_high = (over(values) if (values := _values(found, id)) else None for found in sets)
        if now is not None:
            made.append(Move(id, what, unit, now, at_low, at_high))
    return tuple(made)


def _values(found: Named, id: str) -> list[float]:
    return [finding.value for (name, _), finding in found.items() if name == id and finding.value is not None]


def _written(reading: Reading, taken: Taken, question: Question) -> Question:
    """The question with its words and with the line that answers it."""
    path = question.about.path
    found = _of_this_place(wordings()[question.about.row], question, taken)
    values = {each.path: each for each in left_open(taken)}
    edges = [str(turn.as_taken.at["edge"]) for turn in question.turns if "edge" in turn.as_taken.at]
    place = found.place(path)
    placed = _placed(reading, place)
    line = found.line(
        path,
        values,
        lambda beside: _placed(reading, beside).typed.strip('"'),
        edges,
        taken.resolved.system,
        _standing(reading, place),
    )
    unheaded = found.table(path) == "foam" and "foam" not in reading.brief.model_fields_set
    own = found.own_table or unheaded
    return replace(
        question,
        words=found.question,
        look=found.look,
        caution=found.caution,
        table="" if unheaded else found.table(path),
        line=f"[foam]\n{line}" if unheaded else line,
        file_line=0 if own else placed.line,
        replaces="" if own else placed.typed,
    )


def _of_this_place(wording: Wording, question: Question, taken: Taken) -> Wording:
    """The wording with the zone, the ZIP or the currency of this brief, in place of one from elsewhere."""
    path, site = question.about.path, taken.resolved.zone
    money = taken.resolved.money
    if wording.example is not None and path.startswith("money.") and money is not None:
        word = str(wording.example["word"]).replace("USD", money.currency)
        return replace(wording, example={**wording.example, "word": word})
    if wording.example is None or path not in ("site.zone", "site.zip"):
        return wording
    if path == "site.zip":
        word = site.nearest_zip()
    else:
        held = {edition.key: edition for edition in taken.resolved.held.editions}
        asking = [held[str(turn.as_taken.at["edition"])] for turn in question.turns if turn.as_taken.missing == path]
        told = [zone_for(site, edition) for edition in asking]
        offered = [zone for each in told if not each.typed for zone in each.candidates]
        canadian = any(edition.zones == "CA" for edition in asking)
        word = next(iter(offered), zones.first("CA") if canadian else "")
    return replace(wording, example={**wording.example, "word": word}) if word else wording


def _standing(reading: Reading, place: str) -> dict[str, str]:
    """What is typed already in a table that the line writes whole, by its key."""
    foam = reading.brief.foam
    tables = {
        "foam.water": foam.water,
        "foam.long-term-stress": foam.long_term_stress,
        "foam.modulus": foam.modulus,
        "foam.modulus-for-good": foam.modulus_for_good,
    }
    money = reading.brief.money
    if money is not None and place in ("money.price", "money.embodied"):
        return {key: each.typed for key, each in (money.price if place == "money.price" else money.embodied).items()}
    return {key: measure.typed for key, measure in tables.get(place, {}).items()}


def _placed(reading: Reading, path: str) -> Mistake:
    """Where a path stands in the brief, and what is typed there."""
    (placed,) = reading.placed([Mistake(path, "", "")])
    return placed
