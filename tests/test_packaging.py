"""The kit as it is handed out: what an import loads, what the wheel carries, what the repository holds."""

import ast
import json
import os
import re
import subprocess
import sys
import tarfile
import tomllib
import venv
import zipfile
from itertools import chain
from pathlib import Path

import pytest

import quiltmath

ROOT = Path(__file__).parents[1]
VISIBLE = {"README.md", "DEVELOPERS.md", "pyproject.toml", "quiltmath", "notebooks", "tests", "data"}
ABOUT = f"quiltmath-{quiltmath.__version__}.dist-info"
HEAVY = ("sympy", "matplotlib", "pydantic", "scipy", "ipywidgets")
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
EXTRAS = PROJECT["optional-dependencies"]


def run(*command, **more):
    """Run a program to its end; returns what it printed."""
    ended = subprocess.run(
        [str(word) for word in command], check=False, capture_output=True, text=True, timeout=300, **more
    )
    assert ended.returncode == 0, ended.stdout + ended.stderr
    return ended.stdout


def known_files(*folders):
    """Every file of the kit, or of some of its folders: what git knows, and what it would be told of; where the kit was
    unpacked from its sdist, all that lies there but for what a run of the tests leaves."""
    if (ROOT / ".git").exists():
        names = run("git", "ls-files", "--cached", "--others", "--exclude-standard", *folders, cwd=ROOT).splitlines()
        return [ROOT / name for name in names if (ROOT / name).is_file()]
    left = re.compile(r"(^|/)(\.?venv|__pycache__|\.[a-z]+_cache|\.ipynb_checkpoints|\.hypothesis|PKG-INFO)(/|$)")
    places = [ROOT / folder for folder in folders] or [ROOT]
    files = (path for place in places for path in place.rglob("*") if path.is_file())
    return [path for path in files if not left.search(path.relative_to(ROOT).as_posix())]


def loaded_by(statement):
    """Which of the heavy packages a fresh Python holds after this statement."""
    then = f"import sys; print(*[name for name in {HEAVY} if name in sys.modules])"
    return run(sys.executable, "-c", f"{statement}\n{then}").split()


