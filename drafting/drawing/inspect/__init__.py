"""The finished sheet read like a checker with a red pen."""
