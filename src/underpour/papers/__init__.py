"""Papers: what is handed out. They print a finished dossier and work nothing out."""

from .pictures import Picture, Pictures
from .write import submittal

__all__ = ["Picture", "Pictures", "submittal"]
