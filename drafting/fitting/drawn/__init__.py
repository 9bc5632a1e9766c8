"""The mechanism on paper: the cylinder in its machine, plots over the travel, pin places."""
