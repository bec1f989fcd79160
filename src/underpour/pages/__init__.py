"""Web pages that stand alone, made from a finished dossier. They work nothing out and write no files."""

from .write import teaching_page

__all__ = ["teaching_page"]
