"""How a command ends: its exit status, its words, and what it leaves in the folder."""

from __future__ import annotations

import os
import subprocess
import sys
from importlib import import_module
from pathlib import Path
from types import ModuleType

import pytest
from dossier_cases import DOSSIER, MEETS, UNTOLD

from underpour.cli import COMMANDS, main
from underpour.cli import catalogue as catalogue_words
from underpour.mistakes import Mistake, Mistakes

BAD = Mistakes([Mistake("floor.build-up.2.thickness", '"2"', "2 of what?", "Write 2 in, 50 mm or R10.", "b.toml", 12)])
WITH_SOURCE = {**os.environ, "PYTHONPATH": str(Path(__file__).parents[2] / "src")}
DOSSIERS = {"short.toml": DOSSIER, "meets.toml": MEETS, "untold.toml": UNTOLD}


@pytest.fixture
def folder(tmp_path, monkeypatch):
    """A folder with briefs whose answers are known beforehand, as the place that the command is called from."""

    def read(path: str) -> str:
        if path == "bad.toml":
            raise BAD
        return path

    def answer(reading: str, hour: str = "") -> object:
        if reading == "broken.toml":
            raise ZeroDivisionError("division by zero\nin two lines")
        if reading == "stopped.toml":
            raise KeyboardInterrupt
        return DOSSIERS[reading]

    stand_ins = {
        "answer": {"answer": answer},
        "brief": {"read": read},
        "sections.buildable": {"buildable": lambda reading: None},
    }
    for name, words in stand_ins.items():
        stand_in = ModuleType(f"underpour.{name}")
        vars(stand_in).update(words)
        monkeypatch.setitem(sys.modules, f"underpour.{name}", stand_in)
    monkeypatch.setattr("underpour.handouts.pictures.comparison", lambda dossier, edge: f"<svg>{edge}</svg>")
    monkeypatch.setattr("underpour.handouts.pictures.page", lambda dossier, edge: f"<html>{edge}</html>")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "80")
    for name in (*DOSSIERS, "bad.toml", "broken.toml", "stopped.toml"):
        Path(name).write_text("kept as it is", "utf-8")
    Path("taken.svg").mkdir()
    return tmp_path


def contents(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() if path.is_file() else b"" for path in sorted(folder.rglob("*"))}


ENDS = [
    ("", 0, "underpour COMMAND --help", ""),
    ("--help", 0, "underpour COMMAND --help", ""),
    ("--version", 0, "underpour 0.1.0", ""),
    ("answer --help", 0, "Answers one brief", ""),
    ("answer meets.toml", 0, "Nothing falls short", ""),
    ("answer short.toml", 1, "1 falls short", ""),
    ("answer untold.toml", 0, "1 cannot tell", ""),
    ("answer untold.toml --strict", 1, "1 cannot tell", ""),
    ("answer meets.toml --strict", 0, "Nothing falls short", ""),
    ("answer short.toml --json", 1, '"format": "findings/1"', ""),
    ("answer short.toml --steps", 1, "How we know", ""),
    ("compare short.toml", 1, "Side by side", ""),
    ("compare short.toml --json", 1, '"format": "findings/1"', ""),
    ("compare meets.toml", 2, "", "There is nothing to compare with."),
    ("compare short.toml --edge Q", 2, "", "The brief has no edge Q."),
    ("compare short.toml -o taken.svg", 2, "", "That is a folder; a file is wanted."),
    ("compare short.toml -o away/slab.svg", 2, "", "There is no folder away."),
    ("compare short.toml -o meets.toml/slab.svg", 2, "", "meets.toml is a file, not a folder."),
    ("compare short.toml -o slab.png", 2, "", "End the name with .svg or .html."),
    ("compare short.toml -o slab", 2, "", "What is written here is SVG or HTML."),
    ("compare short.toml -o taken.html -o slab.htm", 2, "", "End the name with .svg or .html."),
    ("compare short.toml -o a.html -o away/slab.html", 2, "", "There is no folder away."),
    ("compare short.toml -o a.html -o b.html", 2, "", "a.html was asked for already."),
    ("compare short.toml -o a.svg -o A.SVG", 2, "", "Name one file that ends with .svg, and one with .html."),
    ("compare short.toml -o a.html -o", 2, "", "Something has to follow it."),
    ("compare meets.toml -o a.html", 2, "", "There is nothing to compare with."),
    ("compare short.toml -o a.html --edge Q", 2, "", "The brief has no edge Q."),
    (f"compare short.toml -o {'a' * 300}.svg", 2, "", "That name is too long."),
    ("compare short.toml -o", 2, "", "Something has to follow it."),
    ("compare bad.toml -o slab.svg", 2, "", "2 of what?"),
    ("submittal short.toml", 2, "", "Name the paper with -o FILE.pdf."),
    ("submittal short.toml -o a.pdf --paper a5", 2, "", "To choose from: a4, us-letter."),
    ("submittal short.toml -o a.pdf --date yesterday", 2, "", "Write it as 2026-11-25."),
    ("answer", 2, "", "Which brief?"),
    ("answer bad.toml", 2, "", 'b.toml:12  floor.build-up.2.thickness = "2"\n  2 of what?'),
    ("answer short.toml --jsn", 2, "", "Did you mean --json?"),
    ("answer short.toml more.toml", 2, "", "The command does not take this."),
    ("anser short.toml", 2, "", "Did you mean answer?"),
    ("--strict answer", 2, "", "A command comes first."),
    ("catalogue", 2, "", "Which word? One of list, show, compare, thickness, replace, validate, import, export."),
    ("catalogue lst", 2, "", "Did you mean list?"),
    ("catalogue list bords", 2, "", "Did you mean boards?"),
    (
        "answer broken.toml",
        3,
        "",
        "Something broke on our side. Your brief is safe. Send this line:\nunderpour 0.1.0, answer",
    ),
    ("answer stopped.toml", 130, "", ""),
]


