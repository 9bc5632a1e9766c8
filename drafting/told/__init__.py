"""Rows of facts: what is said of a cylinder in lists and documents."""
