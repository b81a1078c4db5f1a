"""The pipeline in order: a plan is a pure function of a job and a book."""

from rodbook.plan.ahead import LESS_MM, MORE_MM, Ahead, LeafOffer, frame_ahead
from rodbook.plan.as_json import as_json, plan_json
from rodbook.plan.laid_out import job_chances, laid_out
from rodbook.plan.leaf_checks import LeafChecks, leaf_checks
from rodbook.plan.model import Material, Note, OpeningPlan, Plan
from rodbook.plan.pipeline import make_plan, plan_parts
from rodbook.plan.swings import FrontSwing, LeafSwing, front_swing

__all__ = [
    "LESS_MM",
    "MORE_MM",
    "Ahead",
    "FrontSwing",
    "LeafChecks",
    "LeafOffer",
    "LeafSwing",
    "Material",
    "Note",
    "OpeningPlan",
    "Plan",
    "as_json",
    "frame_ahead",
    "front_swing",
    "job_chances",
    "laid_out",
    "leaf_checks",
    "make_plan",
    "plan_json",
    "plan_parts",
]
