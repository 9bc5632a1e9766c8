"""Dimensions: which view shows a size, where it may stand, what that costs."""
