"""Wood that moves."""
