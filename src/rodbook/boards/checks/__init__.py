"""Whether a plan is what it says, found out without the search."""
