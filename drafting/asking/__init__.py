"""Asking a builder for a price, and reading what comes back."""
