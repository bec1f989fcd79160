"""What somebody is looking at."""

from __future__ import annotations

from dataclasses import dataclass

from ...brief.alternatives import AS_BRIEFED
from ...drawings.scale import month_middle
from ...drawings.when import MONTHS


@dataclass(frozen=True, slots=True)
class Look:
    """Which version at which edge and when, and how broad the drawing is on the reader's page."""

    alternative: str = AS_BRIEFED
    edge: str = ""  # its letter or name; the first where there is none such
    month: int = 0  # 1 to 12; nought is the mean of the year
    lanes: bool = False  # whether the ways that heat takes are drawn
    against: str = ""  # the version that it is held against, where the difference is drawn
    wide: float = 250.0  # mm, at the size of letters that is read

    @property
    def year_fraction(self) -> float:
        return month_middle(self.month) if self.month else 0.0

    @property
    def when(self) -> str:
        return MONTHS[self.month - 1] if self.month else ""
