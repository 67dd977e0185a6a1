package notebook

import "sync"

// Once returns what adds to a sheet what the given function adds to an empty
// one. That is made for the first sheet and used for every later one: it is for
// checks and exercises that depend on no input and take time to work, so that a
// reader who types does not wait for them again. It may be called by several
// goroutines.
func Once(add func(*Sheet) error) func(*Sheet) error {
	items := sync.OnceValues(func() ([]Item, error) {
		var s Sheet
		err := add(&s)
		return s.Items, err
	})
	return func(s *Sheet) error {
		made, err := items()
		if err != nil {
			return err
		}
		s.Add(made...)
		return nil
	}
}
