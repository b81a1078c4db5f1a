"""Readings: taken, to be taken, and the packers that follow from them."""
