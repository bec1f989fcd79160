"""A starter's text with the title, the place or the units of this very job in it."""

from __future__ import annotations

import json
import re

from ..mistakes import Mistake


def filled(text: str, values: dict[str, str]) -> str:
    """The text with each key's value written in the place of the starter's own; comments and all else stay.

    Parameters
    ----------
    text : str
        A starter brief, in which each key stands once at the beginning of a line.
    values : dict of str to str
        By key, "title", "place" or "units", the words to write; whatever they hold, they stay one quoted string.

    Raises
    ------
    Mistake
        Words that no text file can hold.

    Examples
    --------
    >>> print(filled('title = "Garage"   # printed on every paper', {"title": 'The "Old" barn'}))
    title = "The \\"Old\\" barn"   # printed on every paper
    """
    for key, words in values.items():
        line = re.compile(rf'^({key}\s*=\s*)"[^"\n]*"', re.MULTILINE)
        found = line.search(text)
        if found is None:
            raise LookupError(f"the starter has no line for {key}")
        text = f"{text[: found.start()]}{found[1]}{quoted(words, key)}{text[found.end() :]}"
    return text


def quoted(words: str, key: str) -> str:
    """Words as a quoted string of TOML, on one line. Raises Mistake where UTF-8 cannot hold them."""
    try:
        words.encode("utf-8")
    except UnicodeEncodeError:
        raise Mistake(f"--{key}", "", "These letters are not text.", "Type them anew in UTF-8.") from None
    return json.dumps(words, ensure_ascii=False).replace("\x7f", "\\u007f")
