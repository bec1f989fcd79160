"""A brief that is text alone, as the desk keeps it, opens no file that it names."""

from pathlib import Path

import pytest

from underpour.brief import reads
from underpour.mistakes import Mistakes

GARAGE = Path(__file__).parents[2] / "examples" / "cool-garage-by-hours"


def test_a_brief_that_stands_alone_names_no_file(monkeypatch):
    """Not even where one of that name lies in the folder in which the program was started."""
    text = (GARAGE / "brief.toml").read_text(encoding="utf-8")
    monkeypatch.chdir(GARAGE)
    assert reads(text).brief.site.weather is not None
    with pytest.raises(Mistakes) as told:
        reads(text, alone=True)
    (mistake,) = tuple(told.value)
    assert mistake.at.endswith("site.weather")
    assert mistake.wrong == "This brief stands alone, with no folder beside it in which a file could lie."
    assert mistake.instead == "Answer it where the file lies: underpour answer BRIEF. Or leave this key out."


def test_a_brief_without_files_may_stand_alone():
    text = (GARAGE.parent / "daylight-basement" / "brief.toml").read_text(encoding="utf-8")
    assert reads(text, alone=True).brief == reads(text).brief
