"""What a job took, read from a TOML document that stands beside the job's."""

from __future__ import annotations

from pydantic import ValidationError

from rodbook.errors import InputError
from rodbook.job.actuals import Actuals
from rodbook.job.faults import faults_of, loose_faults
from rodbook.job.files.store import FilePath, read_bytes, text_of
from rodbook.job.files.syntax import MOST_BYTES, read_values

__all__ = ["parse_actuals", "read_actuals"]


def read_actuals(path: FilePath) -> Actuals:
    """Read hours and invoices from their file.

    Raises
    ------
    StoreError
        If the file can't be read.
    InputError
        With every fault.
    """
    return parse_actuals(text_of(read_bytes(path, most=MOST_BYTES)))


def parse_actuals(text: str) -> Actuals:
    """Read hours and invoices from text.

    Raises
    ------
    InputError
        With every fault.

    Examples
    --------
    >>> text = '[[hours]]\\nday = 2026-11-20\\nperson = "Anna"\\ntask = "size a part"\\nhours = 1.5\\ndone = 18'
    >>> parse_actuals(text).hours[0].hours
    Decimal('1.5')
    """
    raw = read_values(text)
    if "job" in raw or "boards" in raw:
        raise InputError.at("file", "file.hours_needed")
    loose = loose_faults(Actuals, raw)
    try:
        result = Actuals.model_validate(raw)
    except ValidationError as error:
        answer = faults_of(error, Actuals, raw)
        places = {fault.at for fault in answer}
        raise InputError([*answer, *(fault for fault in loose if fault.at not in places)]) from None
    if loose:
        raise InputError(loose)
    return result
