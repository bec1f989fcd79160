"""The words after a command, read by argparse and told in our own words."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Iterable, Sequence
from typing import Any, NoReturn

from ..mistakes import Mistake, nearest


class Words(argparse.ArgumentParser):
    """A parser whose complaints are Mistakes. Help is written by hand beside each command."""

    def __init__(self, command: str, example: str):
        super().__init__(prog=f"underpour {command}", add_help=False, allow_abbrev=False, exit_on_error=False)
        self.example = example

    def read(self, words: Sequence[str]) -> argparse.Namespace:
        """The words by name; a Mistake for one that the command does not take."""
        try:
            known, left = self.parse_known_intermixed_args(list(words))
        except argparse.ArgumentError as cause:
            name = cause.argument_name or self.prog
            raise Mistake(
                name,
                "",
                "Something has to follow it." if "expected" in cause.message else "It cannot be used like that.",
                f"For example: {self.example}",
            ) from None
        if left:
            raise self._not_taken(left[0])
        return known

    def must(self, value: Any, question: str) -> Any:
        """The value, or a Mistake that asks for it."""
        if value is None:
            raise Mistake(self.prog, "", question, f"For example: {self.example}")
        return value

    def error(self, message: str) -> NoReturn:
        raise Mistake(self.prog, "", "These words cannot be used together.", f"For example: {self.example}")

    def _not_taken(self, word: str) -> Mistake:
        options = [option for action in self._actions for option in action.option_strings]
        known = options if word.startswith("-") else []
        return unknown_word(self.prog, word, known, "The command does not take this.", f"For more: {self.prog} --help")


def one_of(option: str, *choices: str) -> Callable[[str], str]:
    """A reader for what follows an option, where only some words can."""

    def read(typed: str) -> str:
        if typed not in choices:
            listing = f"To choose from: {', '.join(choices)}."
            raise unknown_word(option, typed, choices, f"Nothing here is called {typed}.", listing)
        return typed

    return read


def unknown_word(before: str, typed: str, known: Iterable[str], wrong: str, listing: str) -> Mistake:
    """Mistake for a word of the command line that is not known; asks for the nearest one that is."""
    near = nearest(typed.partition("=")[0], known)
    hint = f"Did you mean {near[0]}? " if near else ""
    return Mistake(f"{before} {typed}", "", wrong, f"{hint}{listing}")
