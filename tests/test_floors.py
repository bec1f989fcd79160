"""Imports run downwards only, heavy libraries are loaded only where they are needed."""

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1] / "src" / "underpour"

FLOORS = [  # lowest first; parts on one line do not see each other
    {"mistakes", "faults"},
    {"measure", "findings", "toml_text", "outlines", "book"},
    {"catalogue", "panels", "physics", "weather", "plan_file"},
    {"brief", "starters", "conformity", "design", "tabled", "economy"},
    {"resolve", "particulars"},
    {"sections"},
    {"checks"},
    {"cut"},
    {"laying", "families", "takeoff", "wintering"},
    {"costing"},
    {"dossier"},
    {"lessons", "accepting", "cautioning", "dossier_json"},
    {"foam_worth"},
    {"answer", "revisions"},
    {"trying"},
    {"ask", "sizing", "substitution", "choosing"},
    {"drawings"},
    {"papers"},
    {"pages"},
    {"handouts"},
    {"desk"},
    {"cli"},
    {"__init__", "__main__"},
]
LEVEL = {part: level for level, floor in enumerate(FLOORS) for part in floor}

PICTURED = {"drawings", "papers", "pages", "handouts", "desk"}

# Where a heavy library may be imported at all, at the head of a file or inside a function.
AT_HOME = {
    "numpy": {
        "panels",
        "physics",
        "economy",
        "sections",
        "checks",
        "families",
        "wintering",
        "choosing",
        "dossier",
        "dossier_json",
        "answer",
        "catalogue",
        *PICTURED,
    },
    "scipy": {"physics", "panels"},
    "fluids": {"physics"},
    "pydantic": {"brief", "catalogue", "tabled", "desk"},
    "pydantic_core": {"brief", "catalogue"},
    "tree_sitter": {"toml_text"},
    "tree_sitter_toml": {"toml_text"},
    "contourpy": {"drawings"},
    "typst": {"papers"},
    "fontTools": {"papers", "pages"},
    "jinja2": {"pages", "desk"},
    "markupsafe": {"pages", "desk"},
    "tomlkit": {"brief"},
    "fastapi": {"desk"},
    "starlette": {"desk"},
    "uvicorn": {"desk"},
    "sqlalchemy": {"book"},
    "alembic": {"book"},
    "platformdirs": {"book"},
    "openpyxl": {"tabled"},
    "xlsxwriter": {"tabled", "takeoff"},
    "ezdxf": {"drawings", "plan_file"},
}
HEAVY = sorted(AT_HOME)
DEVELOPERS_ONLY = {
    "pytest",
    "hypothesis",
    "pint",
    "skfem",
    "jsonschema",
    "ruff",
    "mypy",
    "pikepdf",
    "pypdfium2",
    "pypdf",
    "playwright",
    "axe_playwright_python",
    "schemathesis",
    "httpx",
}


def part_of(path: Path) -> str:
    return path.relative_to(ROOT).parts[0].removesuffix(".py")


def imported(path: Path) -> Iterator[str]:
    """Whole names that a file imports, ours spelled "underpour.part...", whichever way the file spells them."""
    folders = path.relative_to(ROOT).parts[:-1]
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            above = folders[: len(folders) - node.level + 1] if node.level else ()
            start = ["underpour", *above] if node.level else []
            module = ".".join([*start, *filter(None, [node.module])])
            if module == "underpour":
                yield from (f"underpour.{alias.name}" for alias in node.names)
            else:
                yield module


def our_parts(path: Path) -> set[str]:
    return {name.split(".")[1] for name in imported(path) if name.startswith("underpour.")}


def files() -> list[Path]:
    return sorted(ROOT.rglob("*.py"))


def test_every_part_has_a_floor():
    parts = {part_of(path) for path in files()}
    assert parts <= set(LEVEL), f"no floor yet: {sorted(parts - set(LEVEL))}"


def test_imports_run_downwards():
    wrong = [
        f"{path.relative_to(ROOT)} imports {other}"
        for path in files()
        for other in our_parts(path)
        if other != part_of(path) and LEVEL.get(other, -1) >= LEVEL[part_of(path)]
    ]
    assert not wrong, "\n".join(wrong)


def test_kernels_know_general_libraries_and_nothing_of_ours():
    outside = {"numpy", "scipy", "fluids", "underpour.physics"}
    library = sys.stdlib_module_names - {"os", "io", "pathlib", "shutil", "subprocess", "logging", "time", "datetime"}
    wrong = [
        f"{path.relative_to(ROOT)} imports {name}"
        for path in (ROOT / "physics").rglob("*.py")
        for name in imported(path)
        if name.split(".")[0] not in library
        and not any(name == known or name.startswith(f"{known}.") for known in outside)
    ]
    assert not wrong, "\n".join(wrong)


def test_each_heavy_library_stays_in_the_parts_that_need_it():
    wrong = [
        f"{path.relative_to(ROOT)} imports {name}"
        for path in files()
        for name in imported(path)
        if part_of(path) not in AT_HOME.get(name.split(".")[0], {part_of(path)})
    ]
    assert not wrong, "\n".join(wrong)


def told_for_developers(path: Path) -> bool:
    """A file that makes other files, says so at its head, and is imported by nothing of ours."""
    module = "underpour." + ".".join(path.relative_to(ROOT).with_suffix("").parts)
    told = ast.get_docstring(ast.parse(path.read_text(encoding="utf-8"))) or ""
    return "For developers" in told and not any(module in imported(other) for other in files())


def test_no_file_needs_what_only_developers_have():
    wrong = [
        f"{path.relative_to(ROOT)} imports {name}"
        for path in files()
        if not told_for_developers(path)
        for name in imported(path)
        if name.split(".")[0] in DEVELOPERS_ONLY
    ]
    assert not wrong, "\n".join(wrong)


@pytest.mark.parametrize(
    ("module", "may_load"),
    [
        ("underpour", set()),
        ("underpour.cli", set()),
        ("underpour.mistakes", set()),
        ("underpour.measure", set()),
        ("underpour.findings", set()),
        ("underpour.catalogue", set()),
        ("underpour.weather", set()),
        ("underpour.plan_file", set()),
        ("underpour.brief", {"pydantic", "pydantic_core"}),
    ],
)
def test_a_first_import_loads_nothing_heavy(module, may_load):
    """A brief that cannot be used is told within 0.4 s, help within 0.1 s: no numpy on the way there."""
    ask = f"import sys, {module}; print(*[name for name in {HEAVY!r} if name in sys.modules])"
    told = subprocess.run([sys.executable, "-c", ask], capture_output=True, text=True, check=True).stdout
    assert set(told.split()) <= may_load


def test_a_brief_that_cannot_be_used_is_told_before_anything_heavy_is_loaded(tmp_path):
    brief = tmp_path / "brief.toml"
    brief.write_text('[project]\nuse = "workshop"\n[site]\nplace = "Duluth, MN"\n', encoding="utf-8")
    ask = f"import sys; from underpour.cli import main; main(['answer', {str(brief)!r}]); "
    ask += f"print('loaded', *[name for name in {HEAVY!r} if name in sys.modules])"
    told = subprocess.run([sys.executable, "-c", ask], capture_output=True, text=True, check=True)
    loaded = set(told.stdout.splitlines()[-1].split()[1:])
    assert loaded <= {"pydantic", "pydantic_core", "tree_sitter", "tree_sitter_toml"}
    assert "floor" in told.stderr
