"""What the firm's work and time cost: its own rates, how they spread, how they learn, and where numbers become money."""
