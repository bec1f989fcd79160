"""The command ``underpour``: reads words, hands on words, works nothing out."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from importlib import import_module

from .told import Told

COMMANDS = {
    "new": "a starter brief, by what the slab is for",
    "ask": "the few answers that would turn a verdict, and where to type them",
    "answer": "what holds and what falls short for one slab",
    "compare": "the alternatives of a brief side by side, with a picture",
    "choose": "which foam to take, ranked, with the reason for each refusal",
    "takeoff": "what to order: panels by a plan, film, gravel, concrete, prices",
    "submittal": "a PDF to hand over",
    "datasheet": "the data sheet of a product, from its record",
    "guide": "how a product is stored, laid and looked at, from its record",
    "desk": "a page on this machine: a slab drawn and answered while you type",
    "catalogue": "boards, grounds and materials, with the source of every number",
}

HELP = """\
underpour: which foam belongs under a concrete slab, with its working.

  underpour COMMAND ...

{commands}

  underpour COMMAND --help     what the command takes, with an example
  underpour --version

Begin with a brief, one file that says where the slab is and what is under it:

  underpour new garage
  underpour answer garage.toml

It ends with 0 when nothing falls short, 1 when something does, 2 when a file
cannot be used (the words say where and why), and 3 when the fault is ours.
"""


def main(argv: Sequence[str] | None = None) -> int:
    """Do what the words ask, print what is told, and hand back the exit status.

    Parameters
    ----------
    argv : sequence of str, optional
        The words after the command's name; those of the process where none are given.

    Returns
    -------
    int
        0 nothing falls short, 1 something does, 2 the brief, catalogue or output cannot be used, 3 our fault,
        130 stopped from the keyboard.
    """
    from .printing import hand_out, hand_out_aside

    for library in ("OPENBLAS", "OMP", "MKL"):  # small sparse solves: a second thread only waits for the first
        os.environ.setdefault(f"{library}_NUM_THREADS", "1")
    words = list(sys.argv[1:] if argv is None else argv)
    wants_traceback = "--traceback" in words
    words = [word for word in words if word != "--traceback"]
    try:
        told = hear(words)
        hand_out(told.text)
        return told.status
    except KeyboardInterrupt:
        return 130
    except Exception as cause:  # the one place where any cause is caught and put into words
        from .causes import in_words, whole_traceback

        told = in_words(cause, words[0] if words else "")
        hand_out_aside((whole_traceback(cause) if wants_traceback else "") + told.text)
        return told.status


def hear(words: Sequence[str]) -> Told:
    """What the words ask for: the answer of a command, or help."""
    if not words or words[0] in ("--help", "-h", "help"):
        return Told(whole_help())
    if words[0] == "--version":
        from .. import __version__

        return Told(f"underpour {__version__}\n")
    if words[0] not in COMMANDS:
        raise _no_such_command(words[0])
    command = import_module(f".{words[0]}", __name__)
    if "--help" in words or "-h" in words:
        return Told(command.help_of(words[1:]) if words[0] == "catalogue" else command.HELP)
    told: Told = command.told(words[1:])
    return told


def whole_help() -> str:
    width = max(map(len, COMMANDS))
    return HELP.format(commands="\n".join(f"  {name:{width}}  {what}" for name, what in COMMANDS.items()))


def _no_such_command(word: str) -> Exception:
    from .parsing import unknown_word

    if word.startswith("-"):
        return unknown_word("underpour", word, (), "A command comes first.", "All of them: underpour --help")
    return unknown_word("underpour", word, COMMANDS, f"No command is called {word}.", "All of them: underpour --help")
