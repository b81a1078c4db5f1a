"""The price, for the client."""
