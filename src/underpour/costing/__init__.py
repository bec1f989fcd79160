"""What a slab costs at first and over its years, and the greenhouse gas of making and of heating it."""

from .columns import OnFloor, at_face, on_floor

__all__ = ["OnFloor", "at_face", "on_floor"]
