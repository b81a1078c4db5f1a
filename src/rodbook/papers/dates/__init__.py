"""The programme of jobs."""
