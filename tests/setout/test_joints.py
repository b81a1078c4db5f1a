"""What a part's joints are is data; its words say the same, for every sample and way of joining."""

import pytest

from rodbook.job import Book
from rodbook.job.files import sample_book, sample_job
from rodbook.plan import plan_parts
from rodbook.setout import Joint, PartKind

HOUSED_AND_MITRED = {"head_joint": "housed", "housing": 6.0, "trim_joint": "mitred"}
WAYS = (HOUSED_AND_MITRED, {"head_joint": "between", "housing": 0.0, "trim_joint": "butted"})


def _parts(name, **changed):
    raw = sample_book().model_dump()
    raw["build_ups"] = [{**b, **{k: v for k, v in changed.items() if k in b}} for b in raw["build_ups"]]
    plan = plan_parts(sample_job(name), Book.model_validate(raw))
    return [p.part for o in plan.openings if o.set_out for p in o.set_out.parts]


@pytest.mark.parametrize("name", ["converted-store", "timber-house", "stair", "galley"])
@pytest.mark.parametrize(
    "joined",
    [
        {"head_joint": "housed", "housing": 6.0, "trim_joint": "mitred"},
        {"head_joint": "between", "housing": 0.0, "trim_joint": "butted"},
    ],
    ids=str,
)
def test_words_and_joints_say_the_same(name, joined):
    parts = _parts(name, **joined)
    assert parts
    for part in parts:
        words = part.ends
        assert ("housed" in words) == (Joint.HOUSED in part.joints), words
        assert ("rebated" in words) == bool({Joint.REBATED_BACK, Joint.REBATED_FRONT} & set(part.joints))
        if part.kind in (PartKind.TRIM_LEG, PartKind.TRIM_HEAD) and not part.cuts:
            assert ("mitre" in words) == bool({Joint.MITRED_HEAD, Joint.MITRED_FOOT} & set(part.joints))


def test_a_housed_head_and_mitred_trims_are_there():
    joints = {joint for part in _parts("converted-store", **HOUSED_AND_MITRED) for joint in part.joints}
    assert {Joint.HOUSED, Joint.MITRED_HEAD} <= joints
