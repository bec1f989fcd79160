"""Pages set from what stands in ``written/``: every text is escaped, and a name that is not given stops the page."""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING

from .words import in_browser, say

if TYPE_CHECKING:
    from jinja2 import Environment


@cache
def _written() -> Environment:
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    here = str(files(__package__) / "written")
    setting = Environment(
        loader=FileSystemLoader(here), autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
    setting.globals["say"] = say
    setting.globals["in_browser"] = in_browser
    return setting


def page(name: str, **given: object) -> str:
    """The page in ``written/NAME.html`` with what is given; ``say`` is known in it."""
    return _written().get_template(f"{name}.html").render(given)
