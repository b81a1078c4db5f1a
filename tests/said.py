"""Places in what people read where something is missing, and figures that are not written in the book's way."""

import re
from html.parser import HTMLParser

INLINE = frozenset(
    {"a", "abbr", "b", "br", "code", "em", "i", "kbd", "q", "small", "span", "strong", "sub", "sup", "time", "wbr"}
)
SILENT = frozenset({"script", "style", "template", "svg", "datalist"})
HEARD = ("aria-label", "alt", "title", "placeholder")

EMPTY = (
    (re.compile(r":\s*[.;,](\s|$)"), "nothing after a colon"),
    (re.compile(r"\s[,;.](\s|$)"), "nothing before a mark"),
    (re.compile(r"^[,.;]\s"), "nothing before a mark"),
    (re.compile(r"[,;]\s*[,;.](?!\.)"), "nothing between two marks"),
    (re.compile(r"\(\s*\)|\(\s*[,;]|[,;]\s*\)"), "empty brackets"),
    (re.compile(r"\b(None|nan|NaN|inf|undefined|null)\b(?! (yet|of|was|has))"), "a value of the program"),
    (re.compile(r"\b(a|an|the)\s*[.,;:)]"), "an article with no noun"),
    (
        re.compile(r"(?:[:;(]\s?|\b(?:of|to|by|at|and|under|over|than|is|are)\s)(mm|m²|kg|EUR|€|%|°)(?=$|[\s.,;)])"),
        "a unit with no figure",
    ),
    (re.compile(r"[^:]\b(and|or|of|than|because|the|a|an)[.;!?]($|\s)"), "a word that leads nowhere"),
    (re.compile(r"\{[a-z_]*\}|%\([a-z_]+\)s"), "a field that was not filled"),
    (re.compile(r"(?<![-\w])([A-Za-z]{2,}) \1(?![-\w])"), "a word twice"),
)
POINT = re.compile(r"(?<![\w.,/:-])\d+\.\d+(?![.,]?\d)(?!\w)(?!\s?€)")


class _Blocks(HTMLParser):
    """Texts of a page, one for each block: what is marked inside a sentence stays in it."""

    def __init__(self):
        super().__init__()
        self.blocks, self.heard, self._text, self._silent = [], [], [], 0

    def handle_starttag(self, tag, attrs):
        values = dict(attrs)
        self._silent += tag in SILENT
        self.heard += [values[name] for name in HEARD if values.get(name)]
        if tag == "input" and values.get("type") != "hidden":
            self._text.append(" □ ")
        elif tag == "br":
            self._text.append(" ")
        elif tag not in INLINE:
            self._done()

    def handle_endtag(self, tag):
        self._silent -= tag in SILENT
        if tag not in INLINE:
            self._done()

    def handle_data(self, data):
        if not self._silent:
            self._text.append(data)

    def _done(self):
        text = " ".join("".join(self._text).split())
        if text:
            self.blocks.append(text)
        self._text = []


def texts_of(page):
    """Every text of a page that is read or heard."""
    parser = _Blocks()
    parser.feed(page)
    parser._done()
    return [*parser.blocks, *(" ".join(text.split()) for text in parser.heard)]


def gaps_in(text):
    """What is missing in a text: each time what, and around which place."""
    found = []
    for pattern, what in EMPTY:
        for match in pattern.finditer(text):
            start, end = match.span()
            found.append((what, text[max(0, start - 40) : end + 20]))
    return found


def points_in(text, names):
    """Figures with a decimal point, but in names."""
    for name in sorted(names, key=len, reverse=True):
        text = text.replace(name, ";")
    return [text[max(0, m.start() - 30) : m.end() + 10] for m in POINT.finditer(text)]
