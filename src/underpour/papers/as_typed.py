"""The brief as it is printed: every typed value, without the comments."""

from __future__ import annotations

import re
import tomllib

LEFT_OUT = "Every value that was typed stands here. Comments, which begin with #, are left out."
TEXT_OR_COMMENT = re.compile(
    r"""
    (?P<text> "{3}(?:[^\\]|\\.)*?"{3,5} | '{3}.*?'{3,5} | "(?:[^"\\\n]|\\.)*" | '[^'\n]*' )
    | (?P<space> [ \t]* ) \#[^\n]*
    """,
    re.VERBOSE | re.DOTALL,
)
HERE = "\0"  # stands where a comment stood; no TOML holds it


def as_typed(brief: str) -> dict[str, str]:
    """The words to print and, where comments were left out of them, a line that says so.

    Examples
    --------
    >>> as_typed('use = "a # b"  # more')["words"]
    'use = "a # b"'
    """
    marked = TEXT_OR_COMMENT.sub(lambda found: found["text"] or HERE, brief.replace("\r\n", "\n"))
    bare = "\n".join(line.replace(HERE, "") for line in marked.split("\n") if line.strip() != HERE)
    bare = re.sub(r"\n{3,}", "\n\n", bare).strip("\n")
    said = _read(bare)
    if HERE not in marked or said is None or said != _read(brief):
        return {"words": brief.rstrip(), "note": ""}
    return {"words": bare, "note": LEFT_OUT}


def _read(brief: str) -> object:
    """What the text says; None where it is no TOML."""
    try:
        return tomllib.loads(brief)
    except tomllib.TOMLDecodeError:
        return None
