"""What is built is whole: the wheel alone, away from the checkout, drafts the demo."""

from __future__ import annotations

import os
import subprocess
import sys
import sysconfig
import tarfile
from pathlib import Path
from zipfile import ZipFile

import pytest

from tests.pack.files import PACK

HOUSE = Path(__file__).resolve().parent.parent


def run(*words: str | Path, cwd: Path) -> str:
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONPATH"}
    result = subprocess.run(
        list(map(str, words)), cwd=cwd, env=environment, capture_output=True, text=True, check=False
    )
    assert result.returncode == 0, f"{words}\n{result.stdout}\n{result.stderr}"
    return result.stdout


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the sdist, and the wheel made from it."""
    folder = tmp_path_factory.mktemp("dist")
    run(sys.executable, "-m", "build", "--no-isolation", "--outdir", folder, HOUSE, cwd=folder)
    return folder


@pytest.fixture(scope="module")
def python(built: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The interpreter of a fresh environment that holds the wheel, and borrows its dependencies from ours."""
    folder = tmp_path_factory.mktemp("fresh") / "venv"
    run(sys.executable, "-m", "venv", "--without-pip", folder, cwd=built)
    bin_folder = "Scripts" if os.name == "nt" else "bin"
    fresh = folder / bin_folder / "python"
    # A path file inside a borrowed folder is not followed, so that our editable install stays out of sight.
    site = run(fresh, "-c", "import sysconfig; print(sysconfig.get_path('purelib'))", cwd=built).strip()
    ours = {sysconfig.get_path("purelib"), sysconfig.get_path("platlib")}
    (Path(site) / "borrowed.pth").write_text("\n".join(sorted(ours)) + "\n")
    wheel = next(built.glob("*.whl"))
    pip = [sys.executable, "-m", "pip", "--python", fresh, "install", "--no-deps", "--no-index", wheel]
    run(*pip, cwd=built)
    return fresh


def test_the_wheel_holds_grammar_and_demo_and_no_tests(built: Path) -> None:
    names = set(ZipFile(next(built.glob("*.whl"))).namelist())
    grammar = {f"notesgen/{path.relative_to(HOUSE)}" for path in (HOUSE / "grammars").rglob("*.toml")}
    assert grammar <= names
    assert "notesgen/demo/harbour.vtt" in names
    assert not [name for name in names if name.startswith(("tests/", "fixtures/"))]


def test_the_sdist_holds_what_the_tests_need(built: Path) -> None:
    with tarfile.open(next(built.glob("*.tar.gz"))) as archive:
        tops = {name.split("/")[1] for name in archive.getnames() if "/" in name}
    assert {"notesgen", "grammars", "tests", "fixtures", "pyproject.toml", "README.md", "LICENSE"} <= tops


def test_the_demo_runs_from_the_wheel_alone(python: Path, tmp_path: Path) -> None:
    home = run(python, "-c", "import notesgen; print(notesgen.__file__)", cwd=tmp_path)
    assert str(HOUSE / "notesgen") not in home
    shown = run(python.with_name("notesgen"), "demo", cwd=tmp_path)
    assert "Harbour Lights" in shown
    assert sorted(path.name for path in (tmp_path / "notesgen-demo").iterdir()) == sorted(
        ["harbour.vtt", *PACK]
    )


def test_examples_of_the_grammar_run_from_the_wheel_alone(python: Path, tmp_path: Path) -> None:
    result = subprocess.run(
        [python.with_name("notesgen"), "grammar", "test", "tied.toml"],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=False,
    )
    assert result.returncode in (0, 1), result.stderr
    assert "passed" in result.stdout.splitlines()[-1]
