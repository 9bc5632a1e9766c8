"""Pieces as geometry: frames, solids in closed form, faces, edges, rays."""
