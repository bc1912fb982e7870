module sockwright

go 1.26.0
