"""The tests on every Python the kit is for, from the sdist as it is handed out: `python -m tests.pythons [PYTEST …]`.

Each Python that is there gets a virtual environment of its own, with the newest packages; the oldest one also another
with every package at its lower bound. What follows the command is handed to pytest. The last lines say what came of
each, and which Python is missing here.
"""

import re
import shutil
import subprocess
import sys
import tempfile
import tomllib
from pathlib import Path

ROOT = Path(__file__).parents[1]
PYTHONS = ("3.11", "3.12", "3.13")
OLDEST = PYTHONS[0]
TYPES = "tests/test_packaging.py::TestForm::test_the_types_of_the_package_agree"  # with what newer packages declare
NEWEST_PACKAGES, LOWEST_PACKAGES = "newest packages", "lowest packages"


def lowest(project):
    """Constraints that hold every package which the project names at its lower bound.

    >>> lowest({"dependencies": ["numpy>=1.26"], "optional-dependencies": {"test": ["quiltmath[lab]", "pytest>=8"]}})
    ['numpy==1.26', 'pytest==8']
    """
    named = [*project["dependencies"], *(name for names in project["optional-dependencies"].values() for name in names)]
    return sorted({name.replace(">=", "==") for name in named if ">=" in name})


def interpreter(version):
    """The path of a Python of this version, or None: on the PATH, by the launcher of Windows, or kept by pyenv."""
    kept = sorted(Path.home().glob(f".pyenv/versions/{version}.*/bin/python"), key=_numbers)
    for command in (["py", f"-{version}"], [f"python{version}"], *([str(path)] for path in reversed(kept))):
        if shutil.which(command[0]) is None:
            continue
        asked = [*command, "-c", "import sys, ensurepip, venv; print(sys.executable, *sys.version_info[:2])"]
        told = subprocess.run(asked, check=False, capture_output=True, text=True)
        if told.returncode == 0 and told.stdout.split()[-2:] == version.split("."):
            return told.stdout.rsplit(maxsplit=2)[0]
    return None


def _numbers(path):
    return [int(number) for number in re.findall(r"\d+", path.parts[-3])]


def unpacked(home):
    """The folder of the sdist, built from this checkout and unpacked in `home`."""
    run(sys.executable, "-m", "hatchling", "build", "-t", "sdist", "-d", home, cwd=ROOT)
    (built,) = home.glob("*.tar.gz")
    shutil.unpack_archive(built, home)
    return home / built.name.removesuffix(".tar.gz")


def environment(python, home, source, packages):
    """The Python of a virtual environment in `home` that has the kit from `source`, and its tests' packages."""
    run(python, "-m", "venv", home)
    own = home / ("Scripts/python.exe" if sys.platform == "win32" else "bin/python")
    more = []
    if packages == LOWEST_PACKAGES:
        constraints = home / "lowest.txt"
        project = tomllib.loads((source / "pyproject.toml").read_text("utf-8"))["project"]
        constraints.write_text("\n".join(lowest(project)))
        more = ["-c", constraints]
    run(own, "-m", "pip", "install", "-q", "--disable-pip-version-check", *more, "-e", f"{source}[test]")
    return own


def run(*command, check=True, **more):
    """Run a program to its end, its output as it comes; returns its exit code."""
    return subprocess.run([str(word) for word in command], check=check, **more).returncode


def main(arguments):
    """Run the tests everywhere; returns 0 where they passed on every Python that is here."""
    came = {}
    with tempfile.TemporaryDirectory() as folder:
        source = unpacked(Path(folder))
        for version in PYTHONS:
            python = interpreter(version)
            for packages in (NEWEST_PACKAGES, LOWEST_PACKAGES)[: 1 + (version == OLDEST)]:
                name = f"Python {version}, {packages}"
                if python is None:
                    came[name] = "not here"
                    continue
                print(f"== {name} ({python})", flush=True)
                try:
                    own = environment(python, Path(folder) / name.replace(" ", "-"), source, packages)
                    apart = ["--deselect", TYPES] if packages == LOWEST_PACKAGES else []
                    code = run(own, "-m", "pytest", *apart, *arguments, check=False, cwd=source)
                    came[name] = "passed" if code == 0 else f"FAILED (pytest's exit code is {code})"
                except subprocess.CalledProcessError as problem:
                    came[name] = f"FAILED to install (exit code {problem.returncode})"
    print("\n".join(f"{name}: {what}" for name, what in came.items()))
    return int(any(what.startswith("FAILED") for what in came.values()) or "passed" not in came.values())


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
