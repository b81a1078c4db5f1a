"""The notebooks of `examples/` run as they stand, in a kernel of their own, and show the pictures that they promise."""

from __future__ import annotations

import subprocess
import sys
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest

EXAMPLES = sorted((Path(__file__).parents[1] / "examples").glob("*.py"))

RUN = """
import sys
import tempfile

import jupytext
import nbformat
from jupyter_client.manager import AsyncKernelManager
from nbclient import NotebookClient

book = jupytext.read(sys.argv[1])
with tempfile.TemporaryDirectory() as sockets:
    kernel = AsyncKernelManager(kernel_name="python3", transport="ipc", connection_file=f"{sockets}/k.json")
    NotebookClient(book, km=kernel, timeout=300, resources={"metadata": {"path": sys.argv[2]}}).execute()
sys.stdout.write(nbformat.writes(book))
"""


def executed(path: Path, folder: Path):
    """A notebook with what its cells gave."""
    import nbformat

    done = subprocess.run(
        [sys.executable, "-c", RUN, str(path), str(folder)], capture_output=True, text=True, timeout=600, check=False
    )
    assert done.returncode == 0, done.stderr[-3000:]
    return nbformat.reads(done.stdout, as_version=4)


def shown(book, kind: str) -> list[str]:
    cells = [cell for cell in book.cells if cell.cell_type == "code"]
    return [found for cell in cells for output in cell.outputs if (found := output.get("data", {}).get(kind))]


def printed(book) -> str:
    cells = [cell for cell in book.cells if cell.cell_type == "code"]
    return "".join(output.get("text", "") for cell in cells for output in cell.outputs)


def test_there_is_an_example():
    assert EXAMPLES


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_it_runs_from_readings_to_the_picture_of_a_layout(path, tmp_path):
    book = executed(path, tmp_path)
    pictures = [ET.fromstring(picture) for picture in shown(book, "image/svg+xml")]
    roles = [{mark.get("data-role", "") for mark in picture.iter()} for picture in pictures]
    assert any("piece" in of_one and "cut 1" in of_one for of_one in roles), "no layout with its cuts is shown"
    assert shown(book, "text/html"), "no table of parts is shown"
    said = printed(book)
    assert "Take the diagonal foot left to head right again" in said
    assert "did you mean 840?" in said
    assert "lining width = " in said
    assert not list(tmp_path.iterdir()), "a notebook that only looks leaves nothing behind"
