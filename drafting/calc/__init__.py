"""Pure engineering functions in mm, N, MPa."""
