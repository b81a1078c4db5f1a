"""Widths read from the font, against what the typesetter itself measures."""

import json
from importlib.resources import as_file, files

import pytest
import typst

from rodbook.papers.drawing.lettering import can_letter, font_size_mm, text_width_mm


def measured(text: str, size_mm: float, weight: int, folder: str) -> float:
    """Width in mm, by the typesetter, kerning off."""
    source = (
        f'#set text(font: "Barlow", size: {size_mm}mm, weight: {weight}, kerning: false, ligatures: false)\n'
        "#context [#metadata(measure(sys.inputs.text).width.mm()) <width>]"
    )
    fonts = typst.Fonts(include_system_fonts=False, font_paths=[folder])
    return json.loads(
        typst.query(source.encode(), "<width>", field="value", one=True, font_paths=fonts, sys_inputs={"text": text})
    )


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("text", ["1995.5", "lining 18 × 140", "1-door-left", "äöüß Łódź", "Ø35"])
def test_widths_are_the_typesetters(text, bold, tmp_path):
    with as_file(files("rodbook.papers") / "fonts") as folder:
        expected = measured(text, font_size_mm(2.5), 600 if bold else 400, str(folder))
    assert text_width_mm(text, 2.5, bold=bold) == pytest.approx(expected, abs=0.01)


def test_width_grows_with_height():
    assert text_width_mm("2022", 5.0) == pytest.approx(2 * text_width_mm("2022", 2.5))


def test_letters_that_the_font_has():
    assert can_letter("Łódź, 45° × Ø35 ± 0.5 – m²")
    assert not can_letter("日本")
