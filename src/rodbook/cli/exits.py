"""How the command line ends: one sentence for each error, and an exit code."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Callable
from typing import NoReturn

import click

from rodbook.errors import InputError, RodbookError
from rodbook.wording import said_as_data

__all__ = ["EXIT_ASIDE", "EXIT_FAILED", "EXIT_INPUT", "run"]

EXIT_FAILED, EXIT_INPUT, EXIT_ASIDE = 1, 2, 3
"""Broke off; what was given is wrong, so nothing was done; done, but without what stands aside."""


def _wanted_as_json() -> bool:
    """Whether the command was asked for JSON: then what is wrong is told so too."""
    return "--json" in sys.argv[1:]


def _fail(error: RodbookError) -> NoReturn:
    code = EXIT_INPUT if isinstance(error, InputError) else EXIT_FAILED
    if _wanted_as_json():
        answer = error.faults if isinstance(error, InputError) else (error.message,)
        values = {"faults": [said_as_data(one) for one in answer]}
        click.echo(json.dumps(values, indent=1, ensure_ascii=False), err=True)
        sys.exit(code)
    lines = [str(fault) for fault in error.faults] if isinstance(error, InputError) else [str(error)]
    for line in lines:
        click.echo(line, err=True)
    if len(lines) > 1:
        click.echo(f"{len(lines)} faults to put right; nothing was written.", err=True)
    sys.exit(code)


def run(command: Callable[[], object]) -> None:
    """Run a command; errors become one sentence each and an exit code."""
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")  # else every installed package is searched for some
    try:
        command()
    except RodbookError as error:
        _fail(error)
    except Exception as error:
        if os.environ.get("RODBOOK_TRACEBACK"):
            raise
        click.echo(f"Rodbook met something that it did not expect ({type(error).__name__}: {error}).", err=True)
        click.echo("Nothing more was written. Please report it with the file that you gave it.", err=True)
        sys.exit(EXIT_FAILED)
