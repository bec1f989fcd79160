"""Radon in homes by county, as a survey of the United States found it: a hint, and no word about one house."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from math import cos, hypot, radians

from .read import FOLDER

PICOCURIE = 37.0  # Bq/m³ in 1 pCi/L, exact by the definition of the curie
DEGREE = 111.2e3  # m of latitude, mean radius
FARTHEST = 100e3  # m from a county's middle; farther away it hints at nothing


@dataclass(frozen=True, slots=True)
class County:
    """What the survey found in one county."""

    name: str  # "St Louis, MN"
    distance: float  # m from the site to its middle
    homes: int  # tested
    mean: float  # Bq/m³, geometric
    basements: int  # readings in basements
    basement_mean: float | None  # Bq/m³, geometric


@cache
def _rows() -> tuple[dict[str, str], ...]:
    text = (FOLDER / "radon_survey.csv").read_text(encoding="utf-8").splitlines()
    return tuple(csv.DictReader(line for line in text if not line.startswith("#")))


def nearest_county(latitude: float, longitude: float, state: str = "") -> County | None:
    """The county of the survey whose middle is nearest to a position, its own state first; None where none is near.

    Parameters
    ----------
    latitude, longitude : float
        Degrees north and east. [degrees]
    state : str
        Two letters; "" where it is not known.

    Examples
    --------
    >>> found = nearest_county(35.4, -109.5)
    >>> found.name, found.homes, round(found.mean, 1)
    ('Apache, AZ', 14, 33.7)
    """

    def away(row: dict[str, str]) -> float:
        north = float(row["latitude"]) - latitude
        east = (float(row["longitude"]) - longitude) * cos(radians(latitude))
        return DEGREE * hypot(north, east)

    near = [row for row in _rows() if away(row) <= FARTHEST]
    if not near:
        return None
    row = min([row for row in near if row["state"] == state] or near, key=away)
    basement = row["basement-mean"]
    return County(
        name=f"{row['county']}, {row['state']}",
        distance=away(row),
        homes=int(row["homes"]),
        mean=float(row["mean"]) * PICOCURIE,
        basements=int(row["basements"] or 0),
        basement_mean=float(basement) * PICOCURIE if basement else None,
    )
