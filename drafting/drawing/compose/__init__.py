"""From a job to its sheets: paper, scale, places."""
