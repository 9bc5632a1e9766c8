"""Ports: where they sit, what they look like, what they need."""
