"""The rows of the grid as HTML: every column, every fault, and nothing unescaped."""

import re
from html.parser import HTMLParser

from hypothesis import given
from hypothesis import strategies as st

from rodbook.desk.platform.grid import COLUMNS, PANELS, Row, rows_of, rows_typed
from rodbook.desk.platform.grid_rows import _row, drawn_rows


class _Form(HTMLParser):
    """What a browser would send back, and every tag that it would see."""

    def __init__(self, text):
        super().__init__()
        self.sent, self.tags, self._select = {}, [], ""
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        found = dict(attrs)
        self.tags.append(tag)
        if tag == "input" and (found.get("type") != "checkbox" or "checked" in found):
            self.sent[found["name"]] = found.get("value", "on")
        elif tag == "select":
            self._select = found["name"]
        elif tag == "option":
            self._chosen = "selected" in found or self._select not in self.sent
            if self._chosen:
                self.sent[self._select] = ""

    def handle_data(self, data):
        if self.tags[-1] == "option" and self._chosen:
            self.sent[self._select] += data.removesuffix("\n")


def _rows(*texts, faults=()):
    return [
        Row(n, f"C{n}", {c.name: text for c in COLUMNS}, out=False, faults=list(faults)) for n, text in enumerate(texts)
    ]


def test_every_column_of_every_row_is_drawn_and_numbered_as_people_count():
    page = drawn_rows(_rows("1", "2"))
    for number in (0, 1):
        for column in COLUMNS:
            assert (
                len(re.findall(rf'name="r{number}-{column.name}" aria-label="{column.word}, row {number + 1}"', page))
                == 1
            )
    assert page.count("<tr") == 2
    assert page.count('inputmode="decimal"') == 2 * sum(column.decimal for column in COLUMNS)


@given(st.text(st.characters(exclude_categories=["Cc", "Cs"]), max_size=30).map(str.strip), st.booleans())
def test_what_is_typed_comes_back_as_it_was_and_makes_no_tag(text, out):
    row = Row(3, text, {c.name: text for c in COLUMNS}, out=out, faults=[("mark", text)])
    seen = _Form(drawn_rows([row]))
    assert set(seen.tags) <= {"tr", "td", "input", "select", "option", "p"}
    (back,) = rows_typed(seen.sent)
    assert (back.was, back.out) == (text, out)
    for column in COLUMNS:
        if not column.choices:
            assert back.cells[column.name] == text
        else:
            assert back.cells[column.name] == (text or column.choices[0])


def test_a_row_at_fault_says_so_at_its_field_and_under_itself():
    page = drawn_rows(_rows("1", faults=[("widths", "84 mm is <small>")]))
    assert page.count('aria-invalid="true" aria-describedby="faults-r0"') == sum(c.field == "widths" for c in COLUMNS)
    assert 'id="faults-r0"><p class="fault">widths: 84 mm is &lt;small&gt;</p>' in page
    assert f'colspan="{len(COLUMNS) + 1}"' in page


def test_only_a_changed_row_is_drawn_anew():
    openings = [{"mark": f"M{n}", "widths": [800, 801, 802]} for n in range(20)]
    drawn_rows(rows_of(openings))
    before = _row.cache_info()
    openings[7] = {**openings[7], "note": "damp"}
    assert 'value="damp"' in drawn_rows(rows_of(openings))
    after = _row.cache_info()
    assert (after.misses - before.misses, after.hits - before.hits) == (1, 21)


def test_names_of_the_book_are_chosen_and_a_new_name_is_drawn_anew():
    row = Row(0, "P1", {"mark": "P1", "board": "oak <&"}, out=False, faults=[])
    page = drawn_rows([row], PANELS, {"boards": ["pine", "oak <&"]})
    assert '<option value="" label="choose"></option><option>pine</option>' in page
    assert "<option selected>oak &lt;&amp;</option>" in page
    assert 'name="p0-was" value="P1"' in page
    assert "larch" in drawn_rows([row], PANELS, {"boards": ["pine", "larch"]})
