"""From pieces and wishes to a neutral sheet and its files."""