@pytest.mark.parametrize(
    ("words", "status", "told", "told_aside"), ENDS, ids=[words[:60] or "nothing" for words, *_ in ENDS]
)
def test_a_command_ends_as_the_table_says_and_leaves_the_folder_alone(folder, capsys, words, status, told, told_aside):
    before = contents(folder)
    assert main(words.split()) == status
    printed = capsys.readouterr()
    assert told in printed.out
    assert told_aside in printed.err
    assert bool(printed.out) == bool(told)
    assert bool(printed.err) == bool(told_aside)
    assert contents(folder) == before


MAKING = ("answer {}", "compare {} -o a.svg", "compare {} -o a.html", "submittal {} -o a.pdf")
REFUSED = [
    ("nowhere.toml", "nowhere.toml"),
    (".", "file"),
    ("a" * 300, "The file cannot be read: "),
    (str(Path(__file__).parent / "briefs" / "bad.toml"), "bad.toml:"),
]


@pytest.mark.parametrize(("brief", "told_aside"), REFUSED, ids=[brief.rpartition("/")[2] for brief, _ in REFUSED])
@pytest.mark.parametrize("command", ["answer {} --json", *MAKING])
def test_a_brief_that_cannot_be_used_is_refused_by_every_command(
    tmp_path, monkeypatch, capsys, command, brief, told_aside
):
    monkeypatch.chdir(tmp_path)
    assert main(command.format(brief).split()) == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    assert told_aside in printed.err
    assert "Something broke" not in printed.err
    assert contents(tmp_path) == {}


def test_a_picture_is_written_whole_and_nothing_else(folder, capsys):
    before = contents(folder)
    assert main(["compare", "short.toml", "-o", "slab.svg"]) == 1
    assert contents(folder) == {**before, "slab.svg": b"<svg>A</svg>"}
    assert "The picture of edge A is in slab.svg." in capsys.readouterr().out


def test_a_page_and_a_picture_are_made_from_one_answer(folder, capsys):
    before = contents(folder)
    assert main(["compare", "short.toml", "-o", "slab.HTML", "-o", "slab.svg"]) == 1
    assert contents(folder) == {**before, "slab.HTML": b"<html>A</html>", "slab.svg": b"<svg>A</svg>"}
    told = capsys.readouterr().out
    assert "The page is in slab.HTML: open it in any browser, it needs no network." in told
    assert "The picture of edge A is in slab.svg." in told


def test_where_the_picture_cannot_be_made_no_page_is_left_either(folder, monkeypatch):
    before = contents(folder)

    def broken(dossier: object, edge: str) -> str:
        raise ZeroDivisionError

    monkeypatch.setattr("underpour.handouts.pictures.comparison", broken)
    assert main(["compare", "short.toml", "-o", "slab.html", "-o", "slab.svg"]) == 3
    assert contents(folder) == before


def test_an_older_picture_is_replaced(folder):
    Path("slab.svg").write_text("older", "utf-8")
    main(["compare", "short.toml", "-o", "slab.svg"])
    assert Path("slab.svg").read_text("utf-8") == "<svg>A</svg>"


