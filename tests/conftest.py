"""What holds for every test: no deadlines, as a busy machine is no fault of the code, no code without its
sentence, and little time for the collector."""

import gc

from hypothesis import settings

from rodbook.wording import rendering

rendering.STRICT = True  # a code that has no sentence is an error here

settings.register_profile("rodbook", deadline=None, print_blob=True)
settings.load_profile("rodbook")


def pytest_collection_finish():
    """What was loaded for all tests stays for all of them: it is not gone through again for each few hundred new objects."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(20_000, 20, 20)
