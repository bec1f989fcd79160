"""Everything: each version solved as finely as an answer is, what did not change not again."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable
from dataclasses import replace

from ...answer import SolvedVersion, pictured, put_together, solved_versions
from ...ask import Asked, asked_of
from ...brief import reads
from ...dossier import Answer
from ...mistakes import Mistakes
from ...trying import taken
from .shared import Window, broad, scale_of, spans_of
from .told import Told, Unread

KEPT = 2  # texts whose solved sections are held: some tens of megabytes each


class Whole:
    """Solved sections by text. What it holds is made and freed in one thread, which alone may call it."""

    def __init__(self) -> None:
        self._kept: OrderedDict[str, list[SolvedVersion]] = OrderedDict()

    def told(self, text: str, late: Callable[[], bool]) -> Told | Unread | None:
        """The whole answer; None where ``late`` says, between two versions, that nobody waits for it any more."""
        try:
            reading = reads(text, alone=True)
            before = [edge for solved in reversed(self._kept.values()) for _, _, edges in solved for edge in edges]
            versions: list[SolvedVersion] = []
            for version in solved_versions(reading, before):
                versions.append(version)
                if late():
                    return None
            dossier = put_together(reading, versions)
        except Mistakes as mistakes:
            return Unread(tuple(mistakes))
        self._kept[text] = versions
        while len(self._kept) > KEPT:
            self._kept.popitem(last=False)
        windows = _windows(versions)
        answers = tuple(
            _broad(made, version, windows) for made, version in zip(dossier.alternatives, versions, strict=True)
        )
        return Told(
            text=text,
            trees={each: version.tree for each, version in reading.versions.items()},
            system=dossier.units,
            names=tuple(name for name, _, _ in versions),
            resolved={name: resolved for name, resolved, _ in versions},
            answers=answers,
            scale=scale_of(answers, dossier.units),
            spans=spans_of(answers, dossier.units),
            dossier=dossier,
        )

    def asked(self, text: str, on: Callable[[int, int], None]) -> Asked | Unread:
        """The few open inputs that would turn a verdict. What ``on`` raises, told how far it is, ends it."""
        if text not in self._kept:
            told = self.told(text, lambda: False)
            if isinstance(told, Unread):
                return told
        reading = reads(text, alone=True)
        _, resolved, edges = self._kept[text][0]
        try:
            return asked_of(reading, taken(reading, resolved, edges), on)
        except Mistakes as mistakes:
            return Unread(tuple(mistakes))


def _windows(versions: list[SolvedVersion]) -> dict[str, Window]:
    """One window for each edge that holds it in every version."""
    sections = [edge.section for _, _, edges in versions for edge in edges]
    held: dict[str, Window] = {}
    for section in sections:
        x0, x1, y0, y1 = section.window
        wide = held.get(section.edge, section.window)
        held[section.edge] = min(x0, wide[0]), max(x1, wide[1]), min(y0, wide[2]), max(y1, wide[3])
    return broad(held, sections)


def _broad(made: Answer, version: SolvedVersion, windows: dict[str, Window]) -> Answer:
    """What a dossier says, its sections in windows of the desk's."""
    drawn = pictured(*version, windows, ())
    return replace(made, sections=drawn.sections, fields=drawn.fields)
