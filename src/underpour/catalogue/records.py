"""What the catalogue hands out: frozen records whose every number says where it comes from."""

from __future__ import annotations

from dataclasses import dataclass

from ..findings import Basis, Seen
from .in_place import with_water


@dataclass(frozen=True, slots=True)
class Source:
    key: str  # "iso-10456-2007"
    title: str
    publisher: str
    year: int  # 0 where there is none
    seen: Seen


@dataclass(frozen=True, slots=True)
class Quantity:
    """One number of the catalogue, SI, with its plausible range and its source."""

    value: float
    unit: str
    low: float
    high: float
    source: Source
    where: str  # clause, table, record
    seen: Seen  # how this very number was seen (the source's own, unless the table says otherwise)
    path: str  # "catalogue.ground.clay-or-silt.conductivity"
    note: str = ""

    def basis(self) -> Basis:
        return Basis(self.source.title, self.where, self.seen)


@dataclass(frozen=True, slots=True)
class Material:
    """A bulk material: concrete, gravel, sand, masonry, timber, ground."""

    key: str
    label: str
    conductivity: Quantity  # W/(m·K)
    heat_capacity: Quantity  # by volume, J/(m³·K)
    hatch: str  # concrete, gravel, sand, ground, masonry, timber
    density: Quantity | None = None  # kg/m³, where something rests on it
    grain: str = ""  # of ground: fine, coarse, rock, peat; "" where it is not known
    saturated: tuple[Quantity, Quantity] | None = None  # of ground, below water: W/(m·K), J/(m³·K); None where alike


@dataclass(frozen=True, slots=True)
class NamedLoad:
    """What usually stands, rolls or is set down on a floor. What a maker or a scale says goes before it."""

    key: str  # "forklift-2"
    label: str
    kind: str  # as in [[load]] of a brief
    standing: bool  # for years, or for minutes
    force: Quantity | None  # N; of an axle the whole axle
    pressure: Quantity | None  # kPa
    line_force: Quantity | None  # kN/m
    plate: Quantity | None  # m, side of what it stands on
    tyre: Quantity | None  # kPa, of the contact
    wheels: Quantity | None  # 1, of an axle
    track: Quantity | None  # m, between wheels of an axle
    spacing: Quantity | None  # m, between posts of a row

    @property
    def brings(self) -> Quantity:
        """The number that matters most: its force, its pressure or its force on each length."""
        found = self.force or self.pressure or self.line_force
        assert found is not None, self.key
        return found


@dataclass(frozen=True, slots=True)
class Made:
    """A thickness in which a board is made."""

    thickness: float  # m
    typed: str  # "2 in"
    r_label: Quantity  # m²·K/W, as labelled


@dataclass(frozen=True, slots=True)
class School:
    """What one publication says of the water that foam holds after years in the ground."""

    says: str  # "boards dug out after 15 years"
    water: Quantity  # m³/m³


@dataclass(frozen=True, slots=True)
class Wetting:
    """How a board's conductivity answers to water, and how much of it there may be."""

    dry: float  # W/(m·K), at the temperature of the ground
    per_water: Quantity  # moisture conversion coefficient, 1
    water: Quantity  # as the immersion test gives it, from dry to what years in wet ground bring, m³/m³
    schools: tuple[School, ...]  # who says what of years in the ground

    def conductivity(self, share: float) -> float:
        """With this share of water by volume. [W/(m·K)]"""
        return with_water(self.dry, share, self.per_water.value)


@dataclass(frozen=True, slots=True)
class CreepRecord:
    """Strain under a stress that stands: read during the test, or carried forward by the laboratory."""

    strain: Quantity  # of the whole thickness, %
    stress: float | None  # Pa
    share: float | None  # that stress as a share of the strength, where the record gives that instead
    lasted: float | None  # s, the stress was on
    reaches: float | None  # s, it was carried forward to; None of a reading
    typed: str  # "90 kPa, 608 d, carried forward to 50 years"


@dataclass(frozen=True, slots=True)
class Board:
    """A rigid foam or mineral board. ``made`` is empty where any thickness can be had (a class, not a product)."""

    key: str
    label: str
    material: str  # "EPS", "XPS", "EPS, graphite", "cellular glass"
    hatch: str  # foam-moulded, foam-extruded, foam-graphite, mineral-board
    made: tuple[Made, ...]
    r_label_per_metre: Quantity  # m·K/W, as labelled, at the label's mean temperature
    label_terms: str  # standard, mean temperature and age that the label refers to
    conductivity_in_place: Quantity  # W/(m·K), with low and high
    in_place_steps: str  # how that number was reached, in one line with its numbers
    heat_capacity: Quantity  # by volume, J/(m³·K)
    combustible: bool
    strength: Quantity  # kPa, compressive, at 10 % or yield (at the break where it breaks first)
    note: str = ""
    maker: str = ""  # "" for a class that any maker may fill
    invented: bool = False  # an invented maker's: said wherever the board is shown
    classes: tuple[str, ...] = ()  # what the maker claims: "ASTM C578 type IX"
    tested: tuple[tuple[str, Quantity], ...] = ()  # every number of its record or class, by name, in the file's order
    age: str = ""  # of the foam when its R was tested, where its gas leaves it: "aged 180 days"
    wetting: Wetting | None = None  # None where water is counted already or changes nothing
    density: Quantity | None = None  # kg/m³
    cautious_share: Quantity | None = None  # of the strength, on the safe side, where nothing is known of long load
    one_percent: Quantity | None = None  # kPa, compressive, at 1 % strain; None where no record has it
    creep: tuple[CreepRecord, ...] = ()  # of its creep tests, in the file's order
    readings: tuple[CreepRecord, ...] = ()  # of creep tests that are given reading by reading

    def r_in_place(self, thickness: float) -> float:
        """R-value in place of a thickness in m. [m²·K/W]"""
        return thickness / self.conductivity_in_place.value


