// Package actionshop holds the readings of the action shop, a fictional workshop
// with an old knee mill and a small nickel bath: the demonstration data of the
// lessons. One file holds one set of tables.
package actionshop
