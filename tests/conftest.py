"""What holds for every test: properties have no deadline, as a busy machine is no fault of the code."""

from hypothesis import settings

settings.register_profile("rodbook", deadline=None, print_blob=True)
settings.load_profile("rodbook")
