"""A desk that is served, with a book of its own."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from served import Served


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Served]:
    served = Served(tmp_path / "desk.book")
    yield served
    served.stop()
