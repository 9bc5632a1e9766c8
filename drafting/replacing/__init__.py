"""Replacing one cylinder by another: what differs, whether it matters, and what to do about it."""
