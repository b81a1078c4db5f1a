"""Jobs: all of them, their history, and how a new firm begins."""
