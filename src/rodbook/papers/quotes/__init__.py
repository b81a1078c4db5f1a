"""Workshops' quotes held against each other."""
