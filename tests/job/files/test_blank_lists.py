"""Blank lists, written as files that read back."""

from __future__ import annotations

from pathlib import Path

import pytest

from rodbook.errors import InputError
from rodbook.job.files import blank_list, price_rows

ROWS = [["name", "price", "currency"], ["=22 mm", "", "EUR"], ["18 mm", "", "EUR"]]


@pytest.mark.parametrize("kind", ["csv", "xlsx"])
def test_a_blank_list_reads_back(tmp_path: Path, kind: str) -> None:
    path = tmp_path / f"list.{kind}"
    path.write_bytes(blank_list(ROWS, kind))
    rows = price_rows(path)
    assert [number for number, _ in rows] == [1, 2, 3]
    assert rows[0][1] == ROWS[0]
    assert str(rows[1][1][0]).endswith("=22 mm")
    assert not rows[2][1][1]


def test_another_kind_is_refused() -> None:
    with pytest.raises(InputError, match=r"written as \.csv or \.xlsx, not as 'ods'"):
        blank_list(ROWS, "ods")
