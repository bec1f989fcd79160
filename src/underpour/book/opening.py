"""A book opened: made where there is none, brought up where it is older, refused in words where it is none of ours."""

from __future__ import annotations

import os
import shutil
import sqlite3
from contextlib import closing
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING

from sqlalchemy import create_engine, event

from ..mistakes import Mistake
from .store import Book
from .tables import FORM

if TYPE_CHECKING:
    from sqlalchemy import Engine
    from sqlalchemy.pool import ConnectionPoolEntry

PATIENCE = 5.0  # s to wait while another program writes in the book


def default_book() -> Path:
    """Where the book lies unless somebody says: in the user's own folder for data."""
    from platformdirs import user_data_path

    return user_data_path("underpour", appauthor=False) / "desk.book"


def open_book(path: Path) -> Book:
    """The book in a file.

    Parameters
    ----------
    path : Path
        The file. Where there is none it is made, for its owner's eyes only; its folder has to stand, but for the
        default one.

    Raises
    ------
    Mistake
        It cannot be read or written, is no book, or was kept by a newer version than this one.
    """
    if path == default_book():
        path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    _may_be_opened(path)
    form = _form(path)
    if form is None:
        _in_one_stroke(path, None)
    elif not form.isdecimal() or int(form) > int(FORM):
        wrong = f"This book was kept by a newer version: its form is {form}, and {FORM} is the newest known here."
        raise _about(path, wrong, "Open it with that version, or name another book with --book. It stays as it is.")
    elif form != FORM:
        _in_one_stroke(path, form)
    return Book(_engine(path))


def _may_be_opened(path: Path) -> None:
    if path.is_dir():
        raise _about(path, "That is a folder; a book is a file.", f"Write a name in it: {path / 'desk.book'}")
    if not path.parent.is_dir():
        raise _about(path, f"There is no folder {path.parent}.", "Make it first, or name another book with --book.")
    if path.exists() and not path.is_file():
        raise _about(path, "That is not an ordinary file.", "Name another book with --book.")
    here = path if path.exists() else path.parent
    if not os.access(here, os.R_OK | os.W_OK) or not os.access(path.parent, os.W_OK):
        wrong = "It may not be read and written here."
        raise _about(path, wrong, "Name another book with --book, or ask whose it is.")


def _form(path: Path) -> str | None:
    """Which step the book stands at; None where there is no book yet."""
    if not path.exists() or path.stat().st_size == 0:
        return None
    try:
        with closing(sqlite3.connect(path, timeout=PATIENCE)) as opened:
            found = opened.execute("SELECT version_num FROM alembic_version").fetchall()
            tables = {name for (name,) in opened.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
    except sqlite3.OperationalError as cause:
        if "locked" in str(cause):
            raise _about(path, "Another program holds this book.", "Try again when it is done.") from None
        raise _no_book(path) from None
    except sqlite3.DatabaseError:
        raise _no_book(path) from None
    if len(found) != 1 or not {"brief", "revision"} <= tables:
        raise _no_book(path)
    return str(found[0][0])


def _no_book(path: Path) -> Mistake:
    wrong = "This file is not a book of the desk, or it is damaged. It stays as it is."
    return _about(path, wrong, "Name another with --book, or put back the copy that you keep of it.")


def _in_one_stroke(path: Path, form: str | None) -> None:
    """The book in its newest form: brought up beside its place, then put there; an older one is kept under its form."""
    beside = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        os.close(os.open(beside, os.O_CREAT | os.O_WRONLY, 0o600))
        if form is not None:
            shutil.copyfile(path, beside)
            shutil.copymode(path, beside)
        _brought_up(beside)
        if form is not None:
            shutil.copy2(path, path.with_name(f"{path.name}.form-{form}"))
        beside.replace(path)
    except OSError as cause:
        wrong = f"The book could not be written: {(cause.strerror or str(cause)).lower()}. It stands as it stood."
        raise _about(path, wrong, "Make room beside it, or name another book with --book.") from None
    finally:
        beside.unlink(missing_ok=True)


def _brought_up(path: Path) -> None:
    """Every step that the book in this file has not taken yet."""
    from alembic import command
    from alembic.config import Config

    steps = Config()
    steps.set_main_option("script_location", str(files(__package__) / "steps").replace("%", "%%"))
    engine = _engine(path)
    try:
        with engine.begin() as connection:
            steps.attributes["connection"] = connection
            command.upgrade(steps, FORM)
    finally:
        engine.dispose()


def _engine(path: Path) -> Engine:
    from sqlalchemy import URL

    engine = create_engine(URL.create("sqlite", database=str(path)), connect_args={"timeout": PATIENCE})

    @event.listens_for(engine, "connect")
    def careful(connection: sqlite3.Connection, _entry: ConnectionPoolEntry) -> None:
        """One file, so that a copy is whole; what is saved is on the disk before we say so."""
        connection.execute("PRAGMA journal_mode = DELETE")
        connection.execute("PRAGMA synchronous = FULL")
        connection.execute("PRAGMA foreign_keys = ON")

    return engine


def _about(path: Path, wrong: str, instead: str) -> Mistake:
    return Mistake("", "", wrong, instead, str(path))
