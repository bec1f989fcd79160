"""From the path of a brief to its dossier."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ..dossier import Dossier


def answered(path: str) -> Dossier:
    """The brief at ``path``, read and answered; one that cannot be used is refused before anything heavy is loaded."""
    from ..brief import read

    reading = read(path)

    from ..sections.buildable import buildable

    buildable(reading)
    from ..answer import answer

    return answer(reading)
