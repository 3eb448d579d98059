module halfsplit

go 1.26
