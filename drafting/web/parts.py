"""What an answer of the page is made of, one part after the other."""

from __future__ import annotations

from typing import Any

Part = dict[str, Any]
REST: Part = {}
"""The part that goes nowhere: here a job waits a little for a newer order before it goes on with
what is not looked at while somebody types."""