@dataclass(frozen=True, slots=True)
class Retarder:
    """A vapour retarder: too thin for heat, drawn as a line."""

    key: str
    label: str
    thickness: float  # m
    permeance: Quantity  # ng/(Pa·s·m²)
    brings: str = ""  # what it puts on foam beside it, an agent of compatibility.toml
    standard: str = ""  # of its own kind, where that is not the one for plastic films
    maker: str = ""  # "" for a kind of film that any maker may fill
    invented: bool = False
    classes: tuple[str, ...] = ()  # what the maker claims
    tested: tuple[tuple[str, Quantity], ...] = ()  # every number of its record, by name, in the file's order


@dataclass(frozen=True, slots=True)
class Sheet:
    """A foil or bubble sheet."""

    key: str
    label: str
    thickness: float  # m
    resistance: Quantity  # m²·K/W, of its body alone, solids on both sides
    emissivity: Quantity  # 1, of its faces
    heat_capacity: Quantity  # by volume, J/(m³·K)


@dataclass(frozen=True, slots=True)
class Seams:
    """How the seams of a film are laid."""

    key: str
    label: str
    permeance: Quantity  # ng/(Pa·s·m²), beside the film's own


@dataclass(frozen=True, slots=True)
class Furnishing:
    """What lies or stands on a floor and keeps the room's warmth off it."""

    key: str
    label: str
    resistance: Quantity  # m²·K/W, beside the open floor's film
    area: Quantity  # m² of floor that it covers


@dataclass(frozen=True, slots=True)
class Covering:
    """What lies on a floor."""

    key: str
    label: str
    hatch: str
    thickness: float  # m
    resistance: Quantity  # m²·K/W, with what it is laid on
    permeance: Quantity  # ng/(Pa·s·m²), as laid
    slab_humidity: Quantity  # %, of the air in the slab's pores, at most when it is laid
    warmest: Quantity | None  # degC, of its surface; None where it stands what people's feet stand
    heat_capacity: Quantity  # by volume, J/(m³·K)
    known: bool = True  # whether its kind says how dry the slab must be


@dataclass(frozen=True, slots=True)
class Use:
    """What a floor is for, with what may be assumed of the room above it."""

    key: str
    label: str
    aliases: tuple[str, ...]
    room: Quantity | None  # degC, with low and high; None outdoors (drive, walk)
    humidity: Quantity | None  # %, with low and high; None outdoors
    floor_at_least: Quantity | None  # degC, comfort of people who stay; None where no rule is known
    cold_floor: bool  # kept below 0 °C by purpose (cold store, rink)
    cooled: bool  # kept cool in summer unless the brief says otherwise


@dataclass(frozen=True, slots=True)
class Place:
    """A place on the map with its air temperature month by month."""

    name: str  # "Minneapolis, MN"
    country: str  # two letters
    latitude: float  # degrees north
    longitude: float  # degrees east
    height: float  # m above the sea
    months: tuple[float, ...]  # twelve mean air temperatures, degC
    credit: str  # printed wherever the numbers are
    notes: tuple[str, ...]  # what to know of them here (winter bias, height)


@dataclass(frozen=True, slots=True)
class Zone:
    """A code's climate zone, looked up; ``zone`` is "" where what was looked up does not agree on one."""

    zone: str  # "6A", "4C" (marine 4), "7"; in Canada "7A"
    country: str  # whose zones: "US", "CA"
    distance: float | None  # m to the middle of the ZIP area, or to the nearest station; None where neither was used
    zip: str  # of that area; "" where none was used
    disagreeing: tuple[str, ...]  # zones that it may be as well, or instead
    note: str  # how it was found, in a sentence without units
    source: Source
    seen: Seen
    degree_days: tuple[float, float] | None = None  # between which the code's own count lies, K·d below 18 °C


@dataclass(frozen=True, slots=True)
class ZipArea:
    """A ZIP area of the United States."""

    zip: str  # "55802"
    zone: str  # of the map before the 2021 edition
    latitude: float  # of its middle, degrees north
    longitude: float  # degrees east
