"""Which pages and files a whole site has."""