def imports(path):
    """The packages a file imports, by their top names."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            yield from (name.name.split(".")[0] for name in node.names)
        elif isinstance(node, ast.ImportFrom) and not node.level:
            yield node.module.split(".")[0]


class TestImport:
    @pytest.mark.parametrize(
        "statement",
        [
            "import quiltmath",
            "from quiltmath import lengths, shapes, sewing",
            "from quiltmath import blocks",
            "from quiltmath import draw",
            "from quiltmath import proofs\nproofs.side_triangle.cut(block=9)\nproofs.side_triangle.pictures(block=9)",
            "from quiltmath import root2, usual, yardage",
            "import quiltmath.resources, quiltmath.opening, quiltmath.__main__",
        ],
    )
    def test_it_loads_nothing_heavy(self, statement):
        assert loaded_by(statement) == []

    @pytest.mark.parametrize(
        "statement, needed",
        [
            ("from quiltmath import proofs\nproofs.side_triangle.steps", "sympy"),
            ("from quiltmath import pattern", "pydantic"),
        ],
    )
    def test_a_part_loads_what_it_needs_when_it_is_first_used(self, statement, needed):
        assert needed in loaded_by(statement)

    @pytest.mark.parametrize(
        "first, part, asked_for",
        [
            ("quiltmath", "quiltmath.sewing", "quiltmath.sewing"),
            ("quiltmath.review", "quiltmath.pattern.drafting", "quiltmath.pattern.draft"),
        ],
    )
    def test_a_part_is_not_loaded_before_it_is_asked_for(self, first, part, asked_for):
        asked = f"print({part!r} in sys.modules)"
        printed = run(sys.executable, "-c", f"import sys, {first}\n{asked}\n{asked_for}\n{asked}")
        assert printed.split() == ["False", "True"]

    @pytest.mark.parametrize("name", quiltmath.MODULES)
    def test_every_part_it_names_is_there(self, name):
        assert getattr(quiltmath, name).__name__ == f"quiltmath.{name}"
        assert getattr(quiltmath, name).__doc__
        assert name in dir(quiltmath)

    def test_a_strange_name_is_answered_with_those_there_are(self):
        with pytest.raises(AttributeError, match="no part called 'patchwork'; it has .*lengths"):
            getattr(quiltmath, "patchwork")  # noqa: B009, the name is wrong on purpose


class TestMetadata:
    def test_the_version_is_one(self):
        assert PROJECT["version"] == quiltmath.__version__

    def test_every_package_has_a_lower_bound_and_no_pin(self):
        for requirement in [*PROJECT["dependencies"], *chain(*EXTRAS.values())]:
            assert re.fullmatch(r"[a-z-]+>=[0-9.]+|quiltmath\[(lab|class)\]", requirement), requirement

    @pytest.mark.parametrize("folder, extras", [("quiltmath", ["lab", "class"]), ("tests", ["lab", "class", "test"])])
    def test_every_package_that_is_imported_is_declared(self, folder, extras):
        declared = [*PROJECT["dependencies"], *chain(*(EXTRAS[extra] for extra in extras))]
        named = {re.match("[a-z-]+", name)[0].removeprefix("pytest-").replace("-", "_") for name in declared}
        come_along = {"PIL", "IPython", "jupyter_client", "nbclient", "nbformat"}  # with matplotlib and with jupyterlab
        imported = {module for path in (ROOT / folder).rglob("*.py") for module in imports(path)}
        assert imported - named - come_along - {*sys.stdlib_module_names, "quiltmath", "tests"} == set()


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    """The wheel, built as pip builds it, and nothing left behind in the checkout."""
    before = set(os.listdir(ROOT))
    out = tmp_path_factory.mktemp("wheel")
    run(sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", out, cwd=ROOT)
    assert set(os.listdir(ROOT)) == before
    (built,) = out.glob("*.whl")
    return built


@pytest.fixture(scope="module")
def installed(wheel, tmp_path_factory):
    """Runs a program of a fresh environment that has the wheel in it; the other packages are lent."""
    home = tmp_path_factory.mktemp("fresh")
    venv.create(home, with_pip=False)
    python = home / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
    run(
        sys.executable,
        "-m",
        "pip",
        "--python",
        python,
        "install",
        "-q",
        "--no-deps",
        "--no-index",
        "--disable-pip-version-check",
        wheel,
    )
    packages = Path(run(python, "-c", "import sysconfig; print(sysconfig.get_path('purelib'))").strip())
    lent = [place for place in sys.path if place.endswith("site-packages")]
    (packages / "lent.pth").write_text("\n".join(lent))
    elsewhere = tmp_path_factory.mktemp("elsewhere")

    def go(program, *arguments, codes=(0,), **environment):
        mine = {name: value for name, value in os.environ.items() if name != "PYTHONPATH"}
        ended = subprocess.run(
            [str(python.parent / program), *map(str, arguments)],
            check=False,
            timeout=300,
            cwd=elsewhere,
            env={**mine, "PYTHONUTF8": "1", **environment},
            capture_output=True,
            text=True,
            encoding="utf-8",
        )
        assert ended.returncode in codes and "Traceback" not in ended.stderr, ended.stdout + ended.stderr
        return ended.stdout

    go.elsewhere = elsewhere
    return go


class TestSdist:
    def test_it_carries_every_file_that_the_tests_and_a_developer_need(self, tmp_path):
        run(sys.executable, "-m", "hatchling", "build", "-t", "sdist", "-d", tmp_path, cwd=ROOT)
        (built,) = tmp_path.glob("*.tar.gz")
        with tarfile.open(built) as archive:
            names = {name.partition("/")[2] for name in archive.getnames()}
        assert {path.relative_to(ROOT).as_posix() for path in known_files()} <= names


class TestWheel:
    def test_it_carries_every_file_of_the_package_the_notebooks_and_the_data(self, wheel):
        names = [path.relative_to(ROOT).as_posix() for path in known_files("quiltmath", "notebooks", "data")]
        expected = {name if name.startswith("quiltmath/") else f"quiltmath/{name}" for name in names}
        names = set(zipfile.ZipFile(wheel).namelist())
        assert expected <= names
        assert "quiltmath/py.typed" in names  # tells type checkers to read its annotations
        assert {name.split("/")[0] for name in names} == {"quiltmath", ABOUT}
        assert not any(".ipynb_checkpoints" in name or "__pycache__" in name for name in names)

    def test_the_kit_is_found_in_the_wheel_and_not_in_the_checkout(self, installed):
        package, *folders = installed(
            "python",
            "-c",
            "import quiltmath.resources as p; print(p.PACKAGE, p.folder('data'), p.folder('notebooks'), sep='\\n')",
        ).splitlines()
        assert ROOT not in Path(package).parents
        assert folders == [str(Path(package) / name) for name in ("data", "notebooks")]

    def test_it_reviews_a_sheet_it_brought_along(self, installed):
        data = installed("python", "-c", "import quiltmath.resources as p; print(p.folder('data'))").strip()
        sound, faulty = (
            Path(data, "patterns", name)
            for name in ("sound/built-triangles.toml", "faulty/no-allowance-halved-blocks.toml")
        )
        assert "GO: " in installed("quiltmath", "review", sound)
        assert json.loads(installed("quiltmath", "review", "--json", faulty, codes=(1,)))["verdict"] == "stop"

    def test_it_says_why(self, installed):
        assert "18 1/4 in" in installed("quiltmath", "why", "side_triangle", "block=12")

    def test_it_opens_its_notebooks_on_a_working_copy(self, installed, tmp_path):
        fake = tmp_path / "jupyterlab"
        fake.mkdir()
        (fake / "__init__.py").touch()
        (fake / "labapp.py").write_text("import json\ndef main(told):\n    print(json.dumps(told))\n")
        mine = installed.elsewhere / "quiltmath-notebooks" / "04-a-block-cut-in-half.ipynb"
        out = installed("quiltmath", "open", "04", PYTHONPATH=str(tmp_path))
        told = json.loads(out.splitlines()[-1])
        assert told[-1] == "--LabApp.default_url=/doc/tree/04-a-block-cut-in-half.ipynb"
        assert f"--ServerApp.root_dir={mine.parent}" in told
        assert mine.read_bytes() == (ROOT / "notebooks" / mine.name).read_bytes()
        mine.write_text("my own work")
        assert "(0 added, none overwritten)" in installed("quiltmath", "open", "04", PYTHONPATH=str(tmp_path))
        assert mine.read_text() == "my own work"

    def test_its_page_has_the_readme_and_the_licence(self, wheel):
        archive = zipfile.ZipFile(wheel)
        page = archive.read(f"{ABOUT}/METADATA").decode()
        assert "License-Expression: MIT" in page and "# Quiltmath" in page


@pytest.fixture(scope="module")
def files():
    """Every file of the repository."""
    return known_files()


class TestRepository:
    def test_nothing_else_is_visible_at_the_top(self, files):
        tops = {path.relative_to(ROOT).parts[0] for path in files}
        assert {top for top in tops if not top.startswith(".")} == VISIBLE

    def test_nothing_is_left_undone_and_no_folder_outside_is_named(self, files):
        left = re.compile(
            r"\bTO[D]O\b|\bFIX[M]E\b|\bXX[X]\b|Not[I]mplementedError|assert Tr[u]e\b|"
            r"lorem ips[u]m|/wo[r]k/|/ro[o]t/|\.\./sh[a]red|sh[a]red/(published|design|style)",
            re.IGNORECASE,
        )
        found = [
            f"{path.relative_to(ROOT)}: {line.strip()[:90]}"
            for path in files
            if path.suffix != ".png"
            for line in path.read_text("utf-8").splitlines()
            if left.search(line)
        ]
        assert found == []


class TestForm:
    """The tools of the trade, as DEVELOPERS.md names them; whatever they complain of is what a failure shows."""

    @pytest.mark.parametrize("command", [("check",), ("format", "--check", "--diff")], ids=" ".join)
    def test_ruff_has_nothing_to_say(self, command):
        run(sys.executable, "-m", "ruff", *command, "--no-cache", cwd=ROOT)

    def test_the_types_of_the_package_agree(self):
        run(sys.executable, "-m", "mypy", "--cache-dir", os.devnull, cwd=ROOT)


def parts_imported(path):
    """The parts of the kit that a file of it imports, by their names."""
    package = ["quiltmath", *path.relative_to(ROOT / "quiltmath").parts[:-1]]
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.ImportFrom):
            home = package[: len(package) - node.level + 1] if node.level else []
            module = [*home, *(node.module or "").split(".")] if node.module else home
            if module[0] == "quiltmath":
                yield from [module[1]] if len(module) > 1 else [name.name for name in node.names]
        elif isinstance(node, ast.Import):
            yield from (name.name.split(".")[1] for name in node.names if name.name.startswith("quiltmath."))


class TestMap:
    """DEVELOPERS.md against the code."""

    PAGE = (ROOT / "DEVELOPERS.md").read_text("utf-8")
    PARTS = re.findall(r"^\| `(\w+)` \|", PAGE.split("## The map")[1].split("\n## ")[0], re.MULTILINE)

    def test_the_map_shows_every_part(self):
        there = {
            path.stem
            for path in (ROOT / "quiltmath").iterdir()
            if path.suffix == ".py" or (path / "__init__.py").is_file()
        }
        assert sorted(self.PARTS) == sorted(there - {"__init__"})

    @pytest.mark.parametrize("part", PARTS)
    def test_a_part_imports_only_from_rows_above_its_own(self, part):
        home = ROOT / "quiltmath" / part
        above = self.PARTS[: self.PARTS.index(part)]
        for path in home.rglob("*.py") if home.is_dir() else [home.with_suffix(".py")]:
            assert set(parts_imported(path)) <= {*above, part, "__version__"}, path

    def test_every_file_it_names_is_there(self):
        named = set(re.findall(r"`((?:quiltmath|tests|data|notebooks|\.ci)/[\w./-]*)`", self.PAGE))
        assert len(named) > 10
        assert [name for name in sorted(named) if not (ROOT / name).exists() and "NN" not in name] == []

    def test_every_module_it_runs_is_there(self):
        for module in set(re.findall(r"python -m ([\w.]+)", self.PAGE)):
            place = ROOT.joinpath(*module.split("."))
            assert place.with_suffix(".py").is_file() or (place / "__main__.py").is_file(), module
