"""From the path of a brief to its dossier."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ..brief import Reading
    from ..dossier import Dossier


def readable(path: str) -> Reading:
    """The brief at ``path``; one that cannot be used is refused before anything heavy is loaded."""
    from ..brief import read

    reading = read(path)

    from ..sections.buildable import buildable

    buildable(reading)
    return reading


def answered(path: str, hour: str = "") -> Dossier:
    """The brief at ``path``, read and answered; with the temperatures of an hour where one is asked for."""
    reading = readable(path)

    from ..answer import answer

    return answer(reading, hour)
