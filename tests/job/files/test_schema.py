"""The schema says what the reader does."""

import datetime
import json
import re
import tomllib

import pytest

from rodbook.errors import InputError
from rodbook.job.files import book_schema, job_schema, parse_job, sample_book_text, sample_names, sample_text

TYPES = {
    "object": dict,
    "array": list,
    "string": str,
    "number": (int, float),
    "integer": int,
    "boolean": bool,
    "null": type(None),
}
KNOWN = {
    "$schema",
    "$defs",
    "$ref",
    "title",
    "description",
    "default",
    "type",
    "properties",
    "required",
    "items",
    "additionalProperties",
    "propertyNames",
    "prefixItems",
    "minItems",
    "maxItems",
    "maxProperties",
    "minLength",
    "maxLength",
    "pattern",
    "enum",
    "const",
    "anyOf",
    "oneOf",
    "minimum",
    "maximum",
    "exclusiveMinimum",
    "exclusiveMaximum",
    "format",
}
"""The words of JSON Schema (draft 2020-12) that `fits` heeds; a schema with any other word fails the tests."""


def is_type(value, name):
    return isinstance(value, TYPES[name]) and (name == "boolean" or not isinstance(value, bool))


def numbers_fit(value, node):
    return (
        node.get("minimum", value) <= value <= node.get("maximum", value)
        and not value <= node.get("exclusiveMinimum", value - 1)
        and not value >= node.get("exclusiveMaximum", value + 1)
    )


def texts_fit(value, node):
    fit = node.get("minLength", 0) <= len(value) <= node.get("maxLength", len(value))
    if node.get("format") == "date":
        fit = fit and re.fullmatch(r"\d{4}-\d\d-\d\d", value) is not None
    return fit and re.search(node.get("pattern", ""), value) is not None


def lists_fit(value, node, root):
    parts = node.get("prefixItems", [])
    return (
        node.get("minItems", 0) <= len(value) <= node.get("maxItems", len(value))
        and all(fits(entry, part, root) for entry, part in zip(value[: len(parts)], parts[: len(value)], strict=True))
        and all(fits(entry, node.get("items", {}), root) for entry in value[len(parts) :])
    )


def groups_fit(value, node, root):
    others = node.get("additionalProperties", {})
    known = node.get("properties", {})
    return (
        set(node.get("required", ())) <= set(value)
        and len(value) <= node.get("maxProperties", len(value))
        and all(
            fits(entry, known[name], root) if name in known else others is not False and fits(entry, others, root)
            for name, entry in value.items()
        )
    )


def fits(value, node, root):
    """Whether a value fits a schema: a plain reading of the standard, for the words in `KNOWN`."""
    if isinstance(node, bool):
        return node
    assert set(node) <= KNOWN, set(node) - KNOWN
    fit = "type" not in node or is_type(value, node["type"])
    fit = fit and value in node.get("enum", [value]) and value == node.get("const", value)
    if "$ref" in node:
        fit = fit and fits(value, root["$defs"][node["$ref"].removeprefix("#/$defs/")], root)
    if "anyOf" in node:
        fit = fit and any(fits(value, choice, root) for choice in node["anyOf"])
    if "oneOf" in node:
        fit = fit and sum(fits(value, choice, root) for choice in node["oneOf"]) == 1
    if isinstance(value, bool) or not fit:
        return fit
    if isinstance(value, int | float):
        return numbers_fit(value, node)
    if isinstance(value, str):
        return texts_fit(value, node)
    if isinstance(value, list):
        return lists_fit(value, node, root)
    return groups_fit(value, node, root) if isinstance(value, dict) else True


def as_json(text):
    return json.loads(json.dumps(tomllib.loads(text), default=datetime.date.isoformat))


@pytest.mark.parametrize("name", sample_names())
def test_the_sample_jobs_fit(name):
    assert fits(as_json(sample_text(name)), job_schema(), job_schema())


def test_the_sample_book_fits():
    assert fits(as_json(sample_book_text()), book_schema(), book_schema())


SOUND = {
    "format": 1,
    "job": {"name": "x", "date": "2026-11-02", "build_up": "inset"},
    "openings": [{"mark": "C1", "widths": [842, "842,5", "84.2 cm"], "heights": [2030, 2030, 2030], "depth": 300}],
}


def opening(**change):
    return {**SOUND, "openings": [{**SOUND["openings"][0], **change}]}


@pytest.mark.parametrize(
    "document",
    [
        {k: v for k, v in SOUND.items() if k != "format"},
        {k: v for k, v in SOUND.items() if k != "job"},
        {**SOUND, "format": 2},
        {**SOUND, "foo": 1},
        {**SOUND, "making": {"door": "nobody"}},
        opening(widths=[842, 842]),
        opening(widths=[842] * 4),
        opening(widths=842),
        opening(widths=["wide", 842, 842]),
        opening(leaves=5),
        opening(leaves="many"),
        opening(hand="up"),
        opening(depth=0),
        opening(depth=-3),
        opening(mark=""),
        opening(mark=5),
        opening(sill="perhaps"),
        opening(colour="red"),
        opening(depth=200_000),
        opening(mark="x" * 81),
    ],
)
def test_what_the_schema_refuses_the_reader_refuses(document):
    assert fits(SOUND, job_schema(), job_schema())
    assert not fits(document, job_schema(), job_schema())
    lines = [f"{json.dumps(name)} = {inline(value)}" for name, value in document.items()]
    with pytest.raises(InputError):
        parse_job("\n".join(lines))


def inline(value):
    if isinstance(value, dict):
        return "{" + ", ".join(f"{json.dumps(name)} = {inline(entry)}" for name, entry in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(inline, value)) + "]"
    return json.dumps(value)


def test_a_build_up_is_of_one_family_and_says_which():
    book = as_json(sample_book_text())
    for family in (None, "lay-on", "lay-on within trim"):
        changed = json.loads(json.dumps(book))
        changed["build_ups"][0]["family"] = family
        if family is None:
            del changed["build_ups"][0]["family"]
        assert not fits(changed, book_schema(), book_schema())


def test_titles_and_draft_and_no_address_of_its_own():
    for schema, title in [(job_schema(), "Rodbook job"), (book_schema(), "Rodbook book")]:
        assert schema["title"] == title
        assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
        assert "$id" not in json.dumps(schema)
        assert json.loads(json.dumps(schema)) == schema


def lengths(node, name=""):
    """Every field that holds lengths, with its description."""
    if isinstance(node, list):
        return [found for entry in node for found in lengths(entry, name)]
    if not isinstance(node, dict):
        return []
    found = (
        [(name, node)] if "#/$defs/length" in json.dumps({k: v for k, v in node.items() if k != "properties"}) else []
    )
    for key, entry in node.get("properties", {}).items():
        found += lengths(entry, key)
    return found


@pytest.mark.parametrize("schema", [job_schema(), book_schema()], ids=["job", "book"])
def test_every_length_says_its_unit(schema):
    fields = [field for entry in [schema, *schema["$defs"].values()] for field in lengths(entry) if field[0]]
    assert len(fields) > 6
    for name, node in fields:
        assert node["description"].rstrip(".").endswith("[mm]"), name