def test_a_brief_is_never_written_over(folder, capsys):
    Path("brief.svg").write_text("kept", "utf-8")
    before = contents(folder)
    assert main(["compare", "brief.svg", "-o", "./brief.svg"]) == 2
    assert "That is the brief itself." in capsys.readouterr().err
    assert contents(folder) == before


@pytest.mark.parametrize("file", ["slab.svg", "slab.html"])
def test_a_full_disk_leaves_the_older_file_and_nothing_beside_it(folder, capsys, monkeypatch, file):
    Path(file).write_text("older", "utf-8")
    before = contents(folder)

    def full(path: Path, content: bytes) -> int:
        path.touch()
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", full)
    assert main(["compare", "short.toml", "-o", file]) == 2
    assert "It could not be written: No space left on device." in capsys.readouterr().err
    monkeypatch.undo()
    assert contents(folder) == before


def test_our_fault_is_one_line_to_send_and_more_on_request(folder, capsys):
    main(["answer", "broken.toml"])
    line = capsys.readouterr().err.splitlines()[1]
    assert line.endswith("ZeroDivisionError: division by zero in two lines")
    assert "cli/answered.py:" in line
    assert main(["answer", "broken.toml", "--traceback"]) == 3
    assert "Traceback" in capsys.readouterr().err


def test_a_closed_pipe_is_quiet_and_keeps_the_exit_status():
    command = [sys.executable, "-m", "underpour", "--help"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=WITH_SOURCE) as process:
        process.stdout.close()
        assert process.stderr.read() == b""
    assert process.returncode == 0


def options_of(module) -> set[str]:
    return {option for action in module.parser()._actions for option in action.option_strings}


WORDS_OF_CATALOGUE = sorted({module for module, _ in catalogue_words.WORDS.values()} - {"tables"})


@pytest.mark.parametrize(
    "command",
    [*(each for each in COMMANDS if each != "catalogue"), *(f"catalogue.{each}" for each in WORDS_OF_CATALOGUE)],
)
def test_the_help_of_a_command_names_every_word_it_takes_and_an_example(command):
    module = import_module(f"underpour.cli.{command}")
    helped = {word.strip("[],.") for word in module.HELP.split() if word.strip("[").startswith("-")}
    assert options_of(module) == helped
    assert "For example:" in module.HELP
    assert max(map(len, module.HELP.splitlines())) <= 80


@pytest.mark.parametrize("word", ["", *catalogue_words.WORDS])
def test_the_catalogue_and_each_of_its_words_have_their_own_help(word, capsys):
    assert main(["catalogue", *filter(None, [word]), "--help"]) == 0
    told = capsys.readouterr().out
    assert f"underpour catalogue {word}".strip() in told
    assert "For example:" in told
    assert max(map(len, told.splitlines())) <= 80


def loaded_by(*words: str) -> set[str]:
    """What a process has loaded once the command has ended."""
    listed = f"import sys; from underpour.cli import main; main({list(words)!r}); print(*sys.modules, file=sys.stderr)"
    told = subprocess.run([sys.executable, "-c", listed], capture_output=True, text=True, check=True, env=WITH_SOURCE)
    return set(told.stderr.split())


def test_help_is_told_without_loading_what_only_answers_need():
    heavy = {"numpy", "scipy", "pydantic", "typst", "argparse", "contourpy", "tomllib", "jinja2"}
    assert heavy.isdisjoint(loaded_by("--help"))


@pytest.mark.parametrize("command", MAKING)
def test_a_brief_is_refused_before_anything_heavy_is_loaded(command):
    loaded = loaded_by(*command.format(Path(__file__).parent / "briefs" / "bad.toml").split())
    assert {"numpy", "scipy", "contourpy", "typst", "jinja2", "markupsafe"}.isdisjoint(loaded)
    assert "underpour.catalogue.codes" not in loaded
    assert "underpour.brief" in loaded


def test_an_answer_loads_no_plate_where_nothing_stands_on_the_slab_and_nothing_that_draws():
    brief = Path(__file__).parents[2] / "examples" / "daylight-basement" / "brief.toml"
    loaded = loaded_by("answer", str(brief), "--json")
    spare = {"underpour.checks.bearing.under_loads", "underpour.physics.plates", "scipy.special", "scipy.interpolate"}
    assert (spare | {"contourpy", "underpour.drawings", "typst", "jinja2", "openpyxl", "sqlite3"}).isdisjoint(loaded)
    assert "underpour.physics.conduction.solve" in loaded
