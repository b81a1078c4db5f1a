"""Questions put to a plan that is made: what would be better, what it costs, what has changed, what it rests on."""
