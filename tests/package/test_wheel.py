"""The wheel: the same bytes from the same files, what it says of itself, and types that hold in a strict project."""

from __future__ import annotations

import os
import subprocess
import sys
import sysconfig
import zipfile
from email.parser import Parser
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
ELSEWHERE = {key: one for key, one in os.environ.items() if key != "PYTHONPATH"}
USER = Path(__file__).with_name("strict_user.txt")  # no .py: it is a file of another project


def built(folder: Path) -> Path:
    subprocess.run(
        [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder)],
        cwd=ROOT, check=True, capture_output=True, env={**os.environ, "SOURCE_DATE_EPOCH": "1577836800"},
    )  # fmt: skip
    (wheel,) = folder.glob("*.whl")
    return wheel


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return built(tmp_path_factory.mktemp("wheel"))


def test_the_same_files_make_the_same_wheel(wheel: Path, tmp_path: Path) -> None:
    assert built(tmp_path).read_bytes() == wheel.read_bytes()


def test_what_it_holds_and_says(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as file:
        names = set(file.namelist())
        (metadata,) = [name for name in names if name.endswith("METADATA")]
        said = Parser().parsestr(file.read(metadata).decode())
    assert {"beamcheck/py.typed", "beamcheck/tables/manifest.csv", "beamcheck/cli.py"} <= names
    assert not [name for name in names if name.startswith("tests/") or name.endswith(".pyc")]
    assert "Typing :: Typed" in said.get_all("Classifier", [])
    assert said["Keywords"] and said["Summary"] and said["Description-Content-Type"] == "text/markdown"
    assert said["License"] is None and said["License-Expression"] is None  # the owner has not chosen one
    for needed in said.get_all("Requires-Dist", []):
        if "extra ==" not in needed:
            assert "<" in needed, f"{needed}: a next major version may break it"


def test_types_hold_in_a_strict_project_that_installed_it(wheel: Path, tmp_path: Path) -> None:
    """Without the checkout on the path, and without a plug-in of the type checker."""
    import venv

    venv.create(tmp_path / "env", with_pip=False)
    (site,) = (tmp_path / "env").rglob("site-packages")
    with zipfile.ZipFile(wheel) as file:
        file.extractall(site)
    for package in Path(sysconfig.get_path("purelib")).iterdir():  # what it needs, as installed here
        if package.suffix != ".pth" and "whatcarries" not in package.name and package.name != "beamcheck":
            (site / package.name).symlink_to(package)
    user = tmp_path / "user"
    user.mkdir()
    (user / "use.py").write_text(USER.read_text(encoding="utf-8"), encoding="utf-8")
    python = next(one for one in (tmp_path / "env").glob("*/python*") if one.parent.name in ("bin", "Scripts"))
    done = subprocess.run(
        [sys.executable, "-m", "mypy", "--strict", "--python-executable", str(python), "use.py"],
        cwd=user, capture_output=True, text=True, env=ELSEWHERE,
    )  # fmt: skip
    assert done.returncode == 0, done.stdout + done.stderr
    (user / "wrong.py").write_text('import beamcheck\n\nx: int = beamcheck.check_text("").verdict\n')
    wrong = subprocess.run(
        [sys.executable, "-m", "mypy", "--strict", "--python-executable", str(python), "wrong.py"],
        cwd=user, capture_output=True, text=True, env=ELSEWHERE,
    )  # fmt: skip
    assert wrong.returncode == 1 and "Incompatible types in assignment" in wrong.stdout  # the types are really read
