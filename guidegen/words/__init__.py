"""Every word that pages and commands show, by language, and numbers, dates and plurals as each language writes them."""
