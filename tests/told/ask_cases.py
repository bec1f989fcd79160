"""Briefs that leave much open, and how an open input is typed into one."""

from __future__ import annotations

import re
from typing import get_args

from underpour.ask.wording import pattern, wordings
from underpour.brief import reads
from underpour.brief.paths import edge_index
from underpour.brief.tables.edge import Kind

HEAD = """\
[project]
use = "{use}"
units = "SI"

[site]
place = "Duluth, MN"

[plan]
unit = "m"
outline = ["0 0", "12 0", "12 8", "0 8"]

[floor]
build-up = [{{ concrete = "100 mm" }}, {{ board = "plain-15", thickness = "2 in" }}, {{ gravel = "100 mm" }}]

"""
# What each kind of edge cannot be without; the rest is left open.
EDGES = {
    "footing-wall": 'depth = "0.4 m"\nground = "1 m"\n',
    "frost-wall": 'depth = "1.2 m"\n',
    "ledge": 'depth = "1.2 m"\n',
    "threshold": 'depth = "1.2 m"\n',
    "thickened-edge": 'depth = "600 mm"\n',
    "raft": "",
    "free-edge": "",
    "drawn": """\
[[edge.shape]]
unit = "mm"
outline = ["-300 -400", "0 -400", "0 0", "-300 0"]
material = "concrete"
[[edge.shape]]
unit = "mm"
outline = ["-300 0", "0 0", "0 1500", "-300 1500"]
material = "timber-frame"
""",
}
UNITS = {"1": ("", 1.0), "deg": ("deg", 1.0), "J/(m³·K)": ("MJ/(m³·K)", 1e-6), "degC": ("C", 1.0), "m": ("mm", 1e3)}


def bare(use: str = "dwelling", *kinds: str) -> str:
    """A brief for a use with one edge of each kind, nothing typed that can be left out; four sides are shared."""
    kinds = kinds or ("frost-wall",)
    sides = [f"[{n}]" for n in range(1, len(kinds))] + ['"rest"']
    edges = (f'[[edge]]\nsides = {s}\nkind = "{k}"\n{EDGES[k]}' for s, k in zip(sides, kinds, strict=True))
    return HEAD.format(use=use) + "\n".join(edges)


def on_foam() -> str:
    """A floor whose footings stand on foam, with no load told."""
    piece = '{ board = "c578-xiv", thickness = "100 mm", face = "below-footing" }'
    return with_line(bare("dwelling", "frost-wall"), "edge.A", f"insulation = [{piece}]")


LOADS = (
    'like = "rack-post"\ncount = 3\n',
    'like = "forklift-2"\n',
    'like = "hay"\n',
    'kind = "axle"\nforce = "40 kN"\ntyre = "700 kPa"\n',
    'kind = "vehicle"\nforce = "70 kN"\ntyre = "700 kPa"\n',
    'kind = "line"\nforce = "6 kN/m"\n',
)


def loaded() -> tuple[str, ...]:
    """Floors on which something stands of which little is told."""
    return tuple(f"{bare('warehouse', 'raft')}\n[[load]]\n{load}" for load in LOADS)


def without_its(key: str) -> str:
    """A floor with a load that lacks what it stands on, or the pressure of its tyres."""
    kind = "post" if key == "plate" else "wheel"
    return f'{bare("warehouse", "raft")}\n[[load]]\nkind = "{kind}"\nforce = "20 kN"\n'


def jointed() -> tuple[str, ...]:
    """A post near a joint of which nothing is told, and one near a joint with dowels."""
    text = f'{bare("warehouse", "raft")}\n[[load]]\nlike = "rack-post"\nat = "4 4"\n'
    joint = '\n[[joint]]\nfrom = "6 0"\nto = "6 8"\n'
    return text + joint, f'{text}{joint}transfer = "dowels"\n'


def with_lift(more: str = "") -> str:
    """A garage with a lift."""
    return f'{bare("garage", "raft")}\n[[load]]\nlike = "lift-two-post"\n{more}'


def heated() -> str:
    """A floor with tubes of which nothing is told but that their heat rests overnight."""
    return f'{bare("dwelling", "raft")}\n[tube]\nrest = "8 h"\n'


def priced(more: str = 'fuel = "natural-gas"') -> str:
    """A floor with its heat counted in money, nothing told beyond what is typed here."""
    return f'{bare("dwelling", "raft")}\n[money]\ncurrency = "USD"\ndate = "2026-11-01"\n{more}\n'


