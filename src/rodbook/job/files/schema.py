"""What jobs and books look like, said in JSON Schema for editors and other programs.

A document that the schema takes may still have faults that only Rodbook finds: readings that do not go together, or
names that the book does not have.
"""

from __future__ import annotations

from typing import Any

from pydantic import BaseModel
from pydantic.json_schema import GenerateJsonSchema

from rodbook.job.book import Book
from rodbook.job.models import Job
from rodbook.job.units import LARGEST_MM, LENGTH_PATTERN

__all__ = ["book_schema", "job_schema"]

_LIMITS = {"gt": "exclusiveMinimum", "ge": "minimum", "lt": "exclusiveMaximum", "le": "maximum"}
"""How the model library names limits that it does not place itself, and what JSON Schema calls them."""

_LENGTH = "length"
_NO_LIST = ("properties", "$defs")
"""Groups whose names are the document's own, not the schema's."""


def job_schema() -> dict[str, Any]:
    """JSON Schema (draft 2020-12) of a job's document."""
    return _schema(Job, "Rodbook job")


def book_schema() -> dict[str, Any]:
    """JSON Schema (draft 2020-12) of a book's document."""
    return _schema(Book, "Rodbook book")


def _schema(model: type[BaseModel], title: str) -> dict[str, Any]:
    result = _mended(model.model_json_schema(mode="validation"))
    if not isinstance(result, dict):
        raise TypeError("a schema is a group of names and values")
    schema: dict[str, Any] = result
    schema["title"] = title
    schema["required"] = ["format", *(name for name in schema.get("required", ()) if name != "format")]
    schema["$defs"] = {**schema.get("$defs", {}), _LENGTH: _length()}
    return {"$schema": GenerateJsonSchema.schema_dialect, **schema}


def _length() -> dict[str, Any]:
    return {
        "description": "A length: a number of millimetres, or text such as 842,5 or 84.2 cm. [mm]",
        "anyOf": [
            {"type": "number", "minimum": -LARGEST_MM, "maximum": LARGEST_MM},
            {"type": "string", "pattern": LENGTH_PATTERN},
        ],
    }


def _mended(node: object) -> object:
    """The model library's schema with lengths said once and limits by their proper names."""
    if isinstance(node, list):
        return [_mended(entry) for entry in node]
    if not isinstance(node, dict):
        return node
    mended: dict[str, object] = {}
    for name, value in _with_family(node).items():
        if name in _NO_LIST and isinstance(value, dict):
            mended[name] = {key: _mended(entry) for key, entry in value.items()}
        elif name == "anyOf" and _is_length(value):
            mended["$ref"] = f"#/$defs/{_LENGTH}"
        elif name not in ("title", "discriminator"):
            mended[_LIMITS.get(name, name)] = value if name in ("default", "enum", "const") else _mended(value)
    return mended


def _with_family(node: dict[str, Any]) -> dict[str, Any]:
    """A build-up has to say its family: the reader tells by it which kind it is."""
    if not isinstance(node.get("properties"), dict) or "const" not in node["properties"].get("family", ()):
        return node
    return {**node, "required": ["family", *node.get("required", ())]}


def _is_length(choices: object) -> bool:
    return isinstance(choices, list) and any(
        isinstance(choice, dict) and choice.get("pattern") == LENGTH_PATTERN for choice in choices
    )
