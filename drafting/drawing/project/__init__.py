"""From pieces to strokes: faces and edges laid flat, hidden parts told, joined, cut."""
