"""Jobs whose plans are finished."""

import time

from rodbook.desk.platform.job_page import job_page


def known(pk):
    """Wait until all of a job is worked out, and give its number."""
    page = job_page(pk, start=True)
    deadline = time.monotonic() + 60
    while not page.work.over and time.monotonic() < deadline:
        time.sleep(0.05)
    assert page.work.plan is not None, page.work
    return pk
