package bubble

import "example.org/thouspan/internal/notebook"

// setUpItems adds the drawing of the set-up and the caution at the step.
func setUpItems(s *notebook.Sheet, latest survey) error {
	set, err := setUpDrawing(latest)
	if err != nil {
		return err
	}
	s.Add(set)
	s.Add(notebook.Caution{Name: "caution-reach", Text: notebook.Plain(
		"Isolate the machine before you lean over the table to read the vial: the spindle and a powered feed must not be able to start. Keep fingers out from between table and saddle while you traverse.")})
	return nil
}
