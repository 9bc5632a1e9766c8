"""The sheet as files."""
