"""One thread for small sparse solves: a second one only waits for the first, and on a busy machine it waits long."""

import datetime
import os
from collections.abc import Iterator

import pytest

for library in ("OPENBLAS", "OMP", "MKL"):
    os.environ.setdefault(f"{library}_NUM_THREADS", "1")


@pytest.fixture(scope="session", autouse=True)
def _shared(tmp_path_factory: pytest.TempPathFactory, request: pytest.FixtureRequest) -> None:
    """Processes that walk together keep what they answer for one another, beside their folders."""
    import answered  # here, for it loads what the lines above are for

    if hasattr(request.config, "workerinput"):
        answered.shared = tmp_path_factory.getbasetemp().parent / "answered"


@pytest.fixture(scope="module", autouse=True)
def _forgotten(request: pytest.FixtureRequest) -> Iterator[None]:
    """What a file of tests keeps of solved sections goes with it: a walk through all files would need gigabytes."""
    yield
    for each in vars(request.module).values():
        if getattr(each, "__module__", "") == request.module.__name__ and hasattr(each, "cache_clear"):
            each.cache_clear()


@pytest.fixture(autouse=True)
def _day(monkeypatch: pytest.MonkeyPatch) -> None:
    """Certificates are held to one day, so that no test ages."""
    monkeypatch.setattr("underpour.catalogue.products.today", lambda: datetime.date(2026, 11, 27))
