"""The sheets about loads, for the engineer who signs and for the concrete contractor; a sentence for each trade."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Any

from ..measure import say
from ..measure.digits import fixed
from ..measure.table import System

if TYPE_CHECKING:
    from ..checks.bearing import Borne, Carrier
    from ..dossier import Dossier
    from ..findings import Finding

KILO, MEGA, GIGA = 1e3, 1e6, 1e9
THINNER = {"US": 0.0127, "SI": 0.01}  # m, by which slabs come out too thin
FOAM = ("bearing.foam-long", "bearing.foam-short")
NAMES = {"shear": "concrete's shear"}
BY_PLATE = ("plate", "endless", "aisle")
BY_HAND = ("westergaard", "hetenyi")


def carried(dossier: Dossier, system: System) -> dict[str, Any] | None:
    """Everything that the two sheets say; None where nothing stands on the slab."""
    told = [each for each in dossier.as_briefed.borne if each.carrier is not None]
    if not told:
        return None
    carrier = told[0].carrier
    assert carrier is not None
    worst = max(told, key=lambda each: each.used)
    findings = dossier.as_briefed.findings
    texts = _texts()
    return {
        "trades": _trades(worst, carrier, findings, system),
        "engineer": {
            **texts["engineer"],
            "combination": [texts["engineer"]["below"], *dict.fromkeys(_concrete(each) for each in told)],
            "rows": [_row(each, findings, system) for each in told],
            "carrier": [{"name": name, "value": value} for name, value in _carrier(told, carrier, system)],
            "governs": [_governs(each) for each in told],
        },
        "contractor": {
            **texts["contractor"],
            "where": texts["contractor"]["where"] if dossier.as_briefed.floor_borne is not None else "",
            "thick": _thick(carrier, texts["contractor"]["thin"], system),
            "bare": _bare(findings),
            "look": [
                {"at": point.look_at, "wanted": point.wanted, "how": point.how, "before": point.before}
                for point in dossier.as_briefed.inspection
                if any(id.startswith("bearing.") for id in point.rests)
            ],
        },
    }


def _trades(worst: Borne, carrier: Carrier, findings: Sequence[Finding], system: System) -> list[dict[str, str]]:
    """One sentence that each trade can repeat."""
    thickness = say.both(carrier.thickness, "m", system)
    pour = f"{thickness} of concrete everywhere, no tyre on bare boards, joints where the drawing has them."
    said = [{"who": "Engineer", "words": _governs(worst)}, {"who": "Concrete contractor", "words": pour}]
    plate, thumb = (_found(findings, "bearing.least-grade", worst.number, method) for method in ("plate", "spread-45"))
    if plate is not None and plate.value is not None:
        words = f"Foam tested at {say.both(plate.value, 'kPa', system)} carries load {worst.number} below this slab"
        if thumb is not None and thumb.value is not None and thumb.value > plate.value:
            words += f"; the rule of 45 degrees would ask for {say.both(thumb.value, 'kPa', system)}"
        elif thumb is not None and thumb.value is None:
            words += "; by the rule of 45 degrees no foam of the line would do"
        said.append({"who": "Whoever supplies the foam", "words": f"{words}."})
    return said


def _concrete(borne: Borne) -> str:
    assert borne.carrier is not None
    return f"Concrete under load {borne.number}: {borne.carrier.method}."


def _governs(borne: Borne) -> str:
    """Load 3: the foam governs. Of what each may bear is used: foam 345 %, concrete 108 %, ground 97 %."""
    if not borne.shares:
        return f"Load {borne.number} cannot be told of yet."
    shares = sorted(borne.shares, key=lambda share: -share.used)
    told = ", ".join(f"{NAMES.get(share.part, share.part)} {_percent(share.used)}" for share in shares)
    first = NAMES.get(shares[0].part, shares[0].part)
    return f"Load {borne.number}: the {first} governs. Of what each may bear is used: {told}."


def _percent(used: float) -> str:
    return f"{100.0 * used:.0f}\u00a0%" if used < 99.0 else "all and more"


def _row(borne: Borne, findings: Sequence[Finding], system: System) -> dict[str, str]:
    """One load with what foam and concrete feel of it by each method."""

    def of(ids: Sequence[str], *methods: str) -> str:
        found = next((f for m in methods for id in ids if (f := _found(findings, id, borne.number, m))), None)
        return "" if found is None or found.value is None else say.value(found.value, "kPa", system)

    bent = next((f for m in BY_PLATE if (f := _found(findings, "bearing.bending", borne.number, m))), None)
    limits = {share.part: say.value(share.told[1], share.unit, system) for share in borne.alone}
    felt = {share.part: say.value(share.told[0], share.unit, system) for share in borne.alone}
    where = f", {borne.where}" if borne.where else ""
    return {
        "number": borne.number,
        "words": f"{borne.words}{where}. It {'stands for good' if borne.standing else 'comes and goes'}.",
        "plate": of(FOAM, "plate", "endless"),
        "spread": of(FOAM, "spread-45"),
        "through": "" if borne.contact is None else say.value(borne.contact / KILO, "kPa", system),
        "foam": limits.get("foam", ""),
        "ground": limits.get("ground", ""),
        "bent": of(("bearing.bending",), *BY_PLATE),
        "by-hand": of(("bearing.bending",), *BY_HAND),
        "concrete": "" if bent is None else _may(bent, borne, system),
        "shear": felt.get("shear", ""),
        "shear-limit": limits.get("shear", ""),
        "now": _down(findings, borne.number, "now", system),
        "later": _down(findings, borne.number, "50 years", system),
        "settlement-limit": limits.get("settlement", ""),
    }


def _may(bent: Finding, borne: Borne, system: System) -> str:
    """Tension that may be, with the load's factor where the finding has it; where that is a check only, its own."""
    if bent.limit is not None:
        return say.value(bent.limit, "kPa", system)
    share = next((each for each in borne.alone if each.part == "concrete"), None)
    if share is None or bent.value is None:
        return ""
    factor = bent.value / share.told[0]
    return say.value(factor * share.told[1], "kPa", system)


