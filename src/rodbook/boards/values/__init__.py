"""Pieces valued, patterns that their values ask for, and patterns mixed."""
