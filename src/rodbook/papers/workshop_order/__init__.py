"""What is bought in, for the workshop."""
