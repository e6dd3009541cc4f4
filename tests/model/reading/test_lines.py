"""The map from key path to line: every path leads to the line on which the value was written."""

from __future__ import annotations

import tomllib

from hypothesis import given
from hypothesis import strategies as st

from beamcheck.model.reading.lines import line_map, line_of

SPELLED_OUT = """\
# a comment [ with { brackets
[job]
title = "a # no comment, [ { "   # a comment
"odd key" = 'x'
notes = \"\"\"
line [ {
\"\"\"
  [[beam]]
  name = "B1"
supports = [
  { at = "0 ft", on = "west ] post" },
  # between

  { at = "14 ft",
    on = "plate" }, { at = 1.5, date = 2025-05-03 10:00:00 },
]
cuts = []
wall.at = 1
[beam.values]
E = '''
two
lines'''
[[beam.carries]]
what = "x"
[[beam.carries]]
what = "y"
[[beam]]
name = "B2"
[[beam.carries]]
dead = [[1,
2], [3]]
"""


def test_each_key_and_entry_has_the_line_on_which_it_begins() -> None:
    """Counted by hand in the text above; two entries of a list may share a line."""
    found = line_map(SPELLED_OUT)
    expected = {
        ("job",): 2, ("job", "title"): 3, ("job", "odd key"): 4, ("job", "notes"): 5,
        ("beam",): 8, ("beam", 0): 8, ("beam", 0, "name"): 9, ("beam", 0, "supports"): 10,
        ("beam", 0, "supports", 0): 11, ("beam", 0, "supports", 0, "at"): 11, ("beam", 0, "supports", 0, "on"): 11,
        ("beam", 0, "supports", 1): 14, ("beam", 0, "supports", 1, "at"): 14, ("beam", 0, "supports", 1, "on"): 15,
        ("beam", 0, "supports", 2): 15, ("beam", 0, "supports", 2, "at"): 15, ("beam", 0, "supports", 2, "date"): 15,
        ("beam", 0, "cuts"): 17, ("beam", 0, "wall"): 18, ("beam", 0, "wall", "at"): 18,
        ("beam", 0, "values"): 19, ("beam", 0, "values", "E"): 20,
        ("beam", 0, "carries"): 23, ("beam", 0, "carries", 0): 23, ("beam", 0, "carries", 0, "what"): 24,
        ("beam", 0, "carries", 1): 25, ("beam", 0, "carries", 1, "what"): 26,
        ("beam", 1): 27, ("beam", 1, "name"): 28, ("beam", 1, "carries"): 29, ("beam", 1, "carries", 0): 29,
        ("beam", 1, "carries", 0, "dead"): 30, ("beam", 1, "carries", 0, "dead", 0): 30,
        ("beam", 1, "carries", 0, "dead", 1): 31,
    }  # fmt: skip
    assert found == expected


def test_windows_line_ends_count_once() -> None:
    assert line_map("a = 1\r\nb = 2\r\n") == {("a",): 1, ("b",): 2}


def test_a_path_without_a_line_has_that_of_what_is_around_it() -> None:
    lines = line_map(SPELLED_OUT)
    assert line_of(lines, ("beam", 0, "supports", 1, "bearing")) == 14
    assert line_of(lines, ("beam", 1, "finish")) == 27
    assert line_of(lines, ("post", 0, "on")) is None
    assert line_of({}, ()) is None


def test_deep_paths_are_cut_off_not_collected() -> None:
    deep = line_map("a.b.c.d.e.f.g.h = 1")
    assert max(map(len, deep)) == 6


NAMES = st.text("abcxyz", min_size=1, max_size=3)
LEAVES = st.sampled_from(["#", "'x'", '"]"', "'{'", '"\\""', "true", "1.5", "'''a\nb'''", "[]", "{}"])
INLINE = st.recursive(
    LEAVES,
    lambda inner: (
        st.lists(inner, min_size=1, max_size=3).map(lambda values: ("list", values))
        | st.dictionaries(NAMES, inner, min_size=1, max_size=3).map(lambda values: ("table", values))
    ),
    max_leaves=8,
)


def _write(value: object, lines: list[str]) -> None:
    """Append a value to the text; the leaf `#` becomes the number of the line on which it stands."""
    if isinstance(value, tuple) and value[0] == "list":
        lines[-1] += "["
        for item in value[1]:
            lines.append("")  # lists may be broken anywhere, tables in braces may not
            _write(item, lines)
            lines[-1] += ","
        lines[-1] += "]"
    elif isinstance(value, tuple):
        lines[-1] += "{"
        for place, (key, item) in enumerate(value[1].items()):
            lines[-1] += f"{', ' if place else ''}{key} = "
            _write(item, lines)
        lines[-1] += "}"
    else:
        parts = str(len(lines) if value == "#" else value).split("\n")
        lines[-1] += parts[0]
        lines.extend(parts[1:])


def _numbers(thing: object, path: tuple[str | int, ...] = ()) -> dict[tuple[str | int, ...], int]:
    if isinstance(thing, dict):
        return {key: line for name, inner in thing.items() for key, line in _numbers(inner, (*path, name)).items()}
    if isinstance(thing, list):
        return {key: line for i, inner in enumerate(thing) for key, line in _numbers(inner, (*path, i)).items()}
    return {path: thing} if isinstance(thing, int) and not isinstance(thing, bool) else {}


@given(st.lists(st.tuples(st.sampled_from(["", "[[beam]]", "[[beam.carries]]"]), INLINE), max_size=8))
def test_a_value_that_is_its_own_line_number_is_found_on_that_line(entries: list[tuple[str, object]]) -> None:
    """The TOML reader of the standard library says where each number went in the data; the map must agree."""
    lines = ["[[beam]]"]
    for i, (header, value) in enumerate(entries):
        if header:
            lines.append(header)
        lines.append(f"k{i} = ")
        _write(value, lines)
    text = "\n".join(lines) + "\n"
    found = line_map(text)
    for path, line in _numbers(tomllib.loads(text)).items():
        assert line_of(found, path) == line if len(path) <= 6 else line_of(found, path) is not None
