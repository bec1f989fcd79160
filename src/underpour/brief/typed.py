"""The brief's data as typed, each value with the place it was typed at; changed copies keep those places."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from typing import Any

from .paths import Path


@dataclass(frozen=True, slots=True)
class Typed:
    """A value of the file: a word or number, or a table or list of further ones.

    ``path`` says where it stands in the file and stays with it when an alternative moves it elsewhere.
    """

    path: Path
    value: Any  # str, int, float, bool, date, dict[str, Typed] or list[Typed]

    @classmethod
    def of(cls, data: object, path: Path = ()) -> Typed:
        """The tree for data as a TOML reader hands it on."""
        if isinstance(data, dict):
            return cls(path, {key: cls.of(value, (*path, key)) for key, value in data.items()})
        if isinstance(data, list):
            return cls(path, [cls.of(value, (*path, index)) for index, value in enumerate(data)])
        return cls(path, data)

    def plain(self) -> Any:
        """The bare data again."""
        if isinstance(self.value, dict):
            return {key: child.plain() for key, child in self.value.items()}
        if isinstance(self.value, list):
            return [child.plain() for child in self.value]
        return self.value

    def child(self, step: str | int) -> Typed | None:
        """What stands at one key or list number; None where nothing does."""
        if isinstance(self.value, dict):
            return self.value.get(step)
        if isinstance(self.value, list) and isinstance(step, int) and 0 <= step < len(self.value):
            child: Typed = self.value[step]
            return child
        return None

    def along(self, path: Path) -> tuple[Typed, Path]:
        """The last value that stands on the way down ``path``, and the steps that lead further."""
        here: Typed = self
        for depth, step in enumerate(path):
            child = here.child(step)
            if child is None:
                return here, path[depth:]
            here = child
        return here, ()

    def at(self, path: Path) -> Typed | None:
        """What stands at ``path``; None where nothing does."""
        found, further = self.along(path)
        return None if further else found

    def put(self, path: Path, new: Typed) -> Typed:
        """A copy with ``new`` at ``path``: a key may be added, a list may grow by one.

        Raises KeyError where nothing stands that could hold it.
        """
        if not path:
            return new
        step, further = path[0], path[1:]
        child = self.child(step)
        if further and child is None:
            raise KeyError(step)
        changed = child.put(further, new) if child is not None else new
        if isinstance(self.value, dict) and isinstance(step, str):
            return Typed(self.path, {**self.value, step: changed})
        if isinstance(self.value, list) and isinstance(step, int) and 0 <= step <= len(self.value):
            return Typed(self.path, [*self.value[:step], changed, *self.value[step + 1 :]])
        raise KeyError(step)

    def without(self, gone: Collection[Path]) -> Typed:
        """A copy that lacks every value typed at one of the paths ``gone``."""
        if isinstance(self.value, dict):
            kept = {key: child.without(gone) for key, child in self.value.items() if child.path not in gone}
            return Typed(self.path, kept)
        if isinstance(self.value, list):
            return Typed(self.path, [child.without(gone) for child in self.value if child.path not in gone])
        return self
