"""The pipeline in order: a plan is a pure function of a job and a book."""

from rodbook.plan.ahead import LESS_MM, MORE_MM, Ahead, LeafOffer, frame_ahead
from rodbook.plan.as_json import as_json, plan_json
from rodbook.plan.model import Material, Note, OpeningPlan, Plan
from rodbook.plan.pipeline import make_plan, plan_parts

__all__ = [
    "LESS_MM",
    "MORE_MM",
    "Ahead",
    "LeafOffer",
    "Material",
    "Note",
    "OpeningPlan",
    "Plan",
    "as_json",
    "frame_ahead",
    "make_plan",
    "plan_json",
    "plan_parts",
]