def pushed() -> str:
    """A floor that something pushes sideways."""
    return without_its("plate") + 'plate = "200 mm x 200 mm"\nsideways = "30 kN"\n'


def cellar() -> str:
    """A cellar whose slab lies against foam at the wall, and of whose air nothing is told."""
    foam = 'insulation = [{ board = "plain-15", thickness = "2 in", face = "slab-edge" }]'
    return with_line(bare("basement", "footing-wall"), "edge.A", foam)


def in_water() -> str:
    """A cellar whose build-up reaches into the ground water."""
    return with_line(cellar(), "site", 'water-table = "1.2 m"')


def on_bare_ground() -> str:
    """A slab on ground of which nothing is known, with nothing between."""
    layers = ', { board = "plain-15", thickness = "2 in" }, { gravel = "100 mm" }'
    return bare("dwelling", "frost-wall").replace(layers, "")


def under_another_covering() -> str:
    """A cellar under a covering of a kind that nobody knows."""
    return cellar().replace("build-up = [", 'build-up = [{ covering = "other" }, ')


def cold_walk(line: str) -> str:
    """A walk that is held to a hard winter, with a line more of its site."""
    return with_line(with_line(bare("walk", "free-edge"), "site", 'freezing-index = "1800 K·d"'), "site", line)


def on_glass() -> str:
    """A post on foam of which nobody knows how stiff it is."""
    board = 'board = "cellglass-85", thickness = "3 in"'
    return without_its("plate").replace('board = "plain-15", thickness = "2 in"', board) + 'plate = "200 mm x 200 mm"\n'


def beside_unheated() -> str:
    """A house with one side against an unheated garage."""
    return with_line(bare("dwelling", "frost-wall", "frost-wall"), "edge.A", 'beside = "unheated"')


def with_film() -> str:
    """A floor whose film is named by its kind."""
    film = '{ vapour-retarder = "film-10-mil" }, { gravel = "100 mm" }'
    return bare("dwelling", "raft").replace('{ gravel = "100 mm" }', film)


def held_to(edition: str, text: str) -> str:
    """The brief, held to an edition of a code."""
    return text.replace("[project]", f'[project]\ncode = "{edition}"', 1)


def over_old_slab() -> str:
    """A new floor over an old slab."""
    text = bare("dwelling", "raft").replace('{ gravel = "100 mm" }', '{ old-slab = "100 mm" }, { gravel = "100 mm" }')
    return text.replace('{ concrete = "100 mm" }', '{ screed = "50 mm" }')


def by_report(kind: str) -> str:
    """A house on soil of which a report states density and moisture, and nothing of its grains."""
    ground = f'ground = {{ dry-density = "1600 kg/m³", moisture = "15 %", kind = "{kind}" }}'
    return with_line(bare("dwelling", "frost-wall"), "site", ground)


def in_layers() -> str:
    """A house on two layers of ground, one by its name, one by a report."""
    report = '{ dry-density = "1600 kg/m³", moisture = "15 %", kind = "fine" }'
    upper = f'[[site.layers]]\nground = {report}\nthickness = "1 m"\n\n'
    return bare("dwelling", "frost-wall").replace("[plan]", f'{upper}[[site.layers]]\nground = "sand"\n\n[plan]')


def walk_in_layers() -> str:
    """A walk over two layers of ground that freeze, one of which the conductivity is typed and one by its name."""
    typed = '{ conductivity = "1.5 W/(m·K)", heat-capacity = "2 MJ/(m³·K)" }'
    upper = f'[[site.layers]]\nground = {typed}\nthickness = "1 m"\n\n'
    return bare("walk", "free-edge").replace("[plan]", f'{upper}[[site.layers]]\nground = "sand"\n\n[plan]')


def over_water() -> list[str]:
    """A house over ground water, on one ground and on two layers."""
    layers = in_layers().replace("[[site.layers]]", 'water-table = "2 m"\n\n[[site.layers]]', 1)
    return [with_line(bare("dwelling", "frost-wall"), "site", 'water-table = "1.5 m"'), layers]


def covered() -> list[str]:
    """A house on ground under turf, one under snow, one on ground in the sun, and one where it never freezes."""
    lines = ('surface = "turf"', 'snow = "300 mm"', 'surface = { sun = ["155 W/m²"] }')
    warm = bare("dwelling", "frost-wall").replace("Duluth, MN", "Miami, FL")
    return [*(with_line(bare("dwelling", "frost-wall"), "site", line) for line in lines), warm]


