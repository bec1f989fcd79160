"""A brief that cannot be used, the whole way through the command: its words, status 2, and a folder left as it was."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import pytest

from underpour.cli import main


@dataclass(frozen=True)
class Bad:
    what: str  # a short name of the fault
    was: str  # what stands in the good brief
    typed: str  # what is typed in its place
    words: tuple[str, ...]  # each is told


def spoiled(good: str, bad: Bad) -> str:
    """The good brief with the fault in it."""
    assert good.count(bad.was) == 1, bad.was
    return good.replace(bad.was, bad.typed)


def held_to(good: str, bad: Bad, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The fault is told with file and line, nothing is answered, nothing is touched."""
    (folder / "brief.toml").write_text(spoiled(good, bad), "utf-8")
    before = contents(folder)
    status = main(["answer", "brief.toml"])
    told = capsys.readouterr()
    assert status == 2, told.err
    assert told.out == ""
    for words in ("brief.toml:", *bad.words):
        assert words in told.err
    assert "Traceback" not in told.err
    assert contents(folder) == before


def contents(folder: Path) -> dict[str, tuple[bytes, int]]:
    return {
        str(path.relative_to(folder)): (path.read_bytes() if path.is_file() else b"", path.stat().st_mtime_ns)
        for path in sorted(folder.rglob("*"))
    }
