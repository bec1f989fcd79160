"""``underpour answer``: what holds and what falls short for one slab."""

from __future__ import annotations

from collections.abc import Sequence

from . import exit_status
from .answered import answered
from .parsing import Words
from .told import Told

EXAMPLE = "underpour answer brief.toml"
HELP = """\
underpour answer BRIEF [--steps] [--json] [--strict] [--accepted-ok]

Answers one brief: each finding with its verdict first, the number against its
limit, what it stands on, and what to do. What falls short comes first.

  BRIEF          the file that says where the slab is and what is under it
  --steps        write out the calculation behind every number
  --json         the findings as JSON, alternatives too (docs/findings.md)
  --strict       end with 1 also where something cannot be told
  --accepted-ok  end with 0 where an [[accept]] names every shortfall

For example:

  underpour answer examples/daylight-basement/brief.toml --steps

It ends with 0 when nothing falls short in the brief as briefed, and 1 when
something does. Alternatives never change that.
"""


def parser() -> Words:
    words = Words("answer", EXAMPLE)
    words.add_argument("brief", nargs="?")
    words.add_argument("--steps", action="store_true")
    words.add_argument("--json", action="store_true")
    words.add_argument("--strict", action="store_true")
    words.add_argument("--accepted-ok", action="store_true")
    return words


def told(words: Sequence[str]) -> Told:
    """The dossier of a brief, as text or JSON."""
    asked = parser()
    given = asked.read(words)
    brief = asked.must(given.brief, "Which brief?")

    dossier = answered(brief)
    status = exit_status.of(dossier, accepted_ok=given.accepted_ok, strict=given.strict)
    if given.json:
        from ..dossier_json import as_json

        return Told(as_json(dossier) + "\n", status)

    from .paragraphs import width_of_terminal
    from .terminal import answer_text, answer_text_with_steps

    text = answer_text_with_steps if given.steps else answer_text
    return Told(text(dossier, width_of_terminal()), status)
