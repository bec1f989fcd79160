"""What is told of one text of a brief: plain values, without what a solver keeps."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ...brief.typed import Typed
    from ...dossier import Answer, Dossier
    from ...drawings.floor_line import Span
    from ...drawings.scale import Scale
    from ...measure import System
    from ...mistakes import Mistake
    from ...resolve import Resolved

Name = tuple[str, tuple[tuple[str, str | float], ...]]  # a finding's id and instance


@dataclass(frozen=True)
class Unread:
    """A text that cannot be answered, and what is to be mended in it."""

    mistakes: tuple[Mistake, ...]


@dataclass(frozen=True)
class Told:
    """One text answered: wholly, or the one version that is looked at, moved from what was answered before."""

    text: str
    trees: Mapping[str, Typed]  # each version as typed, by its name
    system: System
    names: tuple[str, ...]  # of all versions, as briefed first
    resolved: Mapping[str, Resolved]  # by the version's name
    answers: tuple[Answer, ...]  # those that are drawn, in windows of the desk's
    scale: Scale
    spans: Mapping[str, Span]  # of the floor line, by the edge's letter
    unsure: frozenset[Name] = frozenset()  # findings whose verdict or number is still being worked out
    dossier: Dossier | None = None  # where everything is worked out

    def answer(self, name: str) -> Answer:
        """The version of that name, or the brief itself."""
        return next((answer for answer in self.answers if answer.name == name), self.answers[0])
