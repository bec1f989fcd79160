"""Which foam belongs under a concrete slab, answered with its working.

    from underpour import answer_brief, read_brief
    dossier = answer_brief(read_brief("brief.toml"))

Nothing is loaded until it is asked for. The two functions are ``underpour.brief.read`` and ``underpour.answer.answer``;
here they carry longer names, because a package cannot hold a function and a module both called ``answer``.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from .answer import answer as answer_brief
    from .brief.model import Brief
    from .brief.read import read as read_brief
    from .dossier import Dossier
    from .mistakes import Mistake, Mistakes

__version__ = "0.1.0"
__all__ = ["Brief", "Dossier", "Mistake", "Mistakes", "__version__", "answer_brief", "read_brief"]

_WHERE = {
    "answer_brief": (".answer", "answer"),
    "read_brief": (".brief.read", "read"),
    "Brief": (".brief.model", "Brief"),
    "Dossier": (".dossier", "Dossier"),
    "Mistake": (".mistakes", "Mistake"),
    "Mistakes": (".mistakes", "Mistakes"),
}


def __getattr__(name: str) -> object:
    if name not in _WHERE:
        raise AttributeError(f"underpour has no {name}")
    module, word = _WHERE[name]
    return getattr(import_module(module, __name__), word)
