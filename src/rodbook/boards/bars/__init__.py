"""The search for plans of bars."""
