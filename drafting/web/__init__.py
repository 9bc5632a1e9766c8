"""The local page: the same jobs, in a browser on this machine."""
