"""Sheets and lengths with their cuts, for the saw."""
