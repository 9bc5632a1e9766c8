"""Whole jobs around the cylinder: identify, measure, size."""
