"""From what was read with tape and caliper to sizes: letters, uncertainties, common sizes."""
