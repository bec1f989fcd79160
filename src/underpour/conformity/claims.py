"""Which class a claim means, and whether the records carry it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ..catalogue.classes import Limit, ProductClass
from ..catalogue.designation import Designation, designation
from ..catalogue.products import FLAT, SHAPED
from ..catalogue.properties import Property, unit_of
from ..findings import Verdict
from ..mistakes import nearest
from .findings import RecordFinding
from .rows import Row
from .rules import Rules

if TYPE_CHECKING:
    from ..catalogue.line import Product

SPELT = {"CAN/ULC-S701.1": "CAN/ULC-S701", "CAN/ULC S701": "CAN/ULC-S701"}
EDITION = re.compile(r"(?<=\d)-\d{2,4}[a-z]?\b")  # of "ASTM C578-23 type II"
LEVELS = {"BS": "flexural", "WL(T)": "water-immersion", "WD(V)": "water-diffusion"}
BY_LEVEL = {"flexural": "EN 12089", "water-immersion": "EN 12087", "water-diffusion": "EN 12088", "strength": "EN 826"}
PER_INCH = "h·ft²·°F/(Btu·in)"


@dataclass(frozen=True, slots=True)
class Shown:
    """One limit against the records of its property."""

    limit: Limit
    row: Row | None  # the record that decides; None where none counts
    holds: bool
    why: str  # why no record counts; "" where one does


def shown(limit: Limit, rows: Sequence[Row]) -> Shown:
    """The worst record that counts, against the limit; no average, no other test, none that is out of date."""
    of_property = [row for row in rows if row.of.key == limit.of.key]
    by_test = [row for row in of_property if set(row.methods) & set(limit.methods)]
    counting = [row for row in by_test if row.counts]
    if not counting:
        if not of_property:
            why = "no record"
        elif not by_test:
            why = f"no record by {' or '.join(limit.methods)}"
        else:
            why = "its record does not count"
        return Shown(limit, None, False, why)
    of_each = [row for row in counting if row.evidence.statistic != "average"]
    if not of_each:
        return Shown(limit, counting[0], False, "an average")
    worst = _worst(of_each, limit.of)
    assert worst.value is not None
    return Shown(limit, worst, limit.held_by(worst.value), "")


def _worst(rows: Sequence[Row], of: Property) -> Row:
    """The record that is least good for what the property is."""
    return min(rows, key=lambda row: (row.value or 0.0) * (1.0 if of.better == "more" else -1.0))


def fits(cls: ProductClass, product: Product) -> bool:
    """Whether a class is for products of this kind and foam."""
    return product.kind in (cls.kinds or (*FLAT, *SHAPED)) and (not cls.families or product.family in cls.families)


def supported(product: Product, rows: Sequence[Row], rules: Rules) -> tuple[ProductClass, ...]:
    """The strongest class of each standard that the records carry; classes from memory alone are left out."""
    best: dict[str, tuple[float, int, ProductClass]] = {}
    held: dict[int, bool] = {}
    for n, cls in enumerate(rules.classes):
        if cls.doubtful or not cls.limits or not fits(cls, product):
            continue
        if all(_holds(limit, rows, held) for limit in cls.limits if limit.firm):
            strength = next((limit.number.value for limit in cls.limits if limit.of.key == "strength"), 0.0)
            if (strength, n) > best.get(cls.standard, (-1.0, -1))[:2]:
                best[cls.standard] = (strength, n, cls)
    return tuple(cls for _, _, cls in best.values())


def _holds(limit: Limit, rows: Sequence[Row], held: dict[int, bool]) -> bool:
    if id(limit) not in held:
        held[id(limit)] = shown(limit, rows).holds
    return held[id(limit)]


def claim(
    words: str, product: Product, rows: Sequence[Row], carried: Sequence[ProductClass], rules: Rules
) -> Iterator[RecordFinding]:
    """What is to be said of one claim; nothing where the records carry it."""
    code = designation(words)
    if code is not None and words not in {cls.name for cls in rules.classes}:
        yield from _code(words, code, product, rows, rules)
        return
    cls = meant(words, rules)
    if cls is None:
        yield _unknown(words, rules)
    elif not fits(cls, product):
        fit = " or ".join(cls.families) or " or ".join(cls.kinds)
        is_of = product.family or product.kind
        wrong = f"{cls.name} is for {fit}, and this is {is_of}. The claim is refused."
        yield RecordFinding("class.claimed", "", words, wrong, _other_claim(cls.standard, carried))
    else:
        yield from _class(words, cls, rows, carried)


def meant(words: str, rules: Rules) -> ProductClass | None:
    """The class of these words; an older or newer name of a standard means the same list."""
    return next((cls for cls in rules.classes if _folded(cls.name) == _folded(words)), None)


def _folded(words: str) -> str:
    for spelt, name in SPELT.items():
        words = words.replace(spelt, name)
    return " ".join(words.casefold().replace("type", " ").replace("class", " ").split())


def _class(
    words: str, cls: ProductClass, rows: Sequence[Row], carried: Sequence[ProductClass]
) -> Iterator[RecordFinding]:
    instead = _other_claim(cls.standard, carried)
    missing: list[Shown] = []
    for each in (shown(limit, rows) for limit in cls.limits):
        if each.row is None:
            missing += [each] if each.limit.firm else []
        elif not each.holds:
            yield _short(words, cls, each, instead)
    if missing:
        listed = "; ".join(f"{each.limit.of.within} ({each.why})" for each in missing)
        refused = "" if cls.doubtful else " The claim is refused until they are shown."
        wrong = f"{cls.name} asks for what the records do not show: {listed}.{refused}"
        verdict: Verdict = "not required, advised" if cls.doubtful else "falls short"
        yield RecordFinding("class.missing", "", words, wrong, f"Test what is missing. {instead}", verdict)
    if cls.doubtful:
        wrong = f"The numbers of {cls.name} are known from memory only, so nobody should stand on this."
        instead = "Hold it against the standard itself."
        yield RecordFinding("class.doubtful", "", words, wrong, instead, "cannot tell", key="claims")


def _short(words: str, cls: ProductClass, each: Shown, instead: str) -> RecordFinding:
    assert each.row is not None
    limit, row = each.limit, each.row
    sense = "at least" if limit.of.better == "more" else "at most"
    wanted = f"{_wanted(limit, row)} wanted {sense} for {cls.name}"
    firm = limit.firm and not cls.doubtful
    if each.why == "an average":
        wrong = f"This is an average; {wanted}, of each specimen."
        instead = f"Write the number that each specimen keeps. {instead}"
    else:
        wrong = f"{row.evidence.value:g} {row.evidence.unit} read; {wanted}."
    return RecordFinding(
        "class.claimed",
        limit.of.name,
        f"{words}: {row.read}",
        f"{wrong} The claim is refused." if firm else f"{wrong} It is not known whether the standard asks for it.",
        instead,
        "falls short" if firm else "not required, advised",
        limit.number.basis(),
        line=row.line,
    )


def _wanted(limit: Limit, row: Row) -> str:
    """The limit as its standard prints it, and in the record's unit where that is another."""
    printed = f"{limit.printed:.1f}" if limit.of.kind == "share" else f"{limit.printed:g}"
    unit, own = limit.printed_unit.replace("% by volume", "%"), row.evidence.unit
    if unit == "count":
        return printed
    words = f"R-{printed} an inch" if unit == PER_INCH else f"{printed} {unit}"
    if own in (limit.printed_unit, unit):
        return words
    times = unit_of(own, limit.of.kind)
    return f"{words} ({limit.number.value * limit.of.unit_si / times:.3g} {own})" if times else words


