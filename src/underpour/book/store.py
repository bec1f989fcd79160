"""What is kept of a brief: the text that stands, every text that stood before, and what it is listed by."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING, Any

from sqlalchemy import delete, insert, select, update
from sqlalchemy.exc import OperationalError

from ..mistakes import Mistake
from .tables import BRIEFS, REVISIONS

if TYPE_CHECKING:
    from sqlalchemy import Connection, Engine, Row

STEP = timedelta(minutes=10)  # what one sitting saves within it stands in the history once
LISTED = 200  # lines that are shown at once; a search finds the others


@dataclass(frozen=True, slots=True)
class Heading:
    """What a brief is listed and found by."""

    title: str = ""
    place: str = ""
    use: str = ""

    @property
    def searched(self) -> str:
        """The words that a search looks through, with their letters folded."""
        return f"{self.title}\n{self.place}\n{self.use}".casefold()


@dataclass(frozen=True, slots=True)
class Line:
    """A brief as a line of the list."""

    number: int
    version: int
    heading: Heading
    changed: datetime  # UTC
    set_aside: bool
    copied_from: int | None


@dataclass(frozen=True, slots=True)
class Kept:
    """A brief with the text that stands."""

    line: Line
    text: str


@dataclass(frozen=True, slots=True)
class Revision:
    """One saved text of a brief, without the text."""

    version: int
    saved: datetime  # UTC
    back_to: int | None  # the revision whose text was taken up again


class Unknown(LookupError):
    """No brief, or no revision of it, has this number."""


class Faster(Exception):
    """Somebody saved while one typed; nothing was changed."""

    def __init__(self, theirs: Kept) -> None:
        super().__init__(f"brief {theirs.line.number} stands at revision {theirs.line.version}")
        self.theirs = theirs


class BookShut(Mistake):
    """The book cannot be written at this moment: another program holds it, or the disk is full."""


class Book:
    """The briefs of one file. Every method is one transaction: done, or as if it had not begun."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def close(self) -> None:
        self._engine.dispose()

    def listed(self, search: str = "", *, set_aside: bool = False, most: int = LISTED) -> tuple[Line, ...]:
        """The briefs, last changed first.

        Parameters
        ----------
        search : str
            Words that all stand in title, place or use, in any order and either case.
        set_aside : bool
            Those that were set aside, in the place of the others.
        most : int
            How many at most.
        """
        wanted = select(BRIEFS).where(BRIEFS.c.set_aside == set_aside)
        for word in search.casefold().split():
            wanted = wanted.where(BRIEFS.c.searched.contains(word, autoescape=True))
        wanted = wanted.order_by(BRIEFS.c.changed.desc(), BRIEFS.c.number.desc()).limit(most)
        with self._reading() as book:
            return tuple(map(_line, book.execute(wanted)))

    def kept(self, number: int) -> Kept:
        """The brief with the text that stands. Raises Unknown."""
        with self._reading() as book:
            return _kept(book, number)

    def begun(self, text: str, heading: Heading) -> Kept:
        """A new brief with this text as its first revision."""
        with self._writing() as book:
            return _begun(book, text, heading, None)

    def copied(self, number: int) -> Kept:
        """A new brief with the text of another. Raises Unknown."""
        self.seen(number)
        with self._writing() as book:
            other = _kept(book, number)
            return _begun(book, other.text, other.line.heading, number)

    def saved(self, number: int, version: int, text: str, heading: Heading, sitting: str = "") -> Kept:
        """The brief with a further revision; as it stands where the text is the one that stands.

        A revision of the same sitting that is a few minutes old gives way to it, unless ``seen`` was told of it: a page
        saves at every pause, and a history of pauses tells nobody anything. Numbers go on counting.

        Parameters
        ----------
        number : int
            Which brief.
        version : int
            The revision that the change began from.
        text : str
            The whole text, kept letter by letter.
        heading : Heading
            What it is listed by from now on.
        sitting : str
            A word of the page's own, the same as long as somebody sits before it; "" where every text is a step.

        Raises
        ------
        Unknown
            There is no such brief.
        Faster
            Another revision stands by now. Nothing is changed.
        """
        with self._writing() as book:
            return _saved(book, number, version, text, heading, sitting=sitting)

    def taken_back(self, number: int, to: int, heading: Heading, version: int | None = None) -> Kept:
        """The brief with the text of an earlier revision as its newest; what lies between stays in the history.

        Raises Unknown, and Faster where ``version`` is given and no longer stands.
        """
        with self._writing() as book:
            text = _text(book, number, to)
            began = _kept(book, number).line.version if version is None else version
            return _saved(book, number, began, text, heading, back_to=to)

    def seen(self, number: int) -> None:
        """The text that stands was opened, copied or taken out: from now on it stays in the history."""
        its = (REVISIONS.c.brief == number) & REVISIONS.c.sitting.is_not(None)
        with self._reading() as book:
            if book.execute(select(REVISIONS.c.version).where(its)).first() is None:
                return
        with self._writing() as book:
            book.execute(update(REVISIONS).where(its).values(sitting=None))

    def put_aside(self, number: int, aside: bool = True) -> Line:
        """The brief set aside, or taken up again; nothing of it is lost. Raises Unknown."""
        with self._writing() as book:
            book.execute(update(BRIEFS).where(BRIEFS.c.number == number).values(set_aside=aside))
            return _kept(book, number).line

    def history(self, number: int) -> tuple[Revision, ...]:
        """Every revision, newest first. Raises Unknown."""
        columns = (REVISIONS.c.version, REVISIONS.c.saved, REVISIONS.c.back_to)
        wanted = select(*columns).where(REVISIONS.c.brief == number).order_by(REVISIONS.c.version.desc())
        with self._reading() as book:
            found = book.execute(wanted).all()
        if not found:
            raise Unknown(number)
        return tuple(Revision(row.version, datetime.fromisoformat(row.saved), row.back_to) for row in found)

    def text(self, number: int, version: int) -> str:
        """The text of one revision. Raises Unknown."""
        with self._reading() as book:
            return _text(book, number, version)

    @contextmanager
    def _reading(self) -> Iterator[Connection]:
        with _told(), self._engine.connect() as book:
            yield book

    @contextmanager
    def _writing(self) -> Iterator[Connection]:
        with _told(), self._engine.connect() as book:
            # Taken before anything is read, so that what is read still stands when it is written.
            book.exec_driver_sql("BEGIN IMMEDIATE")
            try:
                yield book
            except BaseException:
                book.rollback()
                raise
            book.commit()


