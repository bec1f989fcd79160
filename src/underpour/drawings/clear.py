"""Where letters may stand on the drawing: wholly in one ground or in air, off all that is taken."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ..sections.parts import Section
from .bodies import is_ground
from .paper import Box, Frame
from .visible import NOTHING, showing

THINNEST = 1.5  # mm, a body that words may not stand across: the leaf of a door
BORDER = 1.0  # mm that stay free along the drawing's border


def in_the_clear(section: Section, frame: Frame, box: Box, taken: Sequence[Box]) -> bool:
    """Whether the box lies in one ground or in air, inside the frame and off everything taken."""
    return is_free(frame, box, taken) and in_one_body(section, frame, box)


def is_free(frame: Frame, box: Box, taken: Sequence[Box]) -> bool:
    """Whether the box lies inside the frame and off everything taken."""
    return (
        frame.left + BORDER < box.left
        and box.right < frame.right - BORDER
        and frame.top + BORDER < box.top
        and box.bottom < frame.bottom - BORDER
        and not any(box.meets(other) for other in taken)
    )


def in_one_body(section: Section, frame: Frame, box: Box) -> bool:
    """Whether the box lies in one ground or in air."""
    across = max(6, 2 + int((box.right - box.left) / THINNEST))
    x, y = np.meshgrid(np.linspace(box.left, box.right, across), np.linspace(box.top, box.bottom, 3))
    shown = showing(section.parts, *frame.metres(x, y)).ravel()
    return bool((shown == shown[0]).all()) and (shown[0] == NOTHING or is_ground(section.parts[shown[0]]))
