"""What can be typed and what is answered stands in the documents."""

import ast
import re
from pathlib import Path
from typing import get_args

import pytest

from underpour.brief.model import fields
from underpour.cli import COMMANDS
from underpour.findings import UNITS, Verdict

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
CONTRIBUTING = (ROOT / "CONTRIBUTING.md").read_text(encoding="utf-8")
GLOSSARY = (ROOT / "GLOSSARY.md").read_text(encoding="utf-8")

SUBJECTS = "heat|moisture|height|frost|cold|bearing|soilgas|warm|snow|code|takeoff|money|carbon|rule|product"
FINDING = re.compile(rf"(?:{SUBJECTS})\.[a-z]+(?:-[a-z]+)*")


def told_ids() -> set[str]:
    """Ids of the findings that checks, takeoff and money make, read from their source; keys of a brief are none."""
    parts = ("checks", "takeoff", "costing")
    making = (path for part in parts for path in (ROOT / "src" / "underpour" / part).rglob("*.py"))
    nodes = (node for path in making for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))))
    texts = {node.value for node in nodes if isinstance(node, ast.Constant) and isinstance(node.value, str)}
    ids = {text for text in texts if FINDING.fullmatch(text)}
    return ids - set(fields()) - {"product.missing"}  # of a record, not of a brief


@pytest.mark.parametrize("command", sorted(COMMANDS))
def test_each_command_stands_in_the_readme(command):
    assert f"`underpour {command}" in README


@pytest.mark.parametrize("word", ["demo", "test", "run", "proof", "cover", "bench", "lock", "bundle"])
def test_each_word_of_dev_py_stands_in_the_pages_for_those_who_build(word):
    assert f"dev.py {word}" in README + CONTRIBUTING


@pytest.mark.parametrize("verdict", get_args(Verdict))
def test_each_verdict_stands_in_the_glossary(verdict):
    assert f"`{verdict}`" in GLOSSARY


@pytest.mark.parametrize("unit", sorted(UNITS))
def test_each_unit_stands_in_the_glossary(unit):
    assert f"`{unit}`" in GLOSSARY


@pytest.mark.parametrize("finding", sorted(told_ids()))
def test_each_finding_stands_in_the_glossary(finding):
    assert f"`{finding}`" in GLOSSARY


def test_the_page_of_the_brief_is_fresh():
    import brief_page

    assert brief_page.PAGE.read_text(encoding="utf-8") == brief_page.page(), (
        "The brief has changed since; this writes its page anew: .venv/bin/python docs/making/brief_page.py"
    )


def test_each_key_of_the_brief_has_a_help_text():
    from underpour.brief import model

    bare = [path for path, (_, field) in model.fields().items() if not field.description]
    assert not bare


def test_no_page_points_at_a_file_that_is_not_there():
    missing = []
    for page in [*ROOT.glob("*.md"), *(ROOT / "docs").rglob("*.md"), *(ROOT / "examples").rglob("*.md")]:
        for target in re.findall(r"\]\(([^)#:]+)(?:#[^)]*)?\)", page.read_text(encoding="utf-8")):
            if not (page.parent / target).exists():
                missing.append(f"{page.relative_to(ROOT)} -> {target}")
    assert not missing, "\n".join(missing)
