"""What jobs took, held against what was priced, and what that says of the firm's own rates."""
