"""Checks: what is provided against what is asked, with verdicts, open questions and cautions."""
