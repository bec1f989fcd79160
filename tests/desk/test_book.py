"""The book: every saved text stays, who is slower changes nothing, older books are brought up, others are refused."""

import shutil
import sqlite3
import stat
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from datetime import timedelta

import pytest
from alembic import command
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory

import underpour.book.opening as opening
import underpour.book.store as store
from underpour.book import BookShut, Faster, Heading, Unknown, open_book
from underpour.book.tables import FORM, METADATA
from underpour.mistakes import Mistake

SHED = Heading("Shed", "Duluth, MN", "workshop")


@pytest.fixture
def book(tmp_path):
    opened = open_book(tmp_path / "desk.book")
    yield opened
    opened.close()


def test_every_saved_text_is_kept_letter_by_letter(book):
    texts = ["a = 1\r\n", "\ta = '2'  # ü\n\n", "", "\x00 no TOML \u2028"]
    number = book.begun(texts[0], SHED).line.number
    for version, text in enumerate(texts[1:], 1):
        book.saved(number, version, text, SHED)
    assert [book.text(number, version) for version in range(1, 5)] == texts
    assert [revision.version for revision in book.history(number)] == [4, 3, 2, 1]


def test_the_same_text_saved_again_is_no_revision(book):
    number = book.begun("a = 1", SHED).line.number
    assert book.saved(number, 1, "a = 1", SHED).line.version == 1
    assert len(book.history(number)) == 1


def test_what_one_sitting_saves_within_minutes_is_one_step_of_the_history(book, monkeypatch):
    number = book.begun("a = 0", SHED).line.number
    for version in range(1, 6):
        book.saved(number, version, f"a = {version}", SHED, "morning")
    assert [revision.version for revision in book.history(number)] == [6, 1]
    assert (book.text(number, 6), book.text(number, 1)) == ("a = 5", "a = 0")
    with pytest.raises(Faster):  # who began from a text that gave way is still told
        book.saved(number, 4, "a = 9", SHED, "another")
    monkeypatch.setattr(store, "STEP", timedelta(0))
    book.saved(number, 6, "a = 6", SHED, "morning")
    assert [revision.version for revision in book.history(number)] == [7, 6, 1]


@pytest.mark.parametrize("sitting", ["", "afternoon"])
def test_another_sitting_is_another_step(book, sitting):
    number = book.begun("a = 0", SHED).line.number
    book.saved(number, 1, "a = 1", SHED, "morning")
    book.saved(number, 2, "a = 2", SHED, sitting)
    assert [revision.version for revision in book.history(number)] == [3, 2, 1]


@pytest.mark.parametrize("act", ["seen", "copied"])
def test_a_text_that_somebody_has_seen_stays_in_the_history(book, act):
    number = book.begun("a = 0", SHED).line.number
    book.saved(number, 1, "a = 1", SHED, "morning")
    getattr(book, act)(number)
    book.saved(number, 2, "a = 2", SHED, "morning")
    assert [revision.version for revision in book.history(number)] == [3, 2, 1]
    assert book.text(number, 2) == "a = 1"


def test_who_is_slower_gets_the_other_text_and_changes_nothing(book):
    number = book.begun("a = 1", SHED).line.number
    book.saved(number, 1, "a = 2", Heading("Hers"))
    with pytest.raises(Faster) as told:
        book.saved(number, 1, "a = 3", Heading("His"))
    assert (told.value.theirs.text, told.value.theirs.line.version) == ("a = 2", 2)
    assert book.kept(number).text == "a = 2"
    assert book.kept(number).line.heading.title == "Hers"
    assert len(book.history(number)) == 2


def test_of_twenty_who_save_at_once_one_is_first(book):
    number = book.begun("a = 0", SHED).line.number

    def save(n: int) -> bool:
        try:
            book.saved(number, 1, f"a = {n + 1}", SHED)
        except Faster:
            return False
        return True

    with ThreadPoolExecutor(8) as threads:
        assert sum(threads.map(save, range(20))) == 1
    assert len(book.history(number)) == 2


