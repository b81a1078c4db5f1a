"""What a job must cost at the least, proven, and said in words."""
