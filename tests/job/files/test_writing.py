"""Jobs written for people to read."""

import datetime

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodbook.job import Job, Opening
from rodbook.job.files import new_job, parse_job, sample_names, sample_text, write_job

DATE = datetime.date(2026, 11, 2)


def test_a_job_is_written_plainly():
    job = Job.model_validate(
        {
            "job": {"name": "Seed store", "date": DATE, "build_up": "inset, painted", "client": 'The "tenants"'},
            "making": {"door": "bought-in", "trim leg": "site-made"},
            "openings": [
                {
                    "mark": "C1",
                    "leaves": 2,
                    "widths": [842, 843.5, "84.3 cm"],
                    "heights": [2030, 2030, 2031],
                    "sill": True,
                },
                {"mark": "W1", "state": "planned", "hand": "left", "leaf": [447, 2100], "note": "two\nlines"},
            ],
            "panels": [{"mark": "P1", "board": "18 mm MDF", "length": 505, "width": 420}],
        }
    )
    assert write_job(job) == (
        """\
# A job for Rodbook. Lengths are millimetres, as in 842 or 842.5; text such as "84.2 cm" is read as well.
format = 1

[job]
name = "Seed store"
client = "The \\"tenants\\""
revision = "A"
date = 2026-11-02
build_up = "inset, painted"

# Who makes each kind of part: site-made, bought-in or cheaper; what is not listed goes where it is cheaper.
[making]
door = "bought-in"
"trim leg" = "site-made"

# widths are read level at foot, middle and head; heights plumb at left, middle and right;
# diagonals from foot left to head right, then from foot right to head left.
# An opening still to be framed is state = "planned", with leaf or clear = [width, height] as wanted.
[[openings]]
mark = "C1"
leaves = 2
sill = true
widths = [842, 843.5, 843]
heights = [2030, 2030, 2031]

[[openings]]
mark = "W1"
state = "planned"
leaf = [447, 2100]
note = "two\\nlines"

# length runs along the board's grain, width across it.
[[panels]]
mark = "P1"
board = "18 mm MDF"
length = 505
width = 420
"""
    )


@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_a_job_that_was_written_reads_back_equal(data, some_jobs):
    job = data.draw(some_jobs)
    assert parse_job(write_job(job)) == job


@pytest.mark.parametrize("name", sample_names())
def test_the_samples_read_back_equal(name):
    job = parse_job(sample_text(name))
    assert parse_job(write_job(job)) == job


def test_a_new_job_holds_examples_that_can_be_used(told):
    text = new_job("Mill house", date=DATE, build_up="inset, painted", number="26-060", client="The miller")
    assert told(parse_job, text) == [
        "openings: the job has neither openings nor panels; add one, or import a list of them"
    ]
    head, example = text.split(
        "# Openings are written as below, without the # in front; or import them from a table.\n"
    )
    assert 'name = "Mill house"\nnumber = "26-060"\nclient = "The miller"\nrevision = "A"\n' in head
    assert all(line.startswith("# ") or not line for line in example.splitlines())
    used = "\n".join(
        line[2:] if "=" in line.split(" ")[2:3] or line.startswith("# [[") else line for line in example.splitlines()
    )
    job = parse_job(head + used)
    assert [(o.mark, o.state) for o in job.openings] == [("C1", "standing"), ("W1", "planned")]
    assert job.job.name == "Mill house"


def test_a_new_job_may_start_from_openings():
    opening = Opening.model_validate({"mark": "W1", "state": "planned", "leaf": (447, 2100)})
    job = parse_job(new_job("Mill house", date=DATE, build_up="inset", openings=[opening]))
    assert job.openings == (opening,)


def test_what_can_t_stand_in_a_job_is_told(told):
    assert told(new_job, "", date=DATE, build_up="x" * 90) == [
        "job.name: this is empty; write a name",
        "job.build_up: this text is longer than 80 characters",
    ]
