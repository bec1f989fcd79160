"""Words that stay off screens, messages and papers."""

import ast
import re
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
OURS = ROOT / "src" / "underpour"
LIST = tomllib.loads((Path(__file__).parent / "told" / "words-that-stay-off.toml").read_text(encoding="utf-8"))

WORD = re.compile(
    rf"\b(?:(?i:{'|'.join(map(re.escape, LIST['words'] + LIST['phrases']))})|{'|'.join(LIST['exactly'])})\b"
)
TRADE = re.compile("|".join(map(re.escape, LIST["trade"] + LIST["heard"])), re.I)
STATE = re.compile("[A-Z]{2}")  # OK is Oklahoma there
EXCLAIMED = re.compile(r"[A-Za-z]!(?=\s|$)")

# Kernels speak to engineers and their messages never reach a page as they are.
SPEAKS_TO_USERS = sorted(path for path in OURS.rglob("*.py") if "physics" not in path.relative_to(OURS).parts)
TABLES = sorted(OURS.rglob("*.toml")) + sorted((ROOT / "examples").rglob("*.toml"))
PAGES = [ROOT / "README.md", ROOT / "GLOSSARY.md", *sorted((ROOT / "docs").glob("*.md"))]
PAGES = [
    page
    for page in PAGES + sorted((ROOT / "examples").rglob("*.md")) + sorted(OURS.rglob("*.typ"))
    if page.exists() and page.name != "architecture.md"  # written for those who build it
]


def wrong_words(text: str) -> list[str]:
    """Words of a text that stay off, and words with an exclamation mark."""
    plain = TRADE.sub(" ", text)
    return WORD.findall(plain) + EXCLAIMED.findall(plain)


def sentences(path: Path) -> Iterator[tuple[int, str]]:
    """String literals of a file that may be read by a user, with their line.

    Docstrings are for readers of the code; a literal without a space is a key, a name or a format's own word.
    """
    tree = ast.parse(path.read_text(encoding="utf-8"))
    docstrings = {
        id(node.body[0].value)
        for node in ast.walk(tree)
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef)
        and node.body
        and isinstance(node.body[0], ast.Expr)
    }
    for node in ast.walk(tree):
        said = isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in docstrings
        if said and (" " in node.value.strip() or node.value[:1].isupper()):
            yield node.lineno, node.value


def read_aloud(table: object) -> Iterator[str]:
    """Every text of a data file, but for words that users type and we only listen for."""
    if isinstance(table, dict):
        for key, inner in table.items():
            yield from read_aloud(key)
            yield from read_aloud(inner if key not in ("also", "aliases") else "")
    elif isinstance(table, list):
        for inner in table:
            yield from read_aloud(inner)
    elif isinstance(table, str) and not STATE.fullmatch(table):
        yield table


def without_code(page: str) -> str:
    """A page without its code: commands and file contents keep the words they have."""
    page = re.sub(r"^(```|~~~).*?^\1", "", page, flags=re.M | re.S)
    page = re.sub(r"^(?: {4}|\t).*$", "", page, flags=re.M)
    return re.sub(r"`[^`]*`", "", page)


def typst_words(page: str) -> str:
    """Text of a page style: what stands in quotes or brackets, without comments and commands."""
    page = re.sub(r"//.*", "", page)
    return " ".join(words for words in re.findall(r'"([^"]*)"|\[([^\]]*)\]', page) for words in words if " " in words)


@pytest.mark.parametrize("path", SPEAKS_TO_USERS, ids=lambda path: str(path.relative_to(OURS)))
def test_messages_speak_as_an_adviser_does(path):
    found = [f"line {line}: {words}" for line, text in sentences(path) if (words := wrong_words(text))]
    assert not found, "\n".join(found)


@pytest.mark.parametrize("path", TABLES, ids=lambda path: str(path.relative_to(ROOT)))
def test_tables_that_users_read_speak_so_too(path):
    texts = read_aloud(tomllib.loads(path.read_text(encoding="utf-8")))
    found = [f"{text[:60]}: {words}" for text in texts if (words := wrong_words(text))]
    assert not found, "\n".join(found)


@pytest.mark.parametrize("page", PAGES, ids=lambda page: str(page.relative_to(ROOT)))
def test_pages_speak_so_too(page):
    text = page.read_text(encoding="utf-8")
    assert not wrong_words(typst_words(text) if page.suffix == ".typ" else without_code(text))


def test_the_list_is_heard():
    assert wrong_words("The solver failed. OK!") == ["solver", "failed", "OK", "K!"]
    assert wrong_words("Side 2 runs from corner 2 to corner 3; ask the electrician.") == []
