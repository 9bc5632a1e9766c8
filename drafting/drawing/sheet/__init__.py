"""The neutral sheet and what is on it, in paper millimetres."""
