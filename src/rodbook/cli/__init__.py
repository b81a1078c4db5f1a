"""The command line: the edge that reads files, prints and sets exit codes."""

from rodbook.cli.commands import main

__all__ = ["main"]
