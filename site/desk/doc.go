// Package desk answers the page "Your machine" and the machine buttons of each
// lesson: it is the machine's file in the browser, except for keeping it. It is
// compiled into the browser's program.
package desk
