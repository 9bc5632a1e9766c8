"""How barrel, ends and gland are built: one file for each construction."""
