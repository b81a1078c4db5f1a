"""What a revision changed, as somebody may read it: sentences made of the changes that their role sees."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from django.utils.translation import gettext as _

from rodbook.desk.models import Kind, Revision
from rodbook.desk.platform.changes import Change, Value, changed, sentence
from rodbook.desk.platform.roles import may_see, seen_by
from rodbook.errors import Fault

__all__ = ["faults_for", "field_of", "lines_between", "lines_for"]


def _lines(role: str, kind: str, changes: Iterable[Change]) -> list[str]:
    seen, more = seen_by(role, kind, changes)
    hidden = _("how the job is priced") if kind == Kind.JOB else _("what only the owner sees")
    return [*map(sentence, seen), *([hidden] if more else [])]


def lines_for(role: str, revision: Revision) -> list[str]:
    """What a revision changed, one sentence a line.

    Parameters
    ----------
    role : str
        Of whoever reads it.
    revision : Revision
    """
    kind = revision.folder.kind
    result = _lines(role, kind, revision.changed())
    if result or not revision.text:
        return result
    whole = ("actuals.invoices",) if kind == Kind.ACTUALS else (kind,)
    return revision.text.splitlines() if may_see(role, *whole) else []


def faults_for(role: str, kind: str, faults: Iterable[Fault]) -> list[str]:
    """Faults of a document as somebody may read them; one of a field that they do not see says only that there is one."""
    hidden = _("something that only the owner sees is at fault; ask the owner")
    lines = (str(fault) if may_see(role, f"{kind}.{field_of(fault)}") else hidden for fault in faults)
    return list(dict.fromkeys(lines))


def field_of(fault: Fault) -> str:
    """The names of fields on the way to a fault's place."""
    return ".".join(step for step in fault.at.path if isinstance(step, str))


def lines_between(role: str, kind: str, old: Mapping[str, Value], new: Mapping[str, Value]) -> list[str]:
    """What two revisions of a document differ by."""
    return _lines(role, kind, changed(old, new))
