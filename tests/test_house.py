"""How the house is built: who may import whom, who touches files, how long a file may be, what lies at the top."""

from __future__ import annotations

import ast
import re
import subprocess
import sys
from collections import Counter
from collections.abc import Iterator
from functools import cache
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

import pytest
from support.paths import ROOT

TOP = ROOT
HOUSE = TOP / "guidegen"

# The rooms that may touch the file system as a whole, and the files besides.
TOUCHING_ROOMS = ("writing", "terminal", "commands", "preview", "receiving")
TOUCHING_FILES = {
    "base/known_words.py": "reads the words of painting",
    "base/workers.py": "takes the terminal from what libraries say in a worker",
    "base/own_files.py": "says where our templates lie",
    "reading/content/discover.py": "opens the texts of the content folder",
    "reading/content/walk.py": "finds what lies in the content folder",
    "imaging/develop.py": "asks how large a photo's file is",
    "imaging/load.py": "loads a photo's bytes",
    "rendering/theme/sandbox.py": "loads templates, and none from elsewhere",
    "rendering/theme/template_worker.py": "answers over pipes, and asks the system how large its process is",
    "rendering/theme/templates.py": "loads templates",
    "rendering/theme/template_files.py": "looks which of them may be loaded",
    "words/language.py": "reads the words of a language",
    "words/spoken_words.py": "reads what painters say in a language",
}

LONGEST_FILE = 400
FULLEST_FOLDER = 25
LOOSE_MODULES = 3
# A function of more lines than this is long, and so many may be: a formula, a loop that would be slower in pieces.
LONG_FUNCTION = 40
MOST_LONG_FUNCTIONS = 10

AT_THE_TOP = {
    "README.md",
    "DEVELOPERS.md",
    "CHANGELOG.md",
    "LICENSE",
    "pyproject.toml",
    "guidegen",
    "templates",
    "content",
    "tests",
    "site",
}

# Slow to import, so never on the way to `guidegen --help`.
HEAVY = {
    "PIL",
    "icalendar",
    "jinja2",
    "markdown_it",
    "numpy",
    "openpyxl",
    "pillow_heif",
    "rich",
    "rapidfuzz",
    "segno",
    "watchdog",
    "yaml",
    "zxingcpp",
}


def levels() -> dict[str, tuple[int, int]]:
    """Every room's level and its turn among the rooms of its part, as the picture in DEVELOPERS.md has them.

    A line of the picture is a level: parts by name, and behind a part's colon its rooms in the order in which they may
    import each other. Rooms with a comma between them are siblings.
    """
    text = (TOP / "DEVELOPERS.md").read_text(encoding="utf-8")
    picture = re.search(r"^## Rooms\n.*?^```text\n(.*?)^```", text, re.DOTALL | re.MULTILINE)
    assert picture, "DEVELOPERS.md has no picture of the rooms"
    found = {}
    for line in picture[1].splitlines():
        level, _, parts = line.partition("  ")
        for part in re.split(r"  +", parts.split(" — ")[0].strip()):
            name, _, rooms = part.partition(": ")
            found[name] = int(level), 0
            for turn, siblings in enumerate(filter(None, rooms.split(" < "))):
                found |= {f"{name}.{room}": (int(level), turn) for room in siblings.split(", ")}
    return found


LEVELS = levels()


def modules() -> dict[str, Path]:
    """Every module of the package by its dotted name."""
    found = {}
    for path in sorted(HOUSE.rglob("*.py")):
        parts = path.relative_to(TOP).with_suffix("").parts
        found[".".join(parts[:-1] if parts[-1] == "__init__" else parts)] = path
    return found


MODULES = modules()
FILES = [path.relative_to(HOUSE).as_posix() for path in MODULES.values()]


