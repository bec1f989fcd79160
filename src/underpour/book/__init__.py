"""The book: every brief with every text that was saved, in one file. It knows texts and what they are listed by."""

from .opening import default_book, open_book
from .store import Book, BookShut, Faster, Heading, Kept, Line, Revision, Unknown

__all__ = [
    "Book",
    "BookShut",
    "Faster",
    "Heading",
    "Kept",
    "Line",
    "Revision",
    "Unknown",
    "default_book",
    "open_book",
]