def _other_claim(standard: str, carried: Sequence[ProductClass]) -> str:
    held = next((cls for cls in carried if cls.standard == standard), None)
    if held is not None:
        return f"The records carry {held.name}; claim that, or test anew."
    return f"The records carry no class of {standard}; claim none, or test anew."


def _unknown(words: str, rules: Rules) -> RecordFinding:
    plain = EDITION.sub("", words)
    close = next((cls for each in (plain, f"ASTM {plain}") if (cls := meant(each, rules)) is not None), None)
    if close is not None:
        if plain != words:
            wrong = (
                "A class is held here by the number of its standard, without the edition. The claim is not looked at."
            )
            instead = f"Write {close.name}, and hold its numbers against that edition yourself."
        else:
            wrong = "The standard has no body's name before it. The claim is not looked at."
            instead = f"Write {close.name}."
        return RecordFinding("class.unknown", "", words, wrong, instead)
    standards = list(dict.fromkeys(cls.standard for cls in rules.classes))
    folded = words
    for spelt, name in SPELT.items():
        folded = folded.replace(spelt, name)
    standard = next((each for each in standards if folded.startswith(each)), None)
    if standard is None:
        wrong = f"No list of classes is held here for {words}, so the claim is not looked at."
        instead = f"Lists that are held: {', '.join(standards)}."
        return RecordFinding("class.no-list", "", words, wrong, instead, "cannot tell", key="claims")
    typed = re.sub(r"^(type|class)\s+", "", folded.removeprefix(standard).strip(), flags=re.IGNORECASE)
    elsewhere = [cls for cls in rules.classes if cls.type.casefold() == typed.casefold() and cls.standard != standard]
    own = [cls.type for cls in rules.classes if cls.standard == standard]
    if elsewhere:
        wrong = f"{typed} stands in the list of {elsewhere[0].standard}, not of {standard}. The claim is refused."
    else:
        near = nearest(typed, own)
        wrong = f"{standard} has no class {typed or 'without a name'}. The claim is refused."
        wrong += f" The nearest is {near[0]}." if near else ""
    return RecordFinding("class.unknown", "", words, wrong, f"Its classes are {', '.join(own)}.")


