"""Papers: what is handed out. They print a finished dossier and work nothing out."""

from .pictures import Picture, Pictures
from .ready import Gap, gaps
from .write import Printed, for_one, submittal

__all__ = ["Gap", "Picture", "Pictures", "Printed", "for_one", "gaps", "submittal"]
