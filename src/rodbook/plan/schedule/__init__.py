"""Tasks of a plan and their dates, by themselves or over several jobs."""
