swathe run coverage.strip-length girths.csv
