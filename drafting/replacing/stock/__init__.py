"""A stock list: read as it comes, judged row by row by the rules of replacement, ranked."""
