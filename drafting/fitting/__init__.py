"""A cylinder in its machine: does it reach and clear, is it strong enough, where do pins go."""
