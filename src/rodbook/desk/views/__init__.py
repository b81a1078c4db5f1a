"""Views: each gets its folder, asks one function of the store or the planner, and renders."""