def _down(findings: Sequence[Finding], number: str, after: str, system: System) -> str:
    at = {"load": number, "after": after}
    found = next((f for f in findings if f.id == "bearing.settlement" and at.items() <= f.at.items()), None)
    return "" if found is None or found.value is None else say.value(found.value, "mm", system)


def _carrier(told: Sequence[Borne], carrier: Carrier, system: System) -> list[tuple[str, str]]:
    carriers = [each.carrier for each in told if each.carrier is not None]
    low, high = min(c.bed[0] for c in carriers), max(c.bed[1] for c in carriers)
    lowest, highest = min(c.widest[0] for c in carriers), max(c.widest[1] for c in carriers)

    def k(value: float) -> str:
        return say.both(value / MEGA, "MN/m³", system)

    return [
        ("Slab", say.both(carrier.thickness, "m", system)),
        ("Strength of the concrete, cylinder", say.both(carrier.strength / KILO, "kPa", system)),
        ("Young's modulus E", _stiff(carrier.modulus, system)),
        ("Rupture", say.both(carrier.rupture / KILO, "kPa", system)),
        ("k of foam, bed and ground", f"{k(low)} to {k(high)}, as soft and as stiff as the foam may be"),
        ("k over the ground's whole range", f"{k(lowest)} to {k(highest)}"),
        ("Ground alone", carrier.ground),
        ("Weight of the floor above the foam", say.both(carrier.weight / KILO, "kPa", system)),
    ]


def _stiff(modulus: float, system: System) -> str:
    """Young's modulus as engineers write it: "3.60 million psi (24.9 GPa)"."""
    giga = f"{fixed(modulus / GIGA, 1)} GPa"
    if system == "SI":
        return giga
    return f"{fixed(say.number(modulus / KILO, 'kPa', system) / 1e6, 2)} million {say.name('kPa', system)} ({giga})"


def _thick(carrier: Carrier, thin: str, system: System) -> str:
    less = THINNER[system]
    more = 100.0 * ((carrier.thickness / (carrier.thickness - less)) ** 2 - 1.0)
    said = "Half an inch" if system == "US" else "A centimetre"
    return f"{say.both(carrier.thickness, 'm', system)} everywhere. {thin.format(less=said, more=f'{more:.0f}')}"


def _bare(findings: Sequence[Finding]) -> list[str]:
    """What may go on bare foam, sentence by sentence, and what the brief's own machines do to it."""
    usual = [f.words for f in findings if f.id == "bearing.bare-foam"]
    own = [f.words for f in findings if f.at.get("method") == "bare foam" and f.words]
    return [part.strip() + "." for words in usual for part in words.rstrip(".").split(". ")] + own


def _found(findings: Sequence[Finding], id: str, number: str, method: str) -> Finding | None:
    wanted: Mapping[str, str] = {"load": number, "method": method}
    return next((f for f in findings if f.id == id and all(f.at.get(k) == v for k, v in wanted.items())), None)


@cache
def _texts() -> dict[str, dict[str, Any]]:
    return tomllib.loads(files(__package__).joinpath("loads.toml").read_text("utf-8"))
