"""Sheets filled piece by piece, and the cuts that this makes."""
