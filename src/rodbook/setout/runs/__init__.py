"""Trims and plinths that run on over several openings in one line."""
