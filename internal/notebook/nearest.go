package notebook

import "sort"

// Nearest returns up to three of the known names that are close enough to the
// given one to have been meant, nearest first.
func Nearest(name string, known []string) []string {
	type scored struct {
		name     string
		distance int
	}
	var near []scored
	for _, k := range known {
		if d := editDistance(name, k); d <= 1+len(k)/3 {
			near = append(near, scored{k, d})
		}
	}
	sort.SliceStable(near, func(i, j int) bool { return near[i].distance < near[j].distance })
	var names []string
	for i := 0; i < len(near) && i < 3; i++ {
		names = append(names, near[i].name)
	}
	return names
}

// editDistance is the least number of letters to insert, delete or replace to
// turn a into b. Names longer than 60 letters are not compared.
func editDistance(a, b string) int {
	x, y := []rune(a), []rune(b)
	if len(x) > 60 || len(y) > 60 {
		return len(x) + len(y)
	}
	row := make([]int, len(y)+1)
	for j := range row {
		row[j] = j
	}
	for i := 1; i <= len(x); i++ {
		diagonal := row[0]
		row[0] = i
		for j := 1; j <= len(y); j++ {
			cost := diagonal
			if x[i-1] != y[j-1] {
				cost = 1 + min(diagonal, row[j], row[j-1])
			}
			diagonal, row[j] = row[j], cost
		}
	}
	return row[len(y)]
}
