"""The looks at a cylinder with all that is their own."""