def test_an_earlier_text_is_taken_up_and_nothing_between_is_lost(book):
    number = book.begun("a = 1", SHED).line.number
    book.saved(number, 1, "a = 2", SHED)
    kept = book.taken_back(number, 1, SHED)
    assert (kept.text, kept.line.version) == ("a = 1", 3)
    assert [(each.version, each.back_to) for each in book.history(number)] == [(3, 1), (2, None), (1, None)]
    assert book.taken_back(number, 2, SHED).text == "a = 2"
    with pytest.raises(Faster):
        book.taken_back(number, 1, SHED, version=3)


def test_a_copy_goes_its_own_way(book):
    number = book.begun("a = 1", SHED).line.number
    copy = book.copied(number).line
    assert (copy.copied_from, copy.heading, copy.version) == (number, SHED, 1)
    book.saved(copy.number, 1, "a = 2", SHED)
    assert book.kept(number).text == "a = 1"


def test_what_is_set_aside_is_out_of_the_list_and_comes_back(book):
    number = book.begun("a = 1", SHED).line.number
    book.put_aside(number)
    assert book.listed() == ()
    assert [line.number for line in book.listed(set_aside=True)] == [number]
    assert book.kept(number).text == "a = 1"
    book.put_aside(number, aside=False)
    assert [line.number for line in book.listed()] == [number]


@pytest.mark.parametrize(
    ("search", "found"),
    [
        ("", [3, 2, 1]), ("DULUTH", [1]), ("shed work", [1]), ("work shed", [1]), ("größe", [2]), ("GRÖSSE", [2]),
        ("%", [3]),
        ("_", []), ("100%", [3]), ("' OR 1=1 --", []), ("shed barn", []), ("minneapolis", []),
    ],
)  # fmt: skip
def test_every_word_of_a_search_stands_somewhere_in_the_heading(book, search, found):
    for heading in (SHED, Heading("Größe 3", "Wien", "barn"), Heading("100% foam", "Bern", "rink")):
        book.begun("a = 1", heading)
    assert [line.number for line in book.listed(search)] == found


def test_the_last_changed_stands_first(book):
    first, second = (book.begun("a = 1", SHED).line.number for _ in range(2))
    assert [line.number for line in book.listed()] == [second, first]
    book.saved(first, 1, "a = 2", SHED)
    assert [line.number for line in book.listed()] == [first, second]
    assert [line.number for line in book.listed(most=1)] == [first]


def test_a_number_that_is_in_no_book_is_told(book):
    number = book.begun("a = 1", SHED).line.number
    for ask in (
        lambda: book.kept(9), lambda: book.saved(9, 1, "", SHED), lambda: book.copied(9), lambda: book.history(9),
        lambda: book.put_aside(9), lambda: book.text(number, 2), lambda: book.taken_back(number, 7, SHED),
    ):  # fmt: skip
        with pytest.raises(Unknown):
            ask()
    assert len(book.history(number)) == 1


def test_a_book_that_another_program_holds_is_told_and_not_waited_for_without_end(tmp_path, monkeypatch):
    monkeypatch.setattr(opening, "PATIENCE", 0.1)
    book = open_book(tmp_path / "desk.book")
    number = book.begun("a = 1", SHED).line.number
    with closing(sqlite3.connect(tmp_path / "desk.book")) as other:
        other.execute("BEGIN EXCLUSIVE")
        with pytest.raises(BookShut, match="Another program holds the book"):
            book.saved(number, 1, "a = 2", SHED)
    assert book.kept(number).text == "a = 1"
    book.close()


# -- the file ------------------------------------------------------------------------------------------------------


def steps() -> Config:
    config = Config()
    config.set_main_option("script_location", str(opening.files("underpour.book") / "steps"))
    return config


def older(path, form: str) -> None:
    """A book as an earlier version left it."""
    engine = opening._engine(path)
    with engine.begin() as connection:
        config = steps()
        config.attributes["connection"] = connection
        command.upgrade(config, form)
    engine.dispose()
    with closing(sqlite3.connect(path)) as book, book:
        book.execute("INSERT INTO brief VALUES (4, 1, 'Größe', 'Wien', 'barn', '2026-11-25T10:00:00+00:00', 0, NULL)")
        book.execute("INSERT INTO revision VALUES (4, 1, 'a = 1', '2026-11-25T10:00:00+00:00', NULL)")


