package circuit

// order chooses the elimination order of nodes 1 to n−1 by minimum degree,
// first in first out among equals, on the elimination graph itself. Three
// things keep the elimination tree shallow, and with it the cost of a change: a
// touched node goes to the back of its queue; degrees 0, 1 and 2 share one
// queue, since none of them adds an edge; so a long chain, dead-ended or not, is
// thinned evenly, every second node first, and not eaten from its ends.
//
// seq holds the nodes in order; left[i] the neighbours that seq[i] still had,
// Earth apart. Earth is never eliminated.
//
// Source: minimum degree is Tinney & Walker, Proc. IEEE 55 (1967), 1801-1809,
// their scheme 2 (from memory).
func order(n int, ends []Ends) (seq []int32, left [][]int32) {
	adj := neighbours(n, ends)
	q := newQueues(n)
	gone := make([]bool, n)
	deg := make([]int32, n)
	for v := 1; v < n; v++ {
		deg[v] = int32(len(adj[v]))
		q.push(int32(v), deg[v])
	}
	mark := make([]int32, n) // mark[j] == i+1: j is a known neighbour of i
	var byLen []int32
	for {
		k, ok := q.pop()
		if !ok {
			return seq, left
		}
		gone[k] = true
		l := live(adj[k], gone)
		adj[k] = nil
		seq, left = append(seq, k), append(left, l)
		for _, i := range l {
			q.remove(i, deg[i])
			deg[i]--
		}
		// Join the neighbours pairwise. The longest list is never scanned, so
		// a bar with thousands of conductors costs little.
		byLen = append(byLen[:0], l...)
		for x := 1; x < len(byLen); x++ {
			for y := x; y > 0 && len(adj[byLen[y]]) < len(adj[byLen[y-1]]); y-- {
				byLen[y], byLen[y-1] = byLen[y-1], byLen[y]
			}
		}
		for x, i := range byLen {
			rest := byLen[x+1:]
			if len(rest) == 0 {
				break
			}
			adj[i] = live(adj[i], gone)
			for _, j := range adj[i] {
				mark[j] = i + 1
			}
			for _, j := range rest {
				if mark[j] != i+1 {
					adj[i], adj[j] = append(adj[i], j), append(adj[j], i)
					deg[i]++
					deg[j]++
				}
			}
			for _, j := range adj[i] {
				mark[j] = 0
			}
		}
		for _, i := range l {
			q.push(i, deg[i])
		}
	}
}

// neighbours lists, for each node but Earth, the other nodes it shares a
// branch with, each once, in branch order.
func neighbours(n int, ends []Ends) [][]int32 {
	count := make([]int32, n+1)
	for _, e := range ends {
		if e.A != e.B && e.A != Earth && e.B != Earth {
			count[e.A]++
			count[e.B]++
		}
	}
	total := int32(0)
	for _, c := range count {
		total += c
	}
	store := make([]int32, total)
	adj := make([][]int32, n)
	for v, at := 0, int32(0); v < n; v++ {
		adj[v] = store[at : at : at+count[v]]
		at += count[v]
	}
	for _, e := range ends {
		if e.A != e.B && e.A != Earth && e.B != Earth {
			adj[e.A] = append(adj[e.A], int32(e.B))
			adj[e.B] = append(adj[e.B], int32(e.A))
		}
	}
	seen := make([]int32, n)
	for v := range adj {
		keep := adj[v][:0]
		for _, j := range adj[v] {
			if seen[j] != int32(v)+1 {
				seen[j] = int32(v) + 1
				keep = append(keep, j)
			}
		}
		adj[v] = keep
	}
	return adj
}

// live drops the eliminated nodes from list, in place.
func live(list []int32, gone []bool) []int32 {
	keep := list[:0]
	for _, j := range list {
		if !gone[j] {
			keep = append(keep, j)
		}
	}
	return keep
}

// queues are first-in first-out queues of nodes, one a degree, the lowest three
// degrees in one.
type queues struct {
	first, last []int32 // by degree; -1 when empty
	next, prev  []int32 // by node
	low         int32   // no queue below this one holds a node
}

const together = 2 // degrees up to this one share a queue

func newQueues(n int) *queues {
	q := &queues{first: make([]int32, n+together), last: make([]int32, n+together), next: make([]int32, n), prev: make([]int32, n)}
	for d := range q.first {
		q.first[d], q.last[d] = -1, -1
	}
	return q
}

func (q *queues) push(v, d int32) {
	d = max(d, together)
	q.prev[v], q.next[v] = q.last[d], -1
	if q.last[d] >= 0 {
		q.next[q.last[d]] = v
	} else {
		q.first[d] = v
	}
	q.last[d] = v
	q.low = min(q.low, d)
}

func (q *queues) remove(v, d int32) {
	d = max(d, together)
	p, x := q.prev[v], q.next[v]
	if p >= 0 {
		q.next[p] = x
	} else {
		q.first[d] = x
	}
	if x >= 0 {
		q.prev[x] = p
	} else {
		q.last[d] = p
	}
}

// pop takes the node that has waited longest in the lowest queue.
func (q *queues) pop() (v int32, ok bool) {
	for ; int(q.low) < len(q.first); q.low++ {
		if v = q.first[q.low]; v >= 0 {
			q.remove(v, q.low)
			return v, true
		}
	}
	return 0, false
}
