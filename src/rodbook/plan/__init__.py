"""The pipeline in order: a plan is a pure function of a job and a book."""

from rodbook.plan.model import Material, Note, OpeningPlan, Plan
from rodbook.plan.pipeline import make_plan

__all__ = ["Material", "Note", "OpeningPlan", "Plan", "make_plan"]
