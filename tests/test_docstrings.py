"""Every kernel says its arguments in order, a unit for each, what it gives and where it comes from."""

import importlib
import inspect
import pkgutil
import re
from collections.abc import Iterator

import pytest

from underpour import economy, physics

REFUSALS = ("underpour.physics.domain", "underpour.economy.refusals")  # they guard formulas and are none themselves


def kernels() -> Iterator[object]:
    """Public functions that the modules of ``physics`` and ``economy`` define."""
    for info in (info for of in (physics, economy) for info in pkgutil.walk_packages(of.__path__, of.__name__ + ".")):
        if info.name in REFUSALS:
            continue
        module = importlib.import_module(info.name)
        for name, function in inspect.getmembers(module, inspect.isfunction):
            if function.__module__ == info.name and not name.startswith("_"):
                yield pytest.param(function, id=f"{info.name.removeprefix('underpour.')}.{name}")


def part(doc: str, heading: str) -> str:
    """Text under a numpy-style heading, or "" where there is none."""
    found = re.search(rf"^{heading}\n-+\n(.*?)(?=^\S[^\n]*\n-+\n|\Z)", doc, re.M | re.S)
    return found[1] if found else ""


def arguments(doc: str) -> list[tuple[list[str], str]]:
    """Names and text of each entry under "Parameters"."""
    entries = re.findall(
        r"^(\*{0,2}\w[\w, *]*?)(?: :[^\n]*)?\n((?:[ \t]+[^\n]*\n?|\n)*)", part(doc, "Parameters"), re.M
    )
    return [([name.strip(" *") for name in names.split(",")], text) for names, text in entries]


UNIT = re.compile(r"\[[^\]]+\]")


@pytest.mark.parametrize("function", list(kernels()))
def test_the_docstring_keeps_its_contract(function):
    doc = inspect.getdoc(function) or ""
    told = arguments(doc)
    assert [name for names, _ in told for name in names] == list(inspect.signature(function).parameters)
    unitless = [", ".join(names) for names, text in told if not UNIT.search(text)]
    assert not unitless, f"no [unit] on {unitless}"
    assert UNIT.search(part(doc, "Returns")), "the result has no [unit]"
    assert part(doc, "Source").strip(), "no source"
