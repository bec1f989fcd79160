"""Answering while somebody types: at once what moves, then everything."""

from .answering import Answering
from .told import Told, Unread

__all__ = ["Answering", "Told", "Unread"]
