"""The commands by name; each has a module of its own, which is loaded when it is called."""

from __future__ import annotations

from importlib import import_module

import click

__all__ = ["COMMANDS", "LateGroup"]

COMMANDS = {
    "account": ("account:account", "Hold what a job took against its price and its plan, and say what is left."),
    "backup": ("backup:backup", "Write all that a desk keeps into one file; the desk may run meanwhile."),
    "backup-schedule": (
        "backup:backup_schedule",
        "Have backups made while the desk runs; without options say how it stands.",
    ),
    "basket": ("basket:basket_command", "Hold what several jobs buy against the prices of the book through time."),
    "change": ("change:change", "Price a change by the client."),
    "check": ("check:check", "Check job files, books and lists of openings; every fault is named with its place."),
    "confirm": ("confirming:confirm_command", "List what a book has from a sample and nobody has confirmed."),
    "dates": ("dates:dates", "Plan the dates of jobs that share people."),
    "demo": ("demo:demo", "Plan a sample job, print its summary and write its papers."),
    "desk": ("desk:desk", "Open the desk: the job in a browser on this machine, by a link that works once."),
    "desk-check": ("backup:desk_check", "Look whether all that a desk keeps is whole, and name what is damaged."),
    "desk-person": ("people:desk_person", "Make an account for the shared desk; the first one has to be an owner's."),
    "desk-second-off": ("people:desk_second_off", "Ask somebody for no second step any more."),
    "frame-ahead": (
        "ahead:ahead",
        "Look for leaves near the wanted ones that waste less board, for openings still to be framed.",
    ),
    "new": ("new:new", "Begin a new job file, with its figures explained."),
    "papers": ("papers:papers", "Write the papers of a job."),
    "plan": ("plan:plan", "Work a job out and print its summary."),
    "price": ("price:price", "Make a job's price and print how it comes about; the client's paper shows none of that."),
    "price-list": (
        "price_lists:price_list_command",
        "Hold a price list (CSV or XLSX) against the book and print what would change.",
    ),
    "quotes": (
        "quotes:quotes_command",
        "Hold workshops' lists (CSV or XLSX) against what a job orders, line by line.",
    ),
    "re-price": ("repricing:repricing", "Hold a job as it was priced against another day's book."),
    "restore": ("backup:restore", "Bring a backup back; what was there before stands beside it under another name."),
    "schema": ("schema:schema", "Print the JSON Schema of a job or a book."),
    "sizes": ("sizes:sizes", "Weigh how many standard sizes the openings get against how thick the packers are."),
    "weeks": (
        "weeks:weeks_command",
        "Decide over several jobs what to make and what to buy, so that the firm earns most.",
    ),
}
"""Where each command is, and what the list of commands says of it."""


class LateGroup(click.Group):
    """A group whose commands are loaded when they are called."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002
        """Names in order."""
        return sorted(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        """Load a command; None where there is none of that name."""
        if cmd_name not in COMMANDS:
            return None
        module, _, name = COMMANDS[cmd_name][0].partition(":")
        result: click.Command = getattr(import_module(f"rodbook.cli.{module}"), name)
        return result

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002
        """List them without loading any."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, COMMANDS[name][1]) for name in sorted(COMMANDS)])
