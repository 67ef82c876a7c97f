package grid

// cells are the rows of a sheet within bounds.
type cells struct {
	rows [][]string
	sum  int
}

// add adds a row without what is empty at its end.
func (c *cells) add(row []string) error { return c.set(len(c.rows), row) }

// set sets a row, by its number counted from 0, to a copy of one, without what is empty at its end.
func (c *cells) set(number int, row []string) error {
	n := len(row)
	for n > 0 && row[n-1] == "" {
		n--
	}
	c.sum += n
	if number >= maxRows || n > MaxColumns || c.sum > maxCells {
		return errTooLarge()
	}
	for len(c.rows) <= number {
		c.rows = append(c.rows, nil)
	}
	copied := make([]string, n)
	for i, text := range row[:n] {
		copied[i] = text[:min(len(text), maxText)]
	}
	c.rows[number] = copied
	return nil
}

// repeatDown repeats a cell in the rows that it was merged with.
func (c *cells) repeatDown(from, to, column int) error {
	if from < 0 || from >= len(c.rows) || column < 0 || column >= len(c.rows[from]) || c.rows[from][column] == "" {
		return nil
	}
	text := c.rows[from][column]
	for row := from + 1; row <= min(to, len(c.rows)-1); row++ {
		for len(c.rows[row]) <= column {
			c.rows[row] = append(c.rows[row], "")
			c.sum++
		}
		c.rows[row][column] = text
		if c.sum++; c.sum > maxCells {
			return errTooLarge()
		}
	}
	return nil
}
