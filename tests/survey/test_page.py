"""The page on the survey shows what the code prints."""

import contextlib
import io
import re
from pathlib import Path

PAGE = Path(__file__).parents[2] / "docs" / "survey.md"


def test_the_example_prints_what_the_page_says():
    code, printed = re.findall(r"```(?:python)?\n(.*?)```", PAGE.read_text(encoding="utf-8"), re.DOTALL)[:2]
    out, names = io.StringIO(), {}
    with contextlib.redirect_stdout(out):
        exec(code, names)  # the page is ours
    assert out.getvalue() == printed
    left = [f"{packer.size_mm:.1f} ± {packer.error_mm:.1f}" for packer in names["fit"].packers_at("left")]
    text = " ".join(PAGE.read_text(encoding="utf-8").split())
    assert f"with {', '.join(left[:-1])} and {left[-1]} mm" in text
