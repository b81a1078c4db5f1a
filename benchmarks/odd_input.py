"""Odd input for the desk, by seed: values, forms, addresses and files that no browser of a careful person sends."""

from __future__ import annotations

import io
import random
import zipfile
from html.parser import HTMLParser
from urllib.parse import quote, urlencode

__all__ = ["Forms", "as_body", "changed_file", "filled_in", "odd_number_part", "odd_part", "odd_value"]

ODD = (
    "",
    " ",
    "0",
    "-0",
    "-1",
    "1e309",
    "-1e309",
    "1e-400",
    "nan",
    "NaN",
    "inf",
    "-Infinity",
    "1,5",
    "1.234,5",
    "1_000",
    "0x10",
    "٣٤٥",
    "１２３",
    "½",
    "9" * 18,
    "9" * 19,
    "9" * 20,
    "9" * 400,
    "-" + "9" * 19,
    str(2**63),
    str(2**63 - 1),
    str(-(2**63)),
    str(2**31),
    "0." + "0" * 400 + "1",
    "1e18",
    "1e19",
    "1e300",
    "99999999999999999999.99",
    "\x00",
    "a\x00b",
    "\x01\x02\x1b[31m",
    "\r\n\r\n",
    "a\nb\nc",
    "\u202eabc",
    "\ufeff",
    "\u200b",
    "\U0001f6aa",
    "e\u0301",
    "ﬃ",
    "\ud800",
    "x\udfff",
    "<script>alert(1)</script>",
    "{{ 7|add:7 }}",
    "{% now %}",
    "%s%n%d",
    "%(name)s",
    "{0}",
    "../../etc",
    "..",
    "/",
    "\\",
    "?",
    "#",
    "%00",
    "%ff",
    "C1",
    "c1",
    "C1/",
    "' OR 1=1 --",
    '";',
    "=1+1",
    "@SUM(A1)",
    "None",
    "null",
    "true",
    "false",
    "on",
    "[]",
    "{}",
    "[[[[",
    '{"a":1}',
    "2031-02-30",
    "0000-00-00",
    "9999-12-31",
    "10000-01-01",
    "2031-04-02T25:61",
    "0001-01-01",
    "1900-W60",
    "12:00",
    "842",
    "842;843",
    "842 / 843",
    "10 EUR",
    "€",
    "-5 %",
    "1000 %",
    "a" * 80,
    "a" * 121,
    "a" * 401,
    "a" * 5000,
    "ä" * 3000,
    "a " * 50_000,
    "1" * 4301,
    "[" * 3000,
    "#" * 3000,
    "00000000-0000-0000-0000-000000000000",
    "H1",
    "H99999999999999999999",
    "widths-0",
    "readings-width-99999999999999999999",
    "readings-width-nan",
    "readings-plumb-left-again-again",
)
"""What is typed, pasted or made up."""


def odd_value(draw: random.Random, known: str = "") -> str:
    """An odd value, or a known one that was changed a little."""
    if known and draw.random() < 0.35:
        return _changed_text(draw, known)
    if draw.random() < 0.1:
        return "".join(
            chr(draw.choice((draw.randrange(1, 128), draw.randrange(0x10FFFF)))) for _ in range(draw.randrange(1, 40))
        )
    if draw.random() < 0.15:
        return repr(round(draw.choice((1, -1)) * 10 ** draw.uniform(-6, 25), draw.randrange(4)))
    return draw.choice(ODD)


def _changed_text(draw: random.Random, known: str) -> str:
    at = draw.randrange(len(known) + 1)
    how = draw.randrange(6)
    if how == 0:
        return known[:at]
    if how == 1:
        return known[:at] + draw.choice(ODD)[:200] + known[at:]
    if how == 2:
        return known * draw.choice((2, 3, 50))
    if how == 3:
        return known + " "
    if how == 4:
        return "-" + known
    return known[:at] + known[at + 1 :]


def odd_part(draw: random.Random, known: str = "") -> str:
    """Part of an address, as it goes over the line."""
    if known and draw.random() < 0.4:
        return quote(known, safe="")
    if draw.random() < 0.1:
        return "".join(f"%{draw.randrange(256):02x}" for _ in range(draw.randrange(1, 12)))
    return quote(odd_value(draw, known)[:2000].encode("utf-8", "surrogatepass"), safe=draw.choice(("", "/")))


def odd_number_part(draw: random.Random, known: int) -> str:
    """A number in an address."""
    if draw.random() < 0.6:
        return str(known)
    return draw.choice(
        ("0", "1", "2", "3", "7", "999999999999999", "9" * 16, "9" * 30, "00001", "-1", "1.0", "%31", "٣", "a")
    )


