"""How a size is decided: the ledger, the axial stack, and what mounts and shells give to it."""
