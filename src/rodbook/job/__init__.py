"""What a job and the book are: models, units, files in and out, versions, and the sample jobs."""

from typing import TYPE_CHECKING

from rodbook.late import late_face

if TYPE_CHECKING:
    from rodbook.job.book import (
        AnyBuildUp,
        Board,
        Book,
        BuildUp,
        HingeType,
        InsetBuildUp,
        LayOnBuildUp,
        PlainLayOnBuildUp,
        Section,
        Workshop,
    )
    from rodbook.job.models import Hand, Job, Opening, Panel

__all__ = [
    "AnyBuildUp",
    "Board",
    "Book",
    "BuildUp",
    "Hand",
    "HingeType",
    "InsetBuildUp",
    "Job",
    "LayOnBuildUp",
    "Opening",
    "Panel",
    "PlainLayOnBuildUp",
    "Section",
    "Workshop",
]

late_face(__name__)
