"""Set-out: sizes, fronts, leaves and parts."""
