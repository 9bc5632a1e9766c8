"""Mounts, one file each, found by walking this folder."""
