"""The search for plans of sheets, and what follows on it."""
