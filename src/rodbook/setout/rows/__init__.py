"""Fronts divided in height: drawer fronts, flaps, leaves and aprons over each other."""
