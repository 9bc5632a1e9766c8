"""From tape, caliper and thread gauge to a spec: worksheet, readings, identification."""
