"""The margin rule: a plain ruler with the limit as a notch and the value as a pointer; right of the notch it holds."""

from __future__ import annotations

from ..findings import Finding
from ..measure import say
from ..measure.table import System
from . import colours
from .paper import FINE, LINE, line, mm, picture

HALF = 7  # characters on either side of the notch
KELVIN = 5.0  # K from the notch to an end of the ruler
SHARE = 0.25  # of the limit, for every unit with a natural nought


def pointer(finding: Finding) -> float | None:
    """Where the value stands: -1 at the left end, 0 on the limit, 1 at the right end; None where nothing points.

    The ruler reaches 5 K, or a quarter of the limit, to either side, and doubles until the value lies on it.

    >>> pointer(Finding("heat.floor-coldest", "Coldest floor", 17.5, "degC", limit=15.0, sense="at least"))
    0.5
    """
    if finding.margin is None or finding.limit is None:
        return None
    reach = KELVIN if finding.unit in ("degC", "K") else SHARE * abs(finding.limit)
    reach = reach or abs(finding.margin) or 1.0
    while abs(finding.margin) > reach:
        reach *= 2.0
    return finding.margin / reach


def margin_rule(finding: Finding, system: System) -> str:
    """The rule and the distance to the limit as text, for the terminal; "" where the finding has no limit.

    ``system`` is "US" or "SI". Past the notch: ``├──────┼──▲───┤``; short of it: ``├───▲··┼──────┤``;
    cannot tell: ``├ · · ·┼· · · ┤``.
    """
    if finding.verdict == "cannot tell":
        return "├ · · ·┼· · · ┤"
    at = pointer(finding)
    if at is None or finding.margin is None:
        return ""
    steps = ["─"] * (2 * HALF + 1)
    steps[0], steps[HALF], steps[-1] = "├", "┼", "┤"
    place = HALF + (round(at * HALF) or (0 if finding.margin >= 0.0 else -1))
    place = min(max(place, 1), 2 * HALF - 1)
    steps[place + 1 : HALF] = "·" * max(HALF - place - 1, 0)
    steps[place] = "▲"
    return f"{''.join(steps)}  {margin_words(finding, system)}"


def margin_words(finding: Finding, system: System) -> str:
    """The distance to the limit in words: "1.8 °F short", "2.5 K in hand"; "" without a limit."""
    if finding.margin is None:
        return ""
    said = say.margin(abs(finding.margin), finding.unit, system)
    return f"{said} {'in hand' if finding.margin >= 0.0 else 'short'}"


def margin_picture(finding: Finding, system: System, *, width: float = 30.0) -> str:
    """The rule as an SVG picture of that width in mm; "" where the finding has neither limit nor question."""
    at = pointer(finding)
    asks = finding.verdict == "cannot tell"
    if at is None and not asks:
        return ""
    theme = colours.light()
    high, base, left, right = 5.0, 2.6, 0.5, width - 0.5
    middle, reach = width / 2, width / 2 - 1.0
    dotted = ' stroke-dasharray="0.4 1.1" stroke-linecap="round"'
    ink = theme["tell" if asks else "short" if finding.verdict == "falls short" else "ink"]
    drawn = [line(x, base - 1.0, x, base + 1.0, FINE, colour=theme["frame"]) for x in (left, right)]
    drawn.append(line(middle, base - 1.6, middle, base + 1.6, LINE))
    if at is None:
        drawn.append(line(left, base, right, base, LINE, colour=ink, extra=dotted))
    else:
        x = middle + at * reach
        edge = x if at < 0 else right
        drawn.append(line(left, base, edge, base, FINE, colour=theme["frame"]))
        if at < 0:
            drawn.append(line(x, base, middle, base, LINE, colour=ink, extra=dotted))
            drawn.append(line(middle, base, right, base, FINE, colour=theme["frame"]))
        drawn.append(f'<path d="M{mm(x)} {mm(base)}l-1.1 1.9h2.2z" fill="{ink}"/>')
    words = f"{finding.title}: {finding.verdict}, {margin_words(finding, system)}".rstrip(", ")
    return picture(wide=width, high=high, title=words, description=words, defs=(), body=drawn)