def gas(more: str = "", site: str = "high", code: str = "", edge: str = "footing-wall") -> str:
    """A cellar over ground that gives radon, of which as much is told as ``more`` says."""
    film = '{ vapour-retarder = "film-15-mil" }, { gravel = "100 mm" }'
    text = bare("basement", edge).replace('{ gravel = "100 mm" }', film)
    text = with_line(text, "site", f'soil-gas = "{site}"') if site else text
    return (held_to(code, text) if code else text) + f"\n[soil-gas]\n{more}"


SUCTION = '\n[[soil-gas.suction]]\nat = "4 4"\n'
FAN = f'system = "fan"\n{SUCTION}\n[[soil-gas.footing]]\nfrom = "0 2"\nto = "12 2"\n'


def drawn() -> tuple[str, ...]:
    """Floors below which soil gas is drawn off, of which little is told."""
    return gas(FAN), gas(f'system = "passive"\n{SUCTION}'), gas('system = "rough-in"\n', code="irc-2021")


def each_kind() -> list[str]:
    """A bare brief for every kind of edge that a brief may name."""
    return [bare("dwelling", kind) for kind in get_args(Kind)]


def with_line(text: str, table: str, line: str, file: str = "") -> str:
    """The brief with a line typed at the head of a table ("floor", "edge.B"), in place of one with the same key.

    A layer's table ("floor.build-up.4") takes it beside what stands there; a table of its own stands at the end.
    """
    if not table:
        return f"{text}\n{line}\n"
    key = line.partition("=")[0].strip()
    name, _, inner = table.partition(".")
    listed, _, layer = inner.partition(".")
    in_tables = f"[[{name}.{listed}]]\n" in text
    if layer and not in_tables:
        start = text.index("[", text.index(f"\n{listed} "))
        braces = list(re.finditer(r"\{[^{}]*\}", text[start:]))[int(layer) - 1]
        kept = [row.strip() for row in braces[0][1:-1].split(",") if row.partition("=")[0].strip() != key]
        return f"{text[: start + braces.start()]}{{ {', '.join([*kept, line])} }}{text[start + braces.end() :]}"
    if not inner and f"[{name}]\n" not in text:
        return f"{text}\n[{name}]\n{line}\n"
    if name == "soil-gas" and inner and not in_tables:
        return _with_line_of_its_own(text, table, line, key)
    heading, number = f"[{name}]", 0
    if in_tables:
        heading, number = f"[[{name}.{listed}]]", int(layer) - 1
    elif inner:
        by_number = int(inner) - 1 if name in ("load", "joint") else None
        edges = [edge.name for edge in reads(text, file).brief.edge]
        heading, number = f"[[{name}]]", edge_index(inner, edges) if by_number is None else by_number
    pieces = re.split(rf"(?m)^({re.escape(heading)}[^\n]*\n)", text)  # before, heading, after, heading, after, ...
    own, bracket, rest = pieces[2 + 2 * number].partition("\n[")
    kept = [row for row in own.splitlines() if row.partition("=")[0].strip() != key]
    pieces[2 + 2 * number] = "\n".join([line, *kept]) + "\n" + bracket + rest
    return "".join(pieces)


def _with_line_of_its_own(text: str, table: str, line: str, key: str) -> str:
    """The same in a table below another that stands once ("soil-gas.pipe"); at the end of the brief where it is new."""
    heading = f"[{table}]\n"
    if heading not in text:
        return f"{text}\n{heading}{line}\n"
    before, after = text.split(heading)
    own, bracket, rest = after.partition("\n[")
    kept = [row for row in own.splitlines() if row.partition("=")[0].strip() != key]
    return before + heading + "\n".join([line, *kept]) + "\n" + bracket + rest


def exactly(path: str, values: dict[str, tuple[float, str]]) -> str:
    """The line that types the input at a path, its numbers in SI to the last digit."""

    def typed(found: re.Match[str]) -> str:
        if found[1] == "each":  # of a table by boards, the one at the path
            value, unit = values[path]
            return f'{path.rpartition(".")[2]} = "{value:.10g} {unit}"'
        value, unit = values[f"{path.rpartition('.')[0]}.{found[1]}"]
        name, times = UNITS.get(unit, (unit, 1.0))
        return f"{value * times:.10g} {name}".rstrip()

    return re.sub(r"<([a-z-]+)>", typed, wordings()[pattern(path)].write)
