"""The families of build-ups that a book may hold, by the word that says which: the only place that lists their models."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated, Any, Union, get_args

from pydantic import Field, GetCoreSchemaHandler, TypeAdapter
from pydantic_core import CoreSchema

from rodbook.job.build_ups.base import BuildUpBase
from rodbook.job.build_ups.inset import InsetBuildUp
from rodbook.job.build_ups.lay_on import LayOnBuildUp
from rodbook.job.build_ups.lay_on_plain import PlainLayOnBuildUp

__all__ = [
    "AnyBuildUp",
    "BuildUp",
    "families",
    "forget",
    "model_of",
    "models",
    "read_build_up",
    "register",
    "when_changed",
]

_MODELS: dict[str, type[BuildUpBase]] = {}
_AFTER: list[Callable[[], object]] = []


def word_of(model: type[BuildUpBase]) -> str:
    """The one value of its field `family`."""
    (word,) = get_args(model.model_fields["family"].annotation)
    return str(word)


def register(model: type[BuildUpBase]) -> None:
    """Let books hold build-ups of a family.

    Parameters
    ----------
    model : type of BuildUpBase
        Its field `family` is a literal of one word, which no other family has.

    Raises
    ------
    ValueError
        If another model has that word.
    """
    word = word_of(model)
    if _MODELS.get(word, model) is not model:
        raise ValueError(f"the family {word!r} is registered already, by {_MODELS[word].__name__}")
    _MODELS[word] = model
    for changed in _AFTER:
        changed()


def forget(model: type[BuildUpBase]) -> None:
    """Take a family out again, so that books with it are refused."""
    del _MODELS[word_of(model)]
    for changed in _AFTER:
        changed()


def when_changed(changed: Callable[[], object]) -> None:
    """Call this whenever a family is registered or forgotten: a document that holds build-ups is made anew."""
    _AFTER.append(changed)


def families() -> tuple[str, ...]:
    """The words by which books name the families."""
    return tuple(_MODELS)


def models() -> tuple[type[BuildUpBase], ...]:
    """Their models, in the same order."""
    return tuple(_MODELS.values())


def model_of(family: str) -> type[BuildUpBase] | None:
    """The model of a family; none where there is none of that name."""
    return _MODELS.get(family)


class _ByFamily:
    """Stands for the union of all models that are registered when a document is made, told apart by `family`."""

    def __get_pydantic_core_schema__(self, _source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return handler.generate_schema(Annotated[Union[models()], Field(discriminator="family")])  # noqa: UP007


type AnyBuildUp = BuildUpBase
"""A build-up of any family."""

BuildUp = Annotated[BuildUpBase, _ByFamily()]
"""A way of building a front; `family` says which."""

_ADAPTER: list[TypeAdapter[BuildUpBase]] = []


def read_build_up(raw: object) -> BuildUpBase:
    """Read one build-up by itself.

    Raises
    ------
    ValidationError
        If it cannot be read.
    """
    if not _ADAPTER:
        _ADAPTER.append(TypeAdapter(BuildUp))
    return _ADAPTER[0].validate_python(raw)


for _model in (InsetBuildUp, LayOnBuildUp, PlainLayOnBuildUp):
    register(_model)
when_changed(_ADAPTER.clear)
