"""Checks: engineering questions with a verdict."""
