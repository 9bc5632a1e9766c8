"""What stands on the screen when nothing was asked."""

SCREEN = """\
From a short text file to the drawing and the solid of a hydraulic cylinder.

  drafting new mine.toml --short     a spec to fill in, with any text editor
  drafting check mine.toml           what holds, what does not, and what to ask first
  drafting draw mine.toml --open     drawing, data sheet and solids, in the folder output

The cylinder is on the bench:        drafting worksheet --body clevis --rod clevis
Only the job is known:               drafting size duty.toml
All verbs: drafting --help           the options of one: drafting draw --help
"""
