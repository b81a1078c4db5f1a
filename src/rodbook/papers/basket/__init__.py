"""What the firm buys, at its own prices through time."""
