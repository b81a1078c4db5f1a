"""The command line: the edge that reads files, prints and sets exit codes."""

from rodbook.cli.commands import main, rodbook
from rodbook.cli.dates import dates

rodbook.add_command(dates)

__all__ = ["main"]
