"""Hydraulic cylinder drafting: spec file to drawing, solid and checks."""