def test_an_older_book_is_brought_up_and_the_old_one_is_kept_beside(tmp_path):
    path = tmp_path / "desk.book"
    older(path, "1")
    before = path.read_bytes()
    book = open_book(path)
    assert [line.number for line in book.listed("GRÖSSE wien")] == [4]
    assert book.kept(4).text == "a = 1"
    assert book.begun("b = 1", SHED).line.number == 5
    book.close()
    assert (tmp_path / "desk.book.form-1").read_bytes() == before
    assert sorted(each.name for each in tmp_path.iterdir()) == ["desk.book", "desk.book.form-1"]


def test_a_book_that_cannot_be_brought_up_stays_as_it_is(tmp_path, monkeypatch):
    path = tmp_path / "desk.book"
    older(path, "1")
    before = path.read_bytes()

    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(shutil, "copyfile", full)
    with pytest.raises(Mistake, match="no space left on device"):
        open_book(path)
    assert path.read_bytes() == before
    assert [each.name for each in tmp_path.iterdir()] == ["desk.book"]


def test_the_steps_lead_to_the_tables_and_the_last_is_the_form(tmp_path):
    book = open_book(tmp_path / "desk.book")
    assert ScriptDirectory.from_config(steps()).get_current_head() == FORM
    with book._engine.connect() as connection:
        differing = compare_metadata(MigrationContext.configure(connection), METADATA)
    assert differing == []
    book.close()


def test_a_book_is_for_its_owner_alone_and_one_file(tmp_path):
    path = tmp_path / "desk.book"
    book = open_book(path)
    book.begun("a = 1", SHED)
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert [each.name for each in tmp_path.iterdir()] == ["desk.book"]
    shutil.copy(path, tmp_path / "copy.book")
    book.close()
    copy = open_book(tmp_path / "copy.book")
    assert copy.kept(1).text == "a = 1"
    copy.close()


def newer(path):
    open_book(path).close()
    with closing(sqlite3.connect(path)) as book, book:
        book.execute("UPDATE alembic_version SET version_num = '7'")


def foreign(path):
    with closing(sqlite3.connect(path)) as book, book:
        book.execute("CREATE TABLE song (name)")


def without_tables(path):
    with closing(sqlite3.connect(path)) as book, book:
        book.execute("CREATE TABLE alembic_version (version_num)")
        book.execute("INSERT INTO alembic_version VALUES ('2')")


REFUSED = [
    ("newer", newer, "kept by a newer version: its form is 7, and 3 is the newest known here."),
    ("text", lambda path: path.write_text("no book\n" * 200), "is not a book of the desk, or it is damaged"),
    ("cut short", lambda path: (open_book(path).close(), path.write_bytes(path.read_bytes()[:5000])), "is damaged"),
    ("foreign", foreign, "is not a book of the desk"),
    ("without tables", without_tables, "is not a book of the desk"),
    ("folder", lambda path: path.mkdir(), "That is a folder; a book is a file."),
]


@pytest.mark.parametrize(("_name", "make", "words"), REFUSED, ids=[name for name, *_ in REFUSED])
def test_what_is_no_book_of_ours_is_refused_in_words_and_stays_as_it_is(tmp_path, _name, make, words):
    path = tmp_path / "desk.book"
    make(path)
    before = path.read_bytes() if path.is_file() else None
    with pytest.raises(Mistake) as told:
        open_book(path)
    assert words in str(told.value)
    assert "desk.book" in str(told.value)
    assert told.value.instead
    assert (path.read_bytes() if path.is_file() else None) == before


def test_a_book_in_a_folder_that_is_not_there_is_refused(tmp_path):
    with pytest.raises(Mistake, match="There is no folder"):
        open_book(tmp_path / "none" / "desk.book")
    assert list(tmp_path.iterdir()) == []


def test_the_book_lies_in_the_users_own_folder_unless_somebody_says(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    path = opening.default_book()
    assert path.is_relative_to(tmp_path) or not path.as_posix().startswith("/home")
    if path.is_relative_to(tmp_path):
        open_book(path).close()
        assert stat.S_IMODE(path.parent.stat().st_mode) == 0o700
