"""What the sheet shows of an answer, as plain data: texts ready to read, places on the sheet, nothing to work out."""

from .look import Look
from .sheet import sheet

__all__ = ["Look", "sheet"]
