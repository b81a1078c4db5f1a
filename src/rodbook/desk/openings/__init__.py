"""Openings: typed, pasted, measured reading by reading, with their shapes and pictures, with signal or without."""
