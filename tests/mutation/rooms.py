"""Which tests are of the room of a file."""

from __future__ import annotations

from pathlib import Path

TESTS = Path(__file__).parents[1]
# Rooms whose subject is tested in more rooms than the one of its name.
ALSO = {
    "core": (
        *("tests/checks/beams", "tests/checks/posts", "tests/checks/survey", "tests/checks/anchors"),
        *("tests/checks/fire", "tests/doors/test_python_api.py"),
    ),
    "questions": ("tests/doors/test_what_answers_do.py",),
    "frames": ("tests/checks/joints", "tests/published/test_frames.py", "tests/sheet/figures/test_assembly.py"),
    "joints": ("tests/published/test_joints.py", "tests/sheet/figures/test_joint.py"),
    "loads": ("tests/published/test_site_loads.py",),
    "loadpath": ("tests/sheet/figures/test_load_path.py", "tests/worked_examples/test_plated_truss.py"),
    "roofs": ("tests/published/test_joist_spans.py",),
    "beams": ("tests/published/test_wood.py", "tests/sheet/figures/test_beam.py"),
    "anchors": ("tests/sheet/figures/test_anchor.py",),
    "brackets": ("tests/sheet/figures/test_bracket.py", "tests/sheet/figures/test_assembly.py"),
}


def tests_of(file: str) -> tuple[str, ...]:
    """The tests of the room of a file, the nearest first, for most errors are seen there; then every job."""
    _, floor, *rooms = Path(file).with_suffix("").parts
    if floor == "formulas":
        near, rest = [f"tests/formulas/{rooms[0]}"], [*_files("tests/formulas"), "tests/published"]
    elif len(rooms) == 1:
        near, rest = _files("tests/checks"), ["tests/checks/core"]
    else:
        of_its_name = f"tests/checks/{rooms[-1]}"  # fire is a room of tests, and a file in several rooms
        drawn = ["tests/sheet/figures"] if "pictures" in rooms else []
        near, rest = [], [*drawn, of_its_name, f"tests/checks/{rooms[0]}", *ALSO.get(rooms[0], ())]
    near += [path for path in _under(rest) if rooms[-1].split("_")[0] in path.split("/")[-1]]
    every = [] if floor == "formulas" else ["tests/trials/test_figures.py"]
    return tuple(path for path in dict.fromkeys([*near, *rest, *every]) if (TESTS.parent / path).exists())


def _files(folder: str) -> list[str]:
    return sorted(f"{folder}/{path.name}" for path in (TESTS.parent / folder).glob("test_*.py"))


def _under(paths: list[str]) -> list[str]:
    return sorted(
        each.relative_to(TESTS.parent).as_posix()
        for path in paths
        for each in ((TESTS.parent / path).rglob("test_*.py") if not path.endswith(".py") else [])
    )
