"""What the firm makes itself, drawn."""
