"""Django forms and formsets as the desk has them: fields hold what was typed, and what is wrong is said beside its field.

Documents and their checks stand below the desk, so a form reads text into values, and what a document says of those values comes
back to the fields by the fault's path. A template shows a bound field with the tag `bound`.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, ClassVar

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as lazy

from rodbook.desk.platform.faults import in_words, told
from rodbook.errors import Fault

__all__ = ["Typed", "TypedForm", "TypedFormSet"]


class Typed(forms.CharField):
    """Text as it was typed, which may be empty; how it is typed on a phone, what it is measured in, a word of explanation."""

    def __init__(
        self,
        label: Any = "",
        *,
        mode: str = "",
        kind: str = "text",
        unit: Any = "",
        needed: bool = False,
        choices: Iterable[tuple[str, Any]] = (),
        **more: Any,
    ) -> None:
        """Say what a page shows of it; whether it may be empty is for the document to say."""
        super().__init__(required=False, label=label, **more)
        self.mode, self.kind, self.unit, self.needed, self.choices = mode, kind, unit, needed, tuple(choices)


class TypedForm(forms.Form):
    """A form whose fields have the ids that the desk's pages have."""

    use_required_attribute = False

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        """As Django's own."""
        super().__init__(*args, **{"auto_id": "f-%s", **kwargs})

    def add_faults(self, faults: Iterable[Fault]) -> None:
        """Put each fault at the field that its path ends in, else over the form; a field that has one keeps that."""
        for fault in faults:
            name = str(fault.at.path[-1]).rpartition(".")[2] if fault.at.path else ""
            if name not in self.fields:
                self.add_error(None, ValidationError(told(fault), code=fault.code))
            elif name not in self.errors:
                self.add_error(name, ValidationError(in_words(fault), code=fault.code))

    def fail(self, name: str, fault: Fault) -> None:
        """Say that something is wrong with a field."""
        self.add_error(name, ValidationError(in_words(fault), code=fault.code))

    def text(self, name: str) -> str:
        """What was typed in a field, or what it begins with."""
        return str(self[name].value() or "")

    @property
    def first(self) -> str:
        """The field to put the cursor in: the first that has a fault."""
        return next((self[name].html_name for name in self.fields if name in self.errors), "")


class TypedFormSet(forms.BaseFormSet):
    """Rows of one form, most of which may be empty."""

    default_error_messages: ClassVar = {
        **forms.BaseFormSet.default_error_messages,
        "missing_management_form": lazy("how many rows there are did not come with it; load the page again"),
    }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        """As Django's own."""
        super().__init__(*args, **{"auto_id": "f-%s", **kwargs})

    @property
    def filled(self) -> list[TypedForm]:
        """Rows in which something was typed, in order."""
        return [form for form in self.forms if form.has_changed()]

    @property
    def first(self) -> str:
        """The field to put the cursor in: the first that has a fault."""
        return next((form.first for form in self.forms if form.is_bound and form.first), "")

    @property
    def is_at_fault(self) -> bool:
        """Whether anything is wrong with any row, or with the rows as a whole."""
        return self.is_bound and bool(any(form.errors for form in self.forms) or self.non_form_errors())
