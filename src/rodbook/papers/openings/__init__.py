"""Openings, sizes, packing and framing, for the site."""
