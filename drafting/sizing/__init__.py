"""From what a machine needs to cylinders that do it."""
