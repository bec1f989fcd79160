"""One section as a picture of the page: what lasts, and the layers that a pressed month replaces."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from markupsafe import Markup

from ..dossier import Dossier
from ..drawings import colours
from ..drawings.frost_winter import frost_drawn
from ..drawings.gas_pipe import TITLE as GAS
from ..drawings.gas_pipe import gas_rows
from ..drawings.heated_flow import flow_drawn
from ..drawings.heated_from_cold import cold_drawn
from ..drawings.heated_section import section_drawn, shared_scale
from ..drawings.heated_year import TITLE as YEAR
from ..drawings.heated_year import year_drawn
from ..drawings.humid_strip import TITLE, humid_rows
from ..drawings.legend import FROST_HIGH, LEGEND_HIGH, SWATCH, frost_key, legend, swatch
from ..drawings.one_section import WIDE
from ..drawings.paper import FAMILY, mm, rectangle
from ..drawings.scale import Scale
from ..drawings.section import clipped
from ..drawings.through_the_year import PANEL, Compared, Through
from .given import Shown

MARGIN = 0.4  # mm, so that no pen is cut at the border


def section_picture(compared: Compared, through: Through, moment: int, label: str) -> Markup:
    """The section at one moment, in groups named after ``Layers`` and one for the cross.

    Air and what is named in it take the theme's colours; bodies and what lies in them keep those of paper.
    """
    frame, same, layers = through.frame, through.lasting, through.layers[moment]
    leaf = rectangle(frame.left, frame.top, frame.width, frame.height, colours.light()["leaf"])
    drawn = (
        f"<defs>{''.join(same.defs)}</defs>"
        f'<g clip-path="url(#{through.prefix}-window)"><g class="outside">{leaf}{same.room}</g>'
        f"{clipped(_layer('tints', layers.tints), through.prefix)}{same.hatches}"
        f"{clipped(_layer('lines', layers.lines), through.prefix)}{same.outlines}</g>"
        f"{_layer('values', layers.values)}"
        f'<g class="outside">{through.border}{_layer("marks", layers.marks)}'
        f"{_layer('floor', layers.floor)}{through.bar}</g>"
        f"{_layer('cross', '')}"
    )
    return _picture(compared.wide, compared.high, drawn, label)


def damp_picture(dossier: Dossier) -> Markup:
    """How humid it is in every alternative, month by month, in the theme's colours; empty for slabs outdoors."""
    if not any(answer.vapour for answer in dossier.alternatives):
        return Markup("")
    found = {answer.name: answer.findings for answer in dossier.alternatives}
    drawn, high = humid_rows(found, dossier.units, width=WIDE)
    leaf = rectangle(0, 0, WIDE, high, colours.light()["leaf"])
    return _picture(WIDE, high, f'<g class="outside">{leaf}{drawn}</g>', TITLE)


def winter_pictures(dossier: Dossier) -> Iterator[Shown]:
    """Every edge through its winters, all alternatives below one another."""
    letters = dict.fromkeys(each.edge for answer in dossier.alternatives for each in answer.wintered)
    for edge in letters:
        body, defs, high = frost_drawn(dossier.alternatives, edge, dossier.units, width=WIDE)
        leaf = rectangle(0, 0, WIDE, high, colours.light()["leaf"])
        label = f"Frost at edge {edge}: the section at its deepest, and the front through the winter"
        yield Shown(label, _picture(WIDE, high, f"<defs>{''.join(defs)}</defs>{leaf}{body}", label))


def heated_pictures(dossier: Dossier) -> Iterator[Shown]:
    """Each alternative's heated floor between its tubes, on one scale, then all of them month by month."""
    floors = {answer.name: answer.heated for answer in dossier.alternatives if answer.heated is not None}
    if not floors:
        return
    scale = shared_scale(tuple(floors.values()), dossier.units)
    for name, of in floors.items():
        drawn = section_drawn(of, dossier.units, width=WIDE, scale=scale, name=name, told=False)
        leaf = rectangle(0, 0, WIDE, drawn.high, colours.light()["leaf"])
        inner = f'<defs>{"".join(drawn.defs)}</defs><g class="outside">{leaf}{drawn.around}</g>{drawn.field}'
        label = f"{name}: {'cables' if of.electric else 'tubes'} in the floor, with temperatures"
        yield Shown(label, _picture(WIDE, drawn.high, inner, label))
    first, of = next(iter(floors.items()))
    if of.pumped is not None:
        flow = flow_drawn(of.pumped, dossier.units, width=WIDE, name=first)
        yield _of_curves(*flow, f"{first}: pressure of one loop by its flow")
    yield _of_curves(*cold_drawn(of, dossier.units, width=WIDE, name=first), f"{first}: from cold, hour by hour")
    yield _of_curves(*year_drawn(floors, dossier.units, width=WIDE), YEAR)


def _of_curves(body: str, high: float, label: str) -> Shown:
    leaf = rectangle(0, 0, WIDE, high, colours.light()["leaf"])
    return Shown(label, _picture(WIDE, high, f'<g class="outside">{leaf}{body}</g>', label))


def gas_picture(dossier: Dossier) -> Markup:
    """How soil gas is drawn off in every alternative, in the theme's colours; empty where no pipe is laid."""
    if not any(answer.drawn_off for answer in dossier.alternatives):
        return Markup("")
    drawn, high = gas_rows({each.name: each.drawn_off for each in dossier.alternatives}, dossier.units, width=WIDE)
    leaf = rectangle(0, 0, WIDE, high, colours.light()["leaf"])
    return _picture(WIDE, high, f'<g class="outside">{leaf}{drawn}</g>', GAS)


def legend_picture(scale: Scale) -> Markup:
    """The row of tints with its values."""
    drawn = f'<g class="outside-letters">{legend(scale, MARGIN, MARGIN, PANEL - 2 * MARGIN)}</g>'
    return _picture(PANEL, LEGEND_HIGH + 1.0, drawn, "Temperatures and their tints, from cold to warm")


def frost_picture(scale: Scale) -> Markup:
    """The frost line and what it is; empty where nothing freezes."""
    drawn = frost_key(scale, MARGIN, 1.0)
    return _picture(PANEL, FROST_HIGH, f'<g class="outside">{drawn}</g>', "") if drawn else Markup("")


def swatch_picture(kind: str, name: str) -> Markup:
    """A small body of one material, with the paper's white below it."""
    filled, drawn = swatch(kind, name, MARGIN, MARGIN)
    wide, high = SWATCH[0] + 2 * MARGIN, SWATCH[1] + 2 * MARGIN
    return _picture(
        wide, high, f"<defs>{filled}</defs>{rectangle(0, 0, wide, high, colours.light()['leaf'])}{drawn}", ""
    )


def _layer(name: str, drawn: str) -> str:
    return f'<g data-layer="{name}">{drawn}</g>'


def _picture(wide: float, high: float, drawn: str, label: str) -> Markup:
    """A picture in its own millimetres; one without a label is for the eye alone."""
    said = f'role="img" aria-label="{escape(label)}"' if label else 'aria-hidden="true"'
    return Markup(  # every word in it was escaped where it was drawn
        f'<svg viewBox="0 0 {mm(wide)} {mm(high)}" width="{mm(wide)}mm" height="{mm(high)}mm" {said} '
        f'font-family="{FAMILY}" font-stretch="condensed" stroke-linejoin="round">{drawn}</svg>'
    )
