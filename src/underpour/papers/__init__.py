"""Papers: what is handed out. They print a finished dossier and work nothing out."""

from .pictures import Picture, Pictures
from .ready import Gap, gaps
from .write import Printed, submittal

__all__ = ["Gap", "Picture", "Pictures", "Printed", "gaps", "submittal"]
