"""Weeks: the crew's weeks over all jobs."""
