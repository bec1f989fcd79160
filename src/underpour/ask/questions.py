"""What asking hands on: questions, each with what its answer would turn and the line to type."""

from __future__ import annotations

from dataclasses import dataclass

from ..findings import Finding
from ..measure import System


@dataclass(frozen=True, slots=True)
class Open:
    """An input that the brief leaves open, and the range in which it plausibly lies."""

    path: str  # "floor.humidity"
    value: float | None  # what is taken meanwhile; None where it is missing
    low: float | None  # None where no range is known: the input is missing and cannot be tried
    high: float | None
    unit: str
    why: str
    row: str  # its row of questions.toml: "edge.footing.width"

    @property
    def middle(self) -> float:
        """What is taken, or the middle of the range where it is missing; NaN where nothing is known of it."""
        if self.value is not None:
            return self.value
        return (self.low + self.high) / 2.0 if self.low is not None and self.high is not None else float("nan")


@dataclass(frozen=True, slots=True)
class Turn:
    """A finding whose verdict an answer turns. An end that was not tried, or cannot be built, is None."""

    as_taken: Finding
    at_low: Finding | None
    at_high: Finding | None

    @property
    def towards_short(self) -> bool:
        """Whether what does not fall short now would fall short."""
        ends = [end.verdict for end in (self.at_low, self.at_high) if end is not None]
        return self.as_taken.verdict != "falls short" and "falls short" in ends


@dataclass(frozen=True, slots=True)
class Move:
    """How far an answer moves one number of the heat; None at an end that was not tried."""

    id: str  # of the findings that it sums up
    what: str  # "the heat loss"
    unit: str
    as_taken: float
    at_low: float | None
    at_high: float | None

    @property
    def by(self) -> float:
        """The larger of the two changes; nought where no end was tried."""
        return max((abs(end - self.as_taken) for end in (self.at_low, self.at_high) if end is not None), default=0.0)


@dataclass(frozen=True, slots=True)
class Question:
    """One thing to ask, and what hangs on it."""

    about: Open
    also: tuple[str, ...]  # paths of further open inputs that the same line answers
    words: str  # "How moist is the room's air in winter?"
    look: str  # what to look for on site, and where to find it
    caution: str  # printed beside it; "" where looking hurts nobody
    turns: tuple[Turn, ...]
    turning: float | None  # about where the first verdict turns, in the unit of ``about``; None where nothing does
    needed: float | None  # how far that is from what is taken, as a share of the range; 0 where any answer turns it
    moves: tuple[Move, ...]
    unbuildable: tuple[str, str]  # why the brief cannot be built with the low, with the high; "" where it can
    table: str  # "floor", "edge.A"
    line: str  # 'humidity = "50 %"'
    file_line: int  # where the table, or the line to be replaced, stands in the brief
    replaces: str  # what is typed at that key now: '"sand-or-gravel"'; "" where nothing is

    @property
    def towards_short(self) -> int:
        """How many findings would fall short that do not now."""
        return sum(turn.towards_short for turn in self.turns)


@dataclass(frozen=True)
class Asked:
    """What to ask about one brief."""

    title: str
    use: str
    place: str
    units: System
    version: str
    open: tuple[Open, ...]  # everything that the brief leaves open, in the order of answering
    questions: tuple[Question, ...]  # most decisive first
    further: tuple[str, ...]  # paths of open inputs that would turn a verdict too, but are not asked now

    @property
    def decides(self) -> bool:
        """Whether any question turns a verdict."""
        return any(question.turns for question in self.questions)

    @property
    def idle(self) -> tuple[str, ...]:
        """Paths of open inputs that turn no verdict and are not asked."""
        told = {path for q in self.questions for path in (q.about.path, *q.also)} | set(self.further)
        return tuple(each.path for each in self.open if each.path not in told)
