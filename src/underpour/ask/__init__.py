"""The few inputs that a brief leaves open and that would decide: what to ask the caller, and where to type it."""

from .asking import MOST, asked, asked_of
from .questions import Asked, Move, Open, Question, Turn

__all__ = ["MOST", "Asked", "Move", "Open", "Question", "Turn", "asked", "asked_of"]
