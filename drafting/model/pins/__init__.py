"""Loose pins: sizes, shapes, details."""
