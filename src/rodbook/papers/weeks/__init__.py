"""The crew's weeks over all jobs."""
