"""Many cylinders in one run: a table or a folder to orders, drawn, kept, and looked through."""
