"""No tracked file holds the address of a package registry: every machine is set up with its own."""

import re
import shutil
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]

# In pieces, so that this file holds none either.
HOSTS = [
    "py" + "pi.org",
    "python" + "hosted.org",
    "npm" + "js.org",
    "npm" + "js.com",
    "yarn" + "pkg.com",
    "deb.deb" + "ian.org",
    "security.deb" + "ian.org",
    "archive.ubu" + "ntu.com",
    "ana" + "conda.org",
    "ana" + "conda.com",
    "crates" + ".io",
    "ruby" + "gems.org",
    "jsde" + "livr.net",
    "un" + "pkg.com",
]
ADDRESS = re.compile("|".join(map(re.escape, HOSTS)).encode(), re.I)


def tracked() -> list[Path]:
    listing = ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"]
    told = subprocess.run(listing, cwd=ROOT, capture_output=True, check=True).stdout.decode()
    return [ROOT / name for name in told.split("\0") if name and (ROOT / name).is_file()]


@pytest.mark.skipif(not shutil.which("git") or not (ROOT / ".git").exists(), reason="not a clone: git knows no files")
def test_no_file_names_a_registry():
    found = [str(path.relative_to(ROOT)) for path in tracked() if ADDRESS.search(path.read_bytes())]
    assert not found, f"a registry's address stands in {found}"
