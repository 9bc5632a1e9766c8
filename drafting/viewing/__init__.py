"""One file to look at: drawing, solid, sizes, verdicts and the files themselves, in any browser."""
