"""A change of a job, for the client."""
