"""The pipeline in order: a plan is a pure function of a job and a book."""

from typing import TYPE_CHECKING

from rodbook.late import late_face

if TYPE_CHECKING:
    from rodbook.plan.analyses.account import (
        JobAccount,
        Task,
        account_of,
        invoices_of,
        planned_for,
        tasks_of,
        time_entries,
    )
    from rodbook.plan.analyses.ahead import LESS_MM, MORE_MM, Ahead, LeafOffer, frame_ahead
    from rodbook.plan.analyses.buying import bought_by, bought_together
    from rodbook.plan.analyses.capacity import (
        WeeksDecided,
        crew_days,
        days_besides,
        income_of,
        more_days,
        weeks_of_job,
        weeks_wanted,
        weigh_plan,
    )
    from rodbook.plan.analyses.changes import ChangeEffect, at_day_of, change_of, effect_of_change, hand_overs
    from rodbook.plan.analyses.hinges_bought import HingeLot, hinges_bought
    from rodbook.plan.analyses.laid_out import job_chances, laid_out
    from rodbook.plan.analyses.leaf_checks import FreeGap, LeafCheck, LeafChecks, leaf_checks
    from rodbook.plan.analyses.left_out import LeftOut, left_out_in_words, left_out_of
    from rodbook.plan.analyses.pricing import PARTS_NAME, Pricing, job_rules, price_job, rules_of
    from rodbook.plan.analyses.repricing import JobRepriced, reprice_job
    from rodbook.plan.as_json import as_json, plan_json
    from rodbook.plan.model import KindOutlook, Material, Note, OpeningPlan, Outlook, Plan, SizesCost, Wanted
    from rodbook.plan.parts import plan_parts
    from rodbook.plan.pipeline import make_plan
    from rodbook.plan.stages.from_waste import FromWaste, from_waste, piece_worth
    from rodbook.plan.stages.materials import saw_of
    from rodbook.plan.stages.neighbours import neighbours
    from rodbook.plan.stages.offcuts import KeptOffcut, kept_offcuts, offcut_worth
    from rodbook.plan.stages.shop import as_found, offcut_moves, used_offcuts
    from rodbook.plan.stages.side_by_side import LeafPair
    from rodbook.plan.stages.swings import FrontSwing, LeafSwing, front_swing

__all__ = [
    "LESS_MM",
    "MORE_MM",
    "PARTS_NAME",
    "Ahead",
    "ChangeEffect",
    "FreeGap",
    "FromWaste",
    "FrontSwing",
    "HingeLot",
    "JobAccount",
    "JobRepriced",
    "KeptOffcut",
    "KindOutlook",
    "LeafCheck",
    "LeafChecks",
    "LeafOffer",
    "LeafPair",
    "LeafSwing",
    "LeftOut",
    "Material",
    "Note",
    "OpeningPlan",
    "Outlook",
    "Plan",
    "Pricing",
    "SizesCost",
    "Task",
    "Wanted",
    "WeeksDecided",
    "account_of",
    "as_found",
    "as_json",
    "at_day_of",
    "bought_by",
    "bought_together",
    "change_of",
    "crew_days",
    "days_besides",
    "effect_of_change",
    "frame_ahead",
    "from_waste",
    "front_swing",
    "hand_overs",
    "hinges_bought",
    "income_of",
    "invoices_of",
    "job_chances",
    "job_rules",
    "kept_offcuts",
    "laid_out",
    "leaf_checks",
    "left_out_in_words",
    "left_out_of",
    "make_plan",
    "more_days",
    "neighbours",
    "offcut_moves",
    "offcut_worth",
    "piece_worth",
    "plan_json",
    "plan_parts",
    "planned_for",
    "price_job",
    "reprice_job",
    "rules_of",
    "saw_of",
    "tasks_of",
    "time_entries",
    "used_offcuts",
    "weeks_of_job",
    "weeks_wanted",
    "weigh_plan",
]

late_face(__name__)
