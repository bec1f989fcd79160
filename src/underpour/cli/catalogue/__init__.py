"""``underpour catalogue``: what can be named in a brief, product lines and their evidence."""

from __future__ import annotations

from collections.abc import Sequence
from importlib import import_module
from types import ModuleType

from ...mistakes import Mistake
from ..parsing import unknown_word
from ..told import Told

WORDS = {  # the module that answers each, and what it is for
    "list": ("lists", "what can be named in a brief, one line each"),
    "show": ("show", "every number of one entry, with its source; the label of a product"),
    "compare": ("compare", "products side by side, in the terminal, as PDF or CSV"),
    "thickness": ("thickness", "from a wanted R or U to the thinnest thickness made, and back"),
    "replace": ("replace", "which products can stand in the place of a board of a brief"),
    "validate": ("validate", "a product line held to its evidence"),
    "import": ("tables", "a product line from CSV or XLSX"),
    "export": ("tables", "a product line as CSV or XLSX"),
}
EXAMPLE = "underpour catalogue show plain-15"
HELP = """\
underpour catalogue WORD ...

What can be named in a brief, and product lines with the tests behind them.

{words}

  underpour catalogue WORD --help     what a word takes, with an example

A folder named catalogue beside a brief holds product lines of your own:
docs/products.md.

For example:

  underpour catalogue list boards
  underpour catalogue show plain-15
  underpour catalogue validate my-line.toml
"""


def help_of(words: Sequence[str]) -> str:
    """The help of the word that comes first; that of the whole command where none does."""
    if words and words[0] in WORDS:
        told: str = _answering(words[0]).HELP
        return told
    width = max(map(len, WORDS))
    return HELP.format(words="\n".join(f"  {word:{width}}  {what}" for word, (_, what) in WORDS.items()))


def told(words: Sequence[str]) -> Told:
    """What the word that comes first answers to those after it."""
    if not words:
        asks = f"Which word? One of {', '.join(WORDS)}."
        raise Mistake("underpour catalogue", "", asks, f"For example: {EXAMPLE}")
    word, after = words[0], words[1:]
    if word not in WORDS:
        wrong = "The catalogue does not know this word."
        raise unknown_word("underpour catalogue", word, WORDS, wrong, f"Its words: {', '.join(WORDS)}.")
    answering = _answering(word)
    found: Told = answering.told(after) if word not in ("import", "export") else getattr(answering, f"{word}ed")(after)
    return found


def _answering(word: str) -> ModuleType:
    return import_module(f".{WORDS[word][0]}", __name__)
