"""HTML and PDF of jobs with 1, 10 and 100 pieces: time, pages, size and memory. Run: pytest tests/benchmarks -s"""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from beamcheck.sheet.record.pdf_mark import unchanged
from tests.doors.jobs import HEAD, STOCK, WALL, joist

ROOT = Path(__file__).parents[2]
# each in a process of its own: typst remembers what it has set before, and memory is a peak
HTML_CODE = """
import resource, sys, time
import beamcheck.sheet.html.render
from beamcheck.api import check_text, sheet_html
sys.path.insert(0, {tests!r})
from test_pdf_speed import many
result = check_text(many({count}))
began = time.perf_counter()
page = sheet_html(result)
print(time.perf_counter() - began, len(page) / 1e6, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)
"""
CODE = """
import resource, sys, time
from pathlib import Path
import beamcheck.sheet.pdf.render
from beamcheck.api import check_text
sys.path.insert(0, {tests!r})
from test_pdf_speed import many
began = time.perf_counter()
result = check_text(many({count}))
checked = time.perf_counter()
pdf = beamcheck.sheet.pdf.render.sheet_pdf(result)
done = time.perf_counter()
Path({target!r}).write_bytes(pdf)
print(checked - began, done - checked, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)
"""


def many(count: int) -> str:
    """A job of so many beams, each of a length of its own, so that no equation stands twice."""
    joists = (joist(f"joist {number}", span=f"{100 + number / 4} in") for number in range(1, count + 1))
    return HEAD + STOCK + WALL + "".join(joists)


@pytest.mark.parametrize("pieces", [1, 10, 100])
def test_time_and_memory_of_a_pdf(pieces: int, tmp_path: Path) -> None:
    from pypdf import PdfReader

    target = tmp_path / "sheet.pdf"
    code = CODE.format(tests=str(Path(__file__).parent), count=pieces, target=str(target))
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)
    checked, made, memory = map(float, done.stdout.split())
    pages = len(PdfReader(target).pages)
    size = target.stat().st_size / 1e6
    print(f"\n{pieces:4d} pieces: checked {checked:.2f} s, PDF {made:.2f} s, {pages} pages, {size:.2f} MB, "
          f"at most {memory:.0f} MB of memory")  # fmt: skip
    assert unchanged(target.read_bytes()) and pages > pieces


@pytest.mark.parametrize("pieces", [1, 10, 100])
def test_time_and_memory_of_a_page(pieces: int) -> None:
    code = HTML_CODE.format(tests=str(Path(__file__).parent), count=pieces)
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)
    made, size, memory = map(float, done.stdout.split())
    print(f"\n{pieces:4d} pieces: HTML {made:.2f} s, {size:.2f} MB, at most {memory:.0f} MB of memory")
    assert size > 0.01 * pieces
