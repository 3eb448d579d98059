// Package drill is the trainer's side: a fault hidden in a panel, an apprentice
// with a meter, and a debrief that teaches. It asks packages sim and meter what the
// apprentice would see, and package diagnose what could have been asked instead.
//
// # A drill and its case
//
// A Drill is a document: the panel, what the caller says, what may be asked, and
// the Hidden part, open while it is written and sealed when it is handed out. A
// Case is a drill set up on a Rig, at one of its variations: the same kind of fault
// elsewhere.
//
// # An attempt
//
// An Attempt is a list of acts that only grows. Everything else is derived from it
// by doing the acts again, so that nothing is lost with a phone's memory. An unsafe
// act is accepted, its consequence shown and its gate applied: the tool's own
// prompts never ask for one.
//
// # Score and debrief
//
// The score has parts and no sum. The debrief says after each act which suspects
// were alive, what a reading told, and what the best one there would have been;
// the best plan is that of package diagnose on the same panel.
//
// Sources: parts and their order follow a published military scheme for
// troubleshooting tests, which puts finding the fault far above all else and takes
// points for good parts replaced, time, proof missed and needless checks; every
// figure here is a choice. The one-tap reason before a reading, gates that end an
// attempt, and "the same kind again, elsewhere" are common practice of trainers.
package drill
