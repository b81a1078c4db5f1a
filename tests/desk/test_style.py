"""The desk's style sheet: a brace that is lost makes all below it hold on paper alone, and nothing says so."""

from pathlib import Path

import rodbook.desk


def test_every_block_of_the_style_sheet_is_closed():
    text = (Path(rodbook.desk.__file__).parent / "static" / "desk" / "desk.css").read_text("utf-8")
    depth = 0
    for line, content in enumerate(text.splitlines(), 1):
        depth += content.count("{") - content.count("}")
        assert 0 <= depth <= 2, f"line {line} stands {depth} blocks deep"
        assert not content.startswith("@") or depth - content.count("{") + content.count("}") == 0, (
            f"line {line} is inside another block"
        )
    assert depth == 0
