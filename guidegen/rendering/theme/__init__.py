"""Templates, style, scripts and chips: what every page is drawn with."""
