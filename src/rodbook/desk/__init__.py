"""The desk: the whole job in a browser. The only part of Rodbook that knows a database."""
