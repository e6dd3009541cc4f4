"""The loader refuses what has no provenance, and says what is wrong."""

import subprocess
import sys
from pathlib import Path

import pytest

from beamcheck.errors import BeamcheckError, UnknownName
from beamcheck.provenance import Source
from beamcheck.values import loader

HEAD = "file,document,edition,table,what,units,rows,sha256\n"
GOOD = "name,C,source,how,confidence,note\nred,1.5,a book,memory,low,\nblue,2,a book,read,,seen\n"


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with one good table, in place of the real one."""
    (tmp_path / "paint.csv").write_text(GOOD)
    (tmp_path / "manifest.csv").write_text(
        f"{HEAD}paint.csv,BOOK,1st,Table 1,paint,C: 1,2,{loader.checksum(tmp_path / 'paint.csv')}\n"
    )
    monkeypatch.setattr(loader, "tables_dir", lambda: tmp_path)
    return tmp_path


def refusal(name: str = "paint") -> str:
    loader._rows.cache_clear()
    loader._manifest.cache_clear()
    with pytest.raises(BeamcheckError) as caught:
        loader.rows(name)
    return str(caught.value)


def test_rows_are_read_only_and_read_once(folder: Path) -> None:
    found = loader.rows("paint")
    assert [row["name"] for row in found] == ["red", "blue"]
    with pytest.raises(TypeError):
        found[0]["C"] = "9"  # type: ignore[index]
    assert loader.rows("paint") is found
    assert loader.source_of(found[1]) == Source("a book", "read", "seen", "")
    assert loader.table_names() == ("paint",)


def test_a_file_that_is_not_in_the_manifest_is_not_read(folder: Path) -> None:
    (folder / "glue.csv").write_text(GOOD)
    assert refusal("glue") == "table 'glue' is not known; known are 'paint'"


def test_a_wrong_name_gets_the_nearest_one() -> None:
    with pytest.raises(UnknownName, match=r"table 'nds_2018_supplement_4c' is not known; did you mean 'nds_2018_supp"):
        loader.rows("nds_2018_supplement_4c")


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("name,C\nred,1.5\n", "tables/paint.csv: no column source, how, confidence, note, so no provenance: not used"),
        (GOOD.replace("a book,memory", ",memory"), "row 2: no source; name the document and table it is taken from"),
        (
            GOOD.replace("memory", "guess"),
            "row 2: how is 'guess'; it is one of read; derived; read, second-hand; practice; memory",
        ),
        (GOOD.replace("low", "sure"), "row 2: confidence is 'sure'; it is high, medium, low or blank"),
        (GOOD + "green,3\n", "tables/paint.csv line 4: 2 cells under 6 heads"),
        (GOOD + "green,3,a book,read,,\n", "tables/paint.csv has 3 rows, tables/manifest.csv says 2"),
    ],
)
def test_a_table_without_provenance_is_refused(folder: Path, text: str, says: str) -> None:
    (folder / "paint.csv").write_text(text)
    assert says in refusal()


def test_a_listed_file_that_is_missing(folder: Path) -> None:
    (folder / "paint.csv").unlink()
    assert refusal() == "tables/paint.csv is in the manifest but not in the folder; install again"


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (HEAD + "paint.csv,,1st,Table 1,paint,C: 1,2,0\n", "tables/manifest.csv: paint.csv has no document"),
        (HEAD + "paint.csv,BOOK,, ,paint,C: 1,2,0\n", "tables/manifest.csv: paint.csv has no edition and no table"),
        ("file,rows\npaint.csv,2\n", "the columns must be file, document, edition, table, what, units, rows, sha256"),
    ],
)
def test_a_manifest_that_does_not_say_where_from(folder: Path, text: str, says: str) -> None:
    (folder / "manifest.csv").write_text(text)
    assert says in refusal()


def test_no_manifest_no_tables(folder: Path) -> None:
    (folder / "manifest.csv").unlink()
    assert "manifest.csv is missing: without it no table is used" in refusal()


def test_changed_and_new_files_are_listed_for_the_manifest(folder: Path) -> None:
    assert loader.changed_lines(folder) == []
    (folder / "paint.csv").write_text(GOOD + "green,3,a book,read,,\n")
    (folder / "glue.csv").write_text(GOOD)
    new, changed = loader.changed_lines(folder)
    assert new == ["glue.csv", "", "", "", "", "", "2", loader.checksum(folder / "glue.csv")]
    assert changed == [
        "paint.csv",
        "BOOK",
        "1st",
        "Table 1",
        "paint",
        "C: 1",
        "3",
        loader.checksum(folder / "paint.csv"),
    ]


def test_the_command_prints_nothing_when_nothing_changed() -> None:
    done = subprocess.run([sys.executable, "-m", "beamcheck.values.loader"], capture_output=True, text=True, check=True)
    assert (done.stdout, done.stderr) == ("", "")


def test_line_ends_do_not_change_the_checksum(tmp_path: Path) -> None:
    unix, dos = tmp_path / "unix.csv", tmp_path / "dos.csv"
    unix.write_bytes(b"a,b\n1,2\n")
    dos.write_bytes(b"a,b\r\n1,2\r\n")
    assert loader.checksum(unix) == loader.checksum(dos)


def test_the_folder_is_the_shipped_one_when_there_is_one(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "wheel" / "beamcheck" / "tables").mkdir(parents=True)
    for home, tables in (("checkout", "tables"), ("wheel", "beamcheck/tables")):
        monkeypatch.setattr(loader, "__file__", str(tmp_path / home / "beamcheck" / "values" / "loader.py"))
        assert loader.tables_dir() == tmp_path / home / tables


def test_several_sources_make_the_weakest() -> None:
    read = Source("A", "read", "seen", "high")
    recalled = Source("B", "memory", "", "medium")
    assert loader.weakest([read, recalled, read]) == Source("A; B", "memory", "seen", "medium")
    assert loader.weakest([read, Source("A", "derived")]) == Source("A", "derived", "seen", "")
    quoted = Source("C", loader.SECOND_HAND)
    assert loader.weakest([read, quoted, Source("A", "derived")]).how == "read, second-hand"
    assert loader.weakest([quoted, recalled]).how == "memory"


def test_every_mark_of_a_table_has_its_place_among_the_marks() -> None:
    assert set(loader.HOW) < set(loader.CERTAINTY)


def test_nothing_is_read_at_import() -> None:
    code = (
        "import beamcheck.values.factors, beamcheck.values.loads\n"
        "from beamcheck.values import loader\n"
        "assert loader._rows.cache_info().currsize == loader._manifest.cache_info().currsize == 0\n"
        "import sys; print([name for name in ('pint', 'scipy', 'sympy', 'typst', 'jinja2') if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
