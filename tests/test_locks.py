"""What is installed is what was looked at: every package pinned, hashed, and the same for users and developers."""

import re
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
LOCKS = ["requirements.lock", "requirements-dev.lock", "boot-build.lock", "boot-uv.lock"]


def entries(name: str) -> dict[str, str]:
    """Pin with its marker -> hashes, for each entry of a lock."""
    text = (ROOT / name).read_text(encoding="utf-8").replace("\\\n", "")
    return {line.partition("--hash")[0].strip(): line for line in text.splitlines() if line.strip()}


def packages(name: str) -> set[str]:
    return {re.split("[=[]", pin)[0] for pin in entries(name)}


@pytest.mark.parametrize("name", LOCKS)
def test_each_entry_is_pinned_and_hashed(name):
    for pin, line in entries(name).items():
        assert "==" in pin, pin
        assert "--hash=sha256:" in line, pin


@pytest.mark.parametrize("name", LOCKS)
def test_a_lock_holds_no_address(name):
    assert "://" not in (ROOT / name).read_text(encoding="utf-8")


def test_developers_work_with_what_users_get():
    assert entries("requirements.lock").items() <= entries("requirements-dev.lock").items()


@pytest.mark.parametrize(
    ("lock", "group"), [("requirements.lock", "dependencies"), ("requirements-dev.lock", "optional-dependencies")]
)
def test_the_lock_holds_what_the_package_asks_for(lock, group):
    asked = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"][group]
    names = {re.split("[<>=!~]", word)[0] for word in (asked["dev"] if isinstance(asked, dict) else asked)}
    assert names <= packages(lock), f"python3 dev.py lock has not been said since: {names - packages(lock)}"
