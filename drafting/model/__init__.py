"""The cylinder: pieces, lengths, mounts, ports, wishes."""
