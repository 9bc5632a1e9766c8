"""From pieces to kernel solids and STEP."""
