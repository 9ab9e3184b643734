"""Everything computed of one guide or of a palette: times, amounts, cautions, states of areas."""
