"""Reading the spec file: TOML to checked values, every fault with its place."""
