"""Fronts whose head slopes."""