@cache
def tree_of(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"), filename=str(path))


def room_of(module: str) -> str:
    """The room that a module lies in: the innermost folder that the picture names, or its file at the top."""
    _, _, name = module.partition(".")
    while name and name not in LEVELS:
        name = name.rpartition(".")[0]
    return name


@cache
def imports_of(module: str) -> set[str]:
    """The modules of ours that a module imports, anywhere in it."""
    path = MODULES[module]
    package = module if path.name == "__init__.py" else module.rpartition(".")[0]
    found = set()
    for node in ast.walk(tree_of(path)):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            base = node.module or ""
            if node.level:
                above = package.split(".")[: len(package.split(".")) - node.level + 1]
                base = ".".join([*above, *([base] if base else [])])
            names = {f"{base}.{alias.name}" for alias in node.names}
            found |= {name if name in MODULES else base for name in names}
    return {name for name in found if name.partition(".")[0] == "guidegen"}


def imported_from_above(module: str) -> Iterator[str]:
    """What a module imports from a place that is not below its own."""
    level, turn = LEVELS[room_of(module)]
    for other in imports_of(module) - {"guidegen"}:
        below = room_of(other)
        down = LEVELS[below][0] < level or (
            below.partition(".")[0] == room_of(module).partition(".")[0] and LEVELS[below] < (level, turn)
        )
        if below != room_of(module) and not down:
            yield other


def test_imports_go_down():
    inner = sorted(set(MODULES) - {"guidegen"})
    assert [module for module in inner if not room_of(module)] == []
    imports = [(module, other) for module in inner for other in imports_of(module)]
    assert [(module, other) for module, other in imports if other not in MODULES] == []
    assert [(module, other) for module in inner for other in imported_from_above(module)] == []


def test_the_picture_names_every_room():
    folders = {
        path.parent.relative_to(HOUSE).as_posix().replace("/", ".") for path in HOUSE.rglob("__init__.py")
    }
    files = {path.stem for path in HOUSE.glob("*.py")} - {"__init__"}
    assert set(LEVELS) == (folders - {"."}) | files


def test_rooms_have_room():
    full = Counter(path.parent for path in HOUSE.rglob("*.py"))
    assert max(full.values()) <= FULLEST_FOLDER, full.most_common(1)
    assert full[HOUSE] - 1 <= LOOSE_MODULES


def test_no_imports_go_round():
    try:
        order = list(TopologicalSorter({module: imports_of(module) for module in MODULES}).static_order())
    except CycleError as circle:
        pytest.fail("imports go round: " + " → ".join(circle.args[1]))
    assert set(order) >= set(MODULES)


# What a file that touches the file system says, as far as its text can tell.
TOUCHING_IMPORTS = {"fcntl", "fileinput", "glob", "msvcrt", "shutil", "tempfile"}
TOUCHING_METHODS = {
    "exists",
    "glob",
    "hardlink_to",
    "is_dir",
    "is_file",
    "is_symlink",
    "iterdir",
    "lstat",
    "mkdir",
    "read_bytes",
    "read_text",
    "rglob",
    "rmdir",
    "stat",
    "symlink_to",
    "touch",
    "unlink",
    "write_bytes",
    "write_text",
}
# The rest of `os` asks the machine, not its disk, or goes on with a file that another part opened.
HARMLESS_IN_OS = {
    "stat_result",
    "PathLike",
    "cpu_count",
    "environ",
    "fdopen",
    "fspath",
    "get_terminal_size",
    "getpid",
    "name",
    "sched_getaffinity",
}


def touches(tree: ast.Module) -> Iterator[str]:
    """What in a file reads or writes the file system."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Import | ast.ImportFrom):
            names = [node.module or ""] if isinstance(node, ast.ImportFrom) else [a.name for a in node.names]
            yield from (name for name in names if name.partition(".")[0] in TOUCHING_IMPORTS)
        elif isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) and node.value.id == "os":
            if node.attr not in HARMLESS_IN_OS:
                yield f"os.{node.attr}"
        elif isinstance(node, ast.Call):
            called = node.func
            if isinstance(called, ast.Name) and called.id == "open":
                yield "open"
            elif isinstance(called, ast.Attribute) and called.attr in TOUCHING_METHODS:
                yield called.attr


def test_few_files_touch_the_file_system():
    others = (
        file
        for file in FILES
        if not file.startswith((*TOUCHING_ROOMS, "building")) and file not in TOUCHING_FILES
    )
    found = {file: list(touches(tree_of(HOUSE / file))) for file in others}
    assert {file: what for file, what in found.items() if what} == {}


def test_touching_is_seen():
    said = "import os, shutil\nopen('a')\npath.read_text()\nos.replace(a, b)\nos.cpu_count()\ntext.replace(a, b)\n"
    assert sorted(touches(ast.parse(said))) == ["open", "os.replace", "read_text", "shutil"]


CODE = sorted(
    path.relative_to(TOP).as_posix()
    for folder, endings in (
        ("guidegen", ("py",)),
        ("templates", ("css", "html", "js")),
        ("tests", ("py", "sh")),
    )
    for ending in endings
    for path in (TOP / folder).rglob(f"*.{ending}")
)


def test_files_are_short():
    lines = {file: (TOP / file).read_text(encoding="utf-8").count("\n") for file in CODE}
    assert {file: count for file, count in lines.items() if count > LONGEST_FILE} == {}


def test_few_functions_are_long():
    long = [
        f"{file}:{node.lineno} {node.name}"
        for file in FILES
        for node in ast.walk(tree_of(HOUSE / file))
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)
        and (node.end_lineno or node.lineno) - node.lineno >= LONG_FUNCTION
    ]
    assert len(long) <= MOST_LONG_FUNCTIONS, "\n".join(long)


def test_every_file_says_what_it_is_for():
    assert [file for file in FILES if not ast.get_docstring(tree_of(HOUSE / file))] == []


def test_what_lies_at_the_top():
    found = {
        entry.name
        for entry in TOP.iterdir()
        if not entry.name.startswith(".") and not (entry / "pyvenv.cfg").exists()
    }
    # What building a wheel and running Python leave behind.
    assert found - {"build", "dist", "__pycache__"} <= AT_THE_TOP


def test_the_way_to_help_is_light():
    code = "import sys, guidegen.cli; print(*sorted({name.partition('.')[0] for name in sys.modules}))"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=TOP)
    assert not HEAVY & set(run.stdout.split())