def _code(
    words: str, code: Designation, product: Product, rows: Sequence[Row], rules: Rules
) -> Iterator[RecordFinding]:
    """The parts of a European code that a record can be held against."""
    of_standard = [cls for cls in rules.classes if cls.standard == code.standard]
    if not of_standard:
        wrong = f"No list of classes is held here for {code.standard}, so the claim is not looked at."
        instead = "Hold it against the standard itself."
        yield RecordFinding("class.no-list", "", words, wrong, instead, "cannot tell", key="claims")
        return
    if not any(fits(cls, product) for cls in of_standard):
        foams = " or ".join(of_standard[0].families)
        wrong = f"{code.standard} is for {foams}, and this is {product.family or product.kind}."
        yield RecordFinding(
            "class.claimed", "", words, f"{wrong} The claim is refused.", "Claim the standard of its foam."
        )
        return
    missing: list[str] = []
    levels = [(letters, level, _property_of(letters)) for letters, level in code.levels]
    if code.creep is None and not any(key for _, _, key in levels):
        if words.startswith(code.standard):
            yield _unknown(words, rules)
            return
        wrong = "The code declares nothing that a record can be held against here, so the claim is not looked at."
        instead = "Write the whole code of the label."
        yield RecordFinding("class.nothing-held", "", words, wrong, instead, "cannot tell", key="claims")
    for letters, level, key in levels:
        if key is not None:
            yield from _level(words, f"{letters}{level:g}", key, level, rows, missing, rules)
    if code.creep is not None:
        yield from _creep(words, code, rows, missing, rules)
    if missing:
        wrong = f"The code declares what the records do not show: {'; '.join(missing)}."
        wrong += " The claim is refused until they are shown."
        yield RecordFinding("class.missing", "", words, wrong, "Test what is missing, or take it out of the code.")


def _property_of(letters: str) -> str | None:
    """The property that a level of a code is of; None where nothing here holds it."""
    return "strength" if letters.startswith("CS") else LEVELS.get(letters)


def _level(
    words: str, part: str, key: str, level: float, rows: Sequence[Row], missing: list[str], rules: Rules
) -> Iterator[RecordFinding]:
    of, test = rules.properties[key], BY_LEVEL[key]
    counting = [row for row in rows if row.of.key == key and test in row.methods and row.counts]
    if not counting:
        missing.append(f"{part}, {of.within} by {test}")
        return
    counting = [row for row in counting if row.evidence.statistic != "average"]
    if not counting:
        missing.append(f"{part}, {of.within} by {test} of each specimen (the record is an average)")
        return
    percent = of.kind == "share"
    scale = 100.0 if percent and of.unit != "%" else 1.0
    declared, unit = level / scale, "%" if percent else of.unit
    worst = _worst(counting, of)
    assert worst.value is not None
    holds = worst.value >= declared - 1e-9 if of.better == "more" else worst.value <= declared + 1e-9
    if not holds:
        sense = "at least" if of.better == "more" else "at most"
        wrong = f"{worst.evidence.value:g} {worst.evidence.unit} read; {level:g} {unit} wanted {sense} for {part}."
        instead = "Declare the level that the record carries, or test anew."
        yield RecordFinding(
            "class.claimed",
            of.name,
            f"{words}: {worst.read}",
            f"{wrong} The claim is refused.",
            instead,
            line=worst.line,
        )


def _creep(
    words: str, code: Designation, rows: Sequence[Row], missing: list[str], rules: Rules
) -> Iterator[RecordFinding]:
    assert code.creep is not None
    declared, of = code.creep, rules.properties["creep"]
    part = f"CC({declared.total:g}/{declared.creep:g}/{declared.years:g}){declared.stress:g}"
    for row in (row for row in rows if row.of.key == "creep" and row.counts):
        stress, reaches = row.evidence.conditions.stress, row.evidence.conditions.reaches
        enough = stress is not None and stress.si >= 1000.0 * declared.stress - 1e-6
        long = reaches is not None and reaches.si >= 0.999 * declared.years * (unit_of("years", "time") or 1.0)
        if enough and long and row.value is not None:
            if row.value > declared.total + 1e-9:
                wrong = (
                    f"{row.evidence.value:g} {row.evidence.unit} read; {declared.total:g} % wanted at most for {part}."
                )
                instead = "Declare the stress that the record carries, or test anew."
                yield RecordFinding(
                    "class.claimed",
                    of.name,
                    f"{words}: {row.read}",
                    f"{wrong} The claim is refused.",
                    instead,
                    line=row.line,
                )
            return
    missing.append(f"{part}, strain in {declared.years:g} years under {declared.stress:g} kPa by EN 1606")


def not_held(words: str) -> tuple[str, ...]:
    """Parts of a European code that nothing here holds a record against."""
    code = designation(words)
    if code is None:
        return ()
    levels = (f"{letters}{level:g}" for letters, level in code.levels if _property_of(letters) is None)
    after = (f"{code.creep.creep:g} % of creep alone",) if code.creep else ()
    return (*levels, *after, *code.others)
