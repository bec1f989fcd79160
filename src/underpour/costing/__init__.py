"""What a slab costs at first and over its years, and the greenhouse gas of making and of heating it."""

from .columns import OnFloor, at_face, on_floor
from .costed import costed, life
from .records import Costed
from .told import findings

__all__ = ["Costed", "OnFloor", "at_face", "costed", "findings", "life", "on_floor"]
