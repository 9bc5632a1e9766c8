"""Tables of standards: CSV rows with source and confidence."""
