"""The rows that people and programs read: text and JSON."""
