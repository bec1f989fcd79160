"""Faults in the writing of a TOML file, told by line."""

from __future__ import annotations

import re
import tomllib
from typing import Any

from ..mistakes import Mistake

_QUOTES = "Words and measures stand in quotes."
_LISTS = "Each entry of a list but the last is followed by a comma; a list closes with ]."

# What the TOML reader says, what it means to the person who typed, and what to do about it.
_MEANING = (
    (
        "Cannot declare",
        "This heading stands twice.",
        "Put both parts under one heading, or write [{row}] for one of several.",
    ),
    ("Cannot overwrite a value", "This key stands twice.", "Keep one of the two."),
    ("Duplicate inline table key", "This key stands twice.", "Keep one of the two."),
    ("Cannot mutate immutable", "This adds to a table that is closed already.", "Write all of its keys in one place."),
    ("Cannot redefine", "This heading stands twice, once as [ ] and once as [[ ]].", "Keep one form."),
    ("Unclosed array", "This list is not closed.", _LISTS),
    (
        "Unclosed inline table",
        "This table is not closed.",
        "A table in a line stands between { and }, with commas between its keys.",
    ),
    ("Unterminated string", "The quotes that open here do not close.", 'Close them with another ".'),
    ("Unescaped '\\'", "A backslash in double quotes needs another beside it.", "Write \\\\, or use single quotes."),
    ("Illegal character", "The quotes that open here do not close on the same line.", 'Close them with another ".'),
    (
        "Expected '='",
        "There is no = after the key.",
        'A line reads: key = "words". A key with a space stands in quotes.',
    ),
    ("Expected ']]'", "This heading is not closed.", "A heading reads [site], one of several [[edge]]."),
    ("Expected ']'", "This heading is not closed.", "A heading reads [site], one of several [[edge]]."),
    ("Expected newline", "There is more on this line than one value.", f"{_QUOTES} Each key has its own line."),
    ("Invalid initial character for a key", "A key is wanted here.", 'A line reads: key = "words".'),
    (
        "Invalid statement",
        "This line is neither a heading nor a key.",
        'A heading reads [site]; a line reads place = "Duluth, MN".',
    ),
    ("Invalid value", "The value cannot be read.", _QUOTES),
)


def read_toml(text: str, file: str) -> dict[str, Any]:
    """The data of a TOML text.

    Raises
    ------
    Mistake
        The text is not TOML: with the line, and what to write there.
    """
    try:
        return tomllib.loads(text)
    except RecursionError:
        raise Mistake("", "", "Tables and lists stand too deep in each other.", "", file) from None
    except ValueError as fault:  # TOMLDecodeError, or a number with thousands of digits
        raise _told(str(fault), text, file) from None


def _told(fault: str, text: str, file: str) -> Mistake:
    rows = text.splitlines() or [""]
    stated = re.search(r"at line (\d+)", fault)
    line = int(stated[1]) if stated else len(rows)
    row = rows[line - 1].strip() if line <= len(rows) else ""
    if re.search("[“”„‟]", row.partition("#")[0]) and '"' not in row.partition("#")[0]:
        return Mistake(row, "", "The quotes on this line are curved.", 'Write straight ones: "', file, line)
    for beginning, wrong, instead in _MEANING:
        if fault.startswith(beginning):
            way_out = instead.replace("{row}", row.partition("#")[0].strip())
            return Mistake(row, "", wrong, _measure_in_quotes(row) or way_out, file, line)
    return Mistake(row, "", "This line cannot be read as TOML.", f'A line reads: key = "words". {_QUOTES}', file, line)


def _measure_in_quotes(row: str) -> str:
    """The row as it should stand where a word or measure lacks its quotes; "" where that is not the fault."""
    bare = re.fullmatch(r"([\w-]+)\s*=\s*([^\s\"'\[{#][^\"'\[{#]*?)\s*", row)
    return f'{_QUOTES} Write {bare[1]} = "{bare[2]}".' if bare else ""
