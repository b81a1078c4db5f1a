"""The clock and the solver."""
