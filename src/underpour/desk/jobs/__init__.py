"""Papers made in the background: each in a process of its own, so that the page stays quick and stopping stops."""

from .bench import Bench, Busy, Gone, Work
from .orders import Order

__all__ = ["Bench", "Busy", "Gone", "Order", "Work"]
