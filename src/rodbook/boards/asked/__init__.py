"""What is asked: checked, and put into whole numbers."""
