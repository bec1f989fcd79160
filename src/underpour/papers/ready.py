"""Whether a submittal is ready to hand over: which part of it would be empty, and the key to type."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from ..mistakes import Mistake

if TYPE_CHECKING:
    from ..dossier import Dossier
    from .pictures import Pictures


@dataclass(frozen=True, slots=True)
class Gap:
    """A part that a submittal must have and this one has not."""

    key: str  # what to type
    words: str  # what is missing, a sentence without its capital
    example: str  # how it is typed

    def mistake(self, file: str) -> Mistake:
        return Mistake(
            self.key,
            "",
            f"Not ready to hand over: {self.words}.",
            f"Type {self.key}{' = ' if self.example else ''}{self.example}.",
            file=file,
        )


def gaps(dossier: Dossier, pictures: Pictures) -> tuple[Gap, ...]:
    """Everything that is missing, in the order of the paper; empty where it is ready."""
    given, briefed = dossier.handover, dossier.as_briefed
    laid_or_said = bool(briefed.products) or any("nothing is laid" in line.lower() for line in briefed.summary)
    asked = (
        (dossier.title, Gap("project.title", "the slab has no name", '"Boat workshop, north shore"')),
        (given.number, Gap("handover.number", "the paper has no number", '"26-0412"')),
        (given.to, Gap("handover.to", "nobody is named as the one who gets it", '"Building office, Maple County"')),
        (given.from_, Gap("handover.from", "nobody is named as the one who sends it", '"Technical desk"')),
        (given.prepared_by, Gap("handover.prepared-by", "nobody is named as the one who made it", '"A. Example"')),
        (
            given.references is not None,
            Gap("handover.references", "no drawing or specification is named", '["Drawing S-101"], or [] for none'),
        ),
        (laid_or_said, Gap("floor.build-up", "no product is laid, and the brief does not say so", "")),
        (briefed.findings, Gap("edge", "nothing was worked out", "")),
        (pictures.sections, Gap("edge", "no section is drawn", "")),
        (briefed.inspection, Gap("floor.build-up", "there is nothing to look at before the pour", "")),
        (dossier.cautions, Gap("project.use", "no caution is said", "")),
    )
    return tuple(gap for there, gap in asked if not there)
