"""What a job and the book are: models, units, files in and out, versions, and the sample jobs."""

from rodbook.job.book import (
    Board,
    Book,
    BuildUp,
    HingeType,
    InsetBuildUp,
    LayOnBuildUp,
    Section,
    Workshop,
)
from rodbook.job.models import Hand, Job, Opening, Panel

__all__ = [
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
    "Section",
    "Workshop",
]
