"""Conductivity of a foam as it lies in the ground: from a measured one, by temperature and water."""

from __future__ import annotations

from dataclasses import dataclass
from math import exp


@dataclass(frozen=True, slots=True)
class Measured:
    conductivity: float  # W/(m·K)
    temperature: float  # mean temperature of the test, degC
    where: str  # "record MB-03-THE"
    age: str = ""  # of the foam at the test, where it ages: "aged 180 days"


@dataclass(frozen=True, slots=True)
class Coefficient:
    """A conversion coefficient of a material with its published range."""

    value: float
    low: float
    high: float

    def __str__(self) -> str:
        return f"{self.value:g} ({self.low:g} to {self.high:g})"


@dataclass(frozen=True, slots=True)
class Water:
    share: float  # m³ of water in m³ of foam
    where: str  # how it was found


@dataclass(frozen=True, slots=True)
class InPlace:
    value: float  # W/(m·K), with the tested water
    low: float  # W/(m·K), dry, by the coefficient that gives least
    high: float  # W/(m·K), years in wet ground by the coefficients that give most, or as declared where that is more
    dry: float  # W/(m·K), without water
    steps: str  # how they were reached, in one line


def at_temperature(conductivity: float, tested: float, wanted: float, coefficient: float) -> float:
    """Conductivity at another mean temperature. [W/(m·K)]

    Parameters
    ----------
    conductivity : float
        At the temperature of the test. [W/(m·K)]
    tested, wanted : float
        Mean temperature of the test, and the one that is asked for. [degC]
    coefficient : float
        Temperature conversion coefficient f_T. [1/K]

    Source
    ------
    ISO 10456:2007, 7.2: λ₂ = λ₁ · exp(f_T · (T₂ − T₁)) (from memory).

    Examples
    --------
    >>> round(at_temperature(0.0309, tested=4.4, wanted=10.0, coefficient=0.0036), 5)  # 0.0309 · 1.0204
    0.03153
    """
    return conductivity * exp(coefficient * (wanted - tested))


def with_water(conductivity: float, share: float, coefficient: float) -> float:
    """Conductivity of a dry foam once it holds water. [W/(m·K)]

    Parameters
    ----------
    conductivity : float
        Dry. [W/(m·K)]
    share : float
        Water, by volume. [m³/m³]
    coefficient : float
        Moisture conversion coefficient f_ψ. [1]

    Source
    ------
    ISO 10456:2007, 7.3: λ₂ = λ₁ · exp(f_ψ · (ψ₂ − ψ₁)) (from memory).

    Examples
    --------
    >>> with_water(1.0, share=0.05, coefficient=4.0)  # EPS with 5 % of water: exp(0.2)
    1.2214027581601699
    """
    return conductivity * exp(coefficient * share)


def in_place(
    tests: tuple[Measured, ...],
    tested_water: Water,
    long_water: Water,
    declared: float | None,
    reference: float,
    per_kelvin: Coefficient,
    per_water: Coefficient,
) -> InPlace:
    """The one rule by which a board's conductivity in the ground is found.

    The measured conductivity whose mean temperature lies nearest to ``reference`` is taken there by ``per_kelvin``,
    then given the water of the immersion test. Low is the dry board; high is the board with ``long_water``, or the
    declared conductivity where that is higher. Low and high take the ends of the coefficients' ranges that lead there.

    Parameters
    ----------
    tests : tuple of Measured
        At least one.
    tested_water, long_water : Water
        From the immersion test; after years in wet ground. [m³/m³]
    declared : float or None
        Declared conductivity at the reference temperature, where there is one. [W/(m·K)]
    reference : float
        Mean temperature in the ground. [degC]
    per_kelvin, per_water : Coefficient
        Conversion coefficients of the material with their ranges. [1/K], [1]

    Source
    ------
    ISO 10456:2007, clause 7 (from memory).

    Examples
    --------
    >>> test = Measured(0.030, 10.0, "a test")
    >>> warm, wet = Coefficient(0.0036, 0.003, 0.0048), Coefficient(4.0, 3.0, 5.0)
    >>> found = in_place((test,), Water(0.0, "dry"), Water(0.05, "wet"), None, 10.0, warm, wet)
    >>> found.low, found.value, round(found.high, 5)  # 0.030 as tested, and 0.030 · exp(5 · 0.05)
    (0.03, 0.03, 0.03852)
    """
    test = min(tests, key=lambda each: abs(each.temperature - reference))

    def there(coefficient: float) -> float:
        return at_temperature(test.conductivity, test.temperature, reference, coefficient)

    dry = there(per_kelvin.value)
    least, most = sorted((there(per_kelvin.low), there(per_kelvin.high)))
    damp = with_water(dry, tested_water.share, per_water.value)
    wettest = max(tested_water.share, long_water.share)
    wet = with_water(most, wettest, per_water.high)
    low, high = min(least, dry), max(wet, damp, declared or 0.0)
    above = f"at most with {100.0 * wettest:.3g} % ({long_water.where}) {wet:.4f}"
    if declared is not None:
        above += f", declared {declared:.3f}"
    aged = f", {test.age}" if test.age else ""
    steps = (
        f"{test.conductivity:.4f} W/(m·K) at {test.temperature:.1f} °C ({test.where}{aged})"
        f" × exp({per_kelvin} × ({reference:g} − {test.temperature:.1f})) = {dry:.4f} dry at {reference:g} °C;"
        f" × exp({per_water} × {tested_water.share:.4g}) = {damp:.4f} with {100.0 * tested_water.share:.3g} % of"
        f" water by volume ({tested_water.where}); {above}; low is dry, {low:.4f}, high is {high:.4f}"
    )
    return InPlace(damp, low, high, dry, steps)
