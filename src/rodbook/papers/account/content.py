"""A job's account: what it was priced at, what was reckoned with and what it took. For the firm's own eyes."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path

from rodbook.papers.common.shared import Json, Sheetful, frame, writer
from rodbook.papers.numbers import Numbers
from rodbook.plan import JobAccount, Plan

__all__ = ["AccountRows", "account_content", "account_rows"]


FORECAST = (
    "What is planned and not taken yet is forecast at what was planned, or at what it has taken where that is more. The job "
    "counts as finished once its hand-over is put down as done among its dates."
)
"""What the end of a job on the way rests on."""


@dataclass(frozen=True)
class AccountRows:
    """An account written out, for page and paper alike.

    Parameters
    ----------
    lines : list of tuple
        What, hours planned and taken, money planned, taken and still to come, and what it costs more or less in the end.
    together : tuple
        The same of all of them.
    sums : list of (str, str, str)
        What, as reckoned, as it came or as it is heading.
    ends : str
        What the last column of `sums` is.
    people : list of (str, str)
        Hours of everybody.
    remarks : list of str
    """

    lines: list[tuple[str, ...]]
    together: tuple[str, ...]
    sums: list[tuple[str, str, str]]
    people: list[tuple[str, str]]
    remarks: list[str]
    ends: str


def account_rows(result: JobAccount, write: Numbers) -> AccountRows:
    """Write an account out."""
    account = result.account
    lines: list[tuple[str, ...]] = [
        (
            line.what,
            _hours(line.planned_hours, write),
            _hours(line.actual_hours, write),
            write.money(line.planned),
            write.money(line.actual),
            write.money(line.to_come) if line.to_come else "",
            _more(line.more, write),
        )
        for line in account.lines
    ]
    planned = sum((line.planned_hours for line in account.lines), Decimal(0))
    taken = sum((line.actual_hours for line in account.lines), Decimal(0))
    together = (
        "together",
        _hours(planned, write),
        _hours(taken, write),
        write.money(account.planned),
        write.money(account.actual),
        write.money(account.to_come) if account.to_come else "",
        _more(account.forecast - account.planned, write),
    )
    net = write.money(account.net)
    sums = [
        ("Price, net of tax", net, net),
        ("Cost", write.money(account.planned), write.money(account.forecast)),
        ("What is left", write.money(account.earned_planned), write.money(account.earned)),
        ("That, of the price", write.percent(account.margin_planned, 1), write.percent(account.margin, 1)),
    ]
    ends = "as it came" if account.finished else "as it is heading"
    if not account.finished:
        sums.insert(1, ("Taken so far", "", write.money(account.actual)))
    remarks: list[str] = [] if account.finished else [FORECAST]
    remarks += [
        "The price is the one that was given."
        if result.given
        else "No price was given yet: this is what the plan comes to.",
        f"An hour is reckoned at {write.money(result.crew_hour)}, planned and taken alike; middles of the book, without spread.",
    ]
    if result.overhead:
        remarks.append(
            f"The price carries {write.money(result.overhead)} of overhead, which what is left has to pay too."
        )
    if result.beyond is not None and result.beyond > 0:
        remarks.append(
            f"The price reckons with {write.money(result.beyond)} more of cost, averages and contingency, for what varies; what"
            " is left here has that in it still."
        )
    return AccountRows(
        lines, together, sums, [(name, f"{_hours(total, write)} h") for name, total in account.by_person], remarks, ends
    )


def _hours(hours: Decimal, write: Numbers) -> str:
    return write.short(float(hours)) if hours else ""


def _more(more: Decimal, write: Numbers) -> str:
    return ("+" if more > 0 else "") + write.money(more) if more else ""


def account_content(plan: Plan, result: JobAccount) -> Sheetful:
    """What stands on the paper of a job's account.

    Parameters
    ----------
    plan : Plan
    result : JobAccount
    """
    rows = account_rows(result, writer(plan))
    content: dict[str, Json] = {
        "frame": frame(
            plan, "Account", title="What the job took" if result.account.finished else "What the job took so far"
        ),
        "sentences": list(result.account.sentences),
        "lines": [list(row) for row in rows.lines],
        "together": list(rows.together),
        "sums": [list(row) for row in rows.sums],
        "people": [list(row) for row in rows.people],
        "remarks": rows.remarks,
        "ends": rows.ends,
    }
    return Sheetful(Path(__file__).with_name("account.typ"), content, {})
