"""A job as it was priced, against another day."""