class Forms(HTMLParser):
    """Forms of a page: where they go, and their fields with what stands in them."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[tuple[str, list[tuple[str, str, str]]]] = []
        self._select, self._text = "", ""

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        """Take in what begins."""
        values = {name: value or "" for name, value in attributes}
        if tag == "form" and values.get("method", "get").lower() == "post":
            self.found.append((values.get("action", ""), []))
        elif not self.found:
            return
        elif tag in ("input", "button") and values.get("name"):
            self._add(values["name"], values.get("value", ""), values.get("type", tag))
        elif tag == "select":
            self._select = values.get("name", "")
        elif tag == "option" and self._select:
            self._add(self._select, values.get("value", ""), "option")
        elif tag == "textarea":
            self._add(values.get("name", ""), "", "textarea")

    def _add(self, name: str, value: str, kind: str) -> None:
        self.found[-1][1].append((name, value, kind))


def filled_in(draw: random.Random, fields: list[tuple[str, str, str]], token: str) -> list[tuple[str, str]]:
    """A form as somebody fills it in who changes a few of its fields into something odd."""
    given: dict[str, list[str]] = {}
    for name, value, _ in fields:
        given.setdefault(name, []).append(value)
    pairs = [(name, draw.choice(values)) for name, values in given.items() if name != "csrfmiddlewaretoken"]
    for _ in range(draw.choice((0, 1, 1, 1, 2, 3, 6))):
        if not pairs:
            break
        at = draw.randrange(len(pairs))
        name, value = pairs[at]
        how = draw.random()
        if how < 0.75:
            pairs[at] = (name, odd_value(draw, value))
        elif how < 0.85:
            del pairs[at]
        elif how < 0.95:
            pairs.append((name, odd_value(draw, value)))
        else:
            pairs.append((odd_value(draw, name)[:300], odd_value(draw)))
    if draw.random() < 0.97:
        pairs.append(("csrfmiddlewaretoken", token))
    return pairs


def as_body(
    draw: random.Random, pairs: list[tuple[str, str]], files: list[tuple[str, str, str, bytes]], *, plain: bool
) -> tuple[bytes, str]:
    """Body and content type of a form; now and then broken."""
    safe = [(n.encode("utf-8", "surrogatepass"), v.encode("utf-8", "surrogatepass")) for n, v in pairs]
    if not files and plain:
        body, kind = urlencode(safe).encode(), "application/x-www-form-urlencoded"
    else:
        edge = "edge-of-a-part"
        lines = [
            b'--%s\r\nContent-Disposition: form-data; name="%s"\r\n\r\n%s\r\n' % (edge.encode(), n, v) for n, v in safe
        ]
        for field, name, what, data in files:
            head = f'--{edge}\r\nContent-Disposition: form-data; name="{field}"; filename="{name}"\r\n'
            head += f"Content-Type: {what}\r\n\r\n"
            lines.append(head.encode("utf-8", "surrogatepass") + data + b"\r\n")
        body, kind = b"".join(lines) + f"--{edge}--\r\n".encode(), f"multipart/form-data; boundary={edge}"
    if draw.random() < 0.04:
        body = changed_bytes(draw, body)
    if draw.random() < 0.03:
        kind = draw.choice(
            (
                "",
                "application/json",
                "text/plain",
                "multipart/form-data",
                "multipart/form-data; boundary=" + "x" * 300,
                "application/x-www-form-urlencoded; charset=utf-16",
                "application/x-www-form-urlencoded; charset=none",
                "a/b; " * 50,
            )
        )
    return body, kind


def changed_bytes(draw: random.Random, data: bytes) -> bytes:
    """Bytes flipped, cut, doubled or put in."""
    result = bytearray(data)
    for _ in range(draw.choice((1, 1, 2, 8, 40))):
        at, length = draw.randrange(len(result) + 1), draw.choice((1, 1, 4, 50))
        how = draw.randrange(4)
        if how == 0:
            result[at : at + length] = bytes(draw.randrange(256) for _ in range(length))
        elif how == 1:
            del result[at : at + length]
        elif how == 2:
            result[at:at] = result[at : at + length] * draw.choice((1, 2, 30))
        else:
            result = result[:at] if draw.random() < 0.3 else result
    return bytes(result)


def _changed_list(draw: random.Random, data: bytes) -> bytes:
    """A text file with some of its words changed into something odd."""
    text = data.decode("utf-8", "replace")
    for _ in range(draw.choice((1, 1, 2, 5))):
        cuts = [n for n, sign in enumerate(text) if sign in '=;,\n"[]\t ']
        if not cuts:
            break
        at = draw.choice(cuts)
        end = next((n for n in cuts if n > at), len(text))
        text = text[: at + 1] + odd_value(draw, text[at + 1 : end]) + text[end:]
    coding = draw.choice(("utf-8", "utf-8", "utf-8", "utf-8-sig", "utf-16", "cp1252", "utf-32"))
    try:
        return text.encode(coding)
    except UnicodeEncodeError:
        return text.encode("utf-8", "surrogatepass")


def _changed_zip(draw: random.Random, data: bytes) -> bytes:
    """An archive with one of its files changed, doubled, renamed or blown up."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        names = old.namelist()
        chosen = draw.choice(names)
        for name in names:
            inner = old.read(name)
            if name == chosen:
                how = draw.randrange(6)
                if how == 0:
                    continue
                if how == 1:
                    inner = changed_bytes(draw, inner)
                elif how in (2, 3):
                    inner = _changed_list(draw, inner)
                elif how == 4:
                    inner = inner * draw.choice((2, 50)) + b" " * draw.choice((0, 30_000_000))
                else:
                    name = "../" + name
            new.writestr(name, inner)
    return out.getvalue()


def changed_file(draw: random.Random, name: str, data: bytes) -> bytes:
    """A real file that was changed in the way that suits its kind; now and then it stays as it is."""
    how = draw.random()
    if how < 0.05:
        return data
    if name.endswith(".xlsx") and how < 0.6:
        return _changed_zip(draw, data)
    if name.endswith((".toml", ".csv", ".tsv", ".txt")) and how < 0.8:
        return _changed_list(draw, data)
    if how > 0.97:
        return draw.choice((b"", b"\x00" * 5000, b"\xff" * 100, b"PK\x03\x04" + data, data * 20))
    return changed_bytes(draw, data)
