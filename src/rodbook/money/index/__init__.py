"""How dear the firm's own basket has become."""
