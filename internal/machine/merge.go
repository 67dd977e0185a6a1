package machine

import "bytes"

// Merged is the union of two files and how it came about.
type Merged struct {
	File *File
	// Added are the entries that the second file brought.
	Added []Entry
	// Same is how many entries stood in both, alike.
	Same int
	// Conflicts are the ids under which the two files hold different content.
	// Both are kept.
	Conflicts []string
}

// Merge joins two files: every entry of either is in the result, and an entry
// that both hold alike stands once. Two entries of one id and different content
// are both kept. The result does not depend on the order of the two, and
// merging a file with itself, or with a part of itself, changes nothing.
func Merge(a, b *File) Merged {
	merged := Merged{File: &File{
		Entries: sorted(append(append([]Entry{}, a.Entries...), b.Entries...)),
		extra:   sortedExtra(append(append([]extraMember{}, a.extra...), b.extra...)),
	}}
	here := map[string]bool{}
	ids := map[string]bool{}
	for _, e := range a.Entries {
		here[e.meaning()], ids[e.ID] = true, true
	}
	differ := map[string]bool{}
	for _, e := range b.Entries {
		if here[e.meaning()] {
			merged.Same++
			continue
		}
		merged.Added = append(merged.Added, e)
		if ids[e.ID] && !differ[e.ID] {
			differ[e.ID] = true
			merged.Conflicts = append(merged.Conflicts, e.ID)
		}
	}
	return merged
}

// Conflicts returns the ids that more than one entry has, in order.
func (f *File) Conflicts() []string {
	count := map[string]int{}
	var ids []string
	for _, e := range f.Entries {
		if count[e.ID]++; count[e.ID] == 2 {
			ids = append(ids, e.ID)
		}
	}
	return ids
}

// Equal reports whether two files hold the same.
func Equal(a, b *File) bool { return bytes.Equal(a.Write(), b.Write()) }
