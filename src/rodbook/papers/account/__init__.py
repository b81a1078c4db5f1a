"""A job's account."""