@contextmanager
def _told() -> Iterator[None]:
    """What the file refuses, in words."""
    try:
        yield
    except OperationalError as cause:
        said = str(cause.orig)
        if "locked" in said:
            wrong, instead = "Another program holds the book.", "Nothing was changed. Try again in a moment."
        elif "full" in said:
            wrong, instead = "The disk is full.", "Nothing was changed. Make room, then save again."
        else:
            wrong, instead = "The book cannot be written.", "Nothing was changed. See that its file and disk are there."
        raise BookShut("", "", wrong, instead) from cause


def _now() -> str:
    return datetime.now(UTC).isoformat(timespec="microseconds")


def _line(row: Row[Any]) -> Line:
    return Line(
        row.number,
        row.version,
        Heading(row.title, row.place, row.use),
        datetime.fromisoformat(row.changed),
        row.set_aside,
        row.copied_from,
    )


def _kept(book: Connection, number: int) -> Kept:
    stands = (REVISIONS.c.brief == BRIEFS.c.number) & (REVISIONS.c.version == BRIEFS.c.version)
    wanted = select(BRIEFS, REVISIONS.c.text).join_from(BRIEFS, REVISIONS, stands).where(BRIEFS.c.number == number)
    row = book.execute(wanted).one_or_none()
    if row is None:
        raise Unknown(number)
    return Kept(_line(row), row.text)


def _text(book: Connection, number: int, version: int) -> str:
    wanted = select(REVISIONS.c.text).where(REVISIONS.c.brief == number, REVISIONS.c.version == version)
    text: str | None = book.execute(wanted).scalar_one_or_none()
    if text is None:
        raise Unknown(number, version)
    return text


def _listed_by(heading: Heading) -> dict[str, str]:
    return {
        "title": heading.title,
        "place": heading.place,
        "use": heading.use,
        "searched": heading.searched,
    }


def _begun(book: Connection, text: str, heading: Heading, copied_from: int | None) -> Kept:
    now = _now()
    row = {"version": 1, "changed": now, "set_aside": False, "copied_from": copied_from, **_listed_by(heading)}
    number = book.execute(insert(BRIEFS).values(row).returning(BRIEFS.c.number)).scalar_one()
    book.execute(insert(REVISIONS).values(brief=number, version=1, text=text, saved=now))
    return _kept(book, number)


def _saved(
    book: Connection,
    number: int,
    version: int,
    text: str,
    heading: Heading,
    *,
    back_to: int | None = None,
    sitting: str = "",
) -> Kept:
    stands = _kept(book, number)
    if stands.text == text:  # a second press, or two who typed the same
        return stands
    if stands.line.version != version:
        raise Faster(stands)
    now, new = _now(), version + 1
    since = _gives_way(book, number, version, sitting, now) if sitting else None
    row = {"version": new, "changed": now, **_listed_by(heading)}
    book.execute(update(BRIEFS).where(BRIEFS.c.number == number).values(row))
    further = {"brief": number, "version": new, "text": text, "saved": now, "back_to": back_to}
    of_sitting = {"sitting": sitting, "since": since or now} if sitting else {}
    book.execute(insert(REVISIONS).values(**further, **of_sitting))
    return _kept(book, number)


def _gives_way(book: Connection, number: int, version: int, sitting: str, now: str) -> str | None:
    """Takes out the revision that stands where the same sitting goes on with it; since when that step runs."""
    its = (REVISIONS.c.brief == number) & (REVISIONS.c.version == version)
    since: str | None = book.execute(
        select(REVISIONS.c.since).where(its & (REVISIONS.c.sitting == sitting))
    ).scalar_one_or_none()
    if since is None or datetime.fromisoformat(now) - datetime.fromisoformat(since) >= STEP:
        return None
    book.execute(delete(REVISIONS).where(its))
    return since
