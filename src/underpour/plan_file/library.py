"""The library for drawings, loaded so that it looks through no fonts and leaves nothing on the machine."""

from __future__ import annotations

import logging
import os
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

_KEPT_AT = "XDG_CACHE_HOME"
_NO_FONTS = '{"version": 2, "font-faces": []}'  # as the library writes its list; one that it cannot read it makes anew


def load_drawings_library() -> None:
    """Loads ezdxf; afterwards its parts are imported as usual.

    By itself it looks through every font of the machine when it is first loaded, and keeps a list of them in the user's
    folder. No text is measured here, so it is shown an empty list in a folder of its own.
    """
    if "ezdxf.fonts.fonts" in sys.modules:
        return
    logging.getLogger("ezdxf").addHandler(logging.NullHandler())  # what it has to say is said in our words
    was = os.environ.get(_KEPT_AT)
    with TemporaryDirectory() as kept:
        listed = Path(kept) / "ezdxf" / "font_manager_cache.json"
        listed.parent.mkdir()
        listed.write_text(_NO_FONTS, "utf-8")
        os.environ[_KEPT_AT] = kept
        try:
            from ezdxf.fonts import fonts  # noqa: F401
        finally:
            os.environ.pop(_KEPT_AT)
            if was is not None:
                os.environ[_KEPT_AT] = was
