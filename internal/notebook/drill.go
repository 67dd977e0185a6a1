package notebook

import (
	"fmt"
	"hash/fnv"
	"math/rand/v2"
)

// Drill makes an exercise anew: the question of one of the lesson's exercises
// with other numbers. It does not need the lesson to be worked.
type Drill struct {
	// Name is the name of the exercise below which it is shown.
	Name string
	// Draw returns the exercise with numbers taken from the source, and from
	// nothing else: the same numbers give the same exercise everywhere.
	Draw func(*rand.Rand) (Exercise, error)
}

// MaxSeed is the greatest number of a draw: six digits, to be read out and
// typed.
const MaxSeed = 999_999

// At returns the drill's exercise of the given number, 0 to [MaxSeed]. Wrong
// turns that this time cannot be told from the right answer, or from one
// before them, are left out.
func (d Drill) At(seed int) (Exercise, error) {
	if seed < 0 || seed > MaxSeed {
		return Exercise{}, fmt.Errorf("notebook: the number of a draw is 0 to %d, not %d", MaxSeed, seed)
	}
	stream := fnv.New64a()
	stream.Write([]byte(d.Name)) // a hash never fails to write
	e, err := d.Draw(rand.New(rand.NewPCG(uint64(seed), stream.Sum64())))
	if err != nil {
		return Exercise{}, fmt.Errorf("exercise %s, draw %d: %w", d.Name, seed, err)
	}
	e.Wrong = distinctTurns(e)
	if err := e.validate(); err != nil {
		return Exercise{}, fmt.Errorf("notebook: exercise %s, draw %d: %w", d.Name, seed, err)
	}
	return e, nil
}

// WithDrills returns the lesson with drills for some of its exercises.
func (l Lesson) WithDrills(drills ...Drill) Lesson {
	l.drills = drills
	return l
}

// Drills returns the lesson's drills, in order.
func (l Lesson) Drills() []Drill { return l.drills }

// Drill returns the drill for the exercise of that name, and whether there is
// one.
func (l Lesson) Drill(name string) (Drill, bool) {
	for _, d := range l.drills {
		if d.Name == name {
			return d, true
		}
	}
	return Drill{}, false
}

// Pick returns one of the choices, each as likely.
func Pick[T any](r *rand.Rand, choices ...T) T { return choices[r.IntN(len(choices))] }

// Steps returns a multiple of the step, from least to most steps, each as
// likely.
func Steps[T ~float64](r *rand.Rand, least, most int, step T) T {
	return T(least+r.IntN(most-least+1)) * step
}

// Either returns the value or, as likely, its opposite.
func Either[T ~float64](r *rand.Rand, x T) T {
	if r.IntN(2) == 1 {
		return -x
	}
	return x
}
