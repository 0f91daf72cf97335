/** A directed graph whose nodes are numbered from 0: for each the nodes that it leads to. */
type Graph = readonly (readonly number[])[];

/**
 * Nodes from which a way leads back to them.
 *
 * Takes as long as there are nodes and edges, however deep: it keeps its place in lists, not on the machine's stack.
 * Source: R. Tarjan, "Depth-first search and linear graph algorithms", SIAM J. Comput. 1 (1972), 146-160 (from memory).
 */
export function nodesOnCircles(graph: Graph): Uint8Array {
  const onCircle = new Uint8Array(graph.length);
  const order = new Int32Array(graph.length);
  const lowest = new Int32Array(graph.length);
  const onStack = new Uint8Array(graph.length);
  const next = new Int32Array(graph.length);
  const component: number[] = [];
  const way: number[] = [];
  let count = 0;
  const enter = (node: number): void => {
    count += 1;
    order[node] = lowest[node] = count;
    onStack[node] = 1;
    component.push(node);
    way.push(node);
  };
  const leave = (node: number): void => {
    way.pop();
    const before = way.at(-1);
    if (before !== undefined) lowest[before] = Math.min(lowest[before] ?? 0, lowest[node] ?? 0);
    if (lowest[node] !== order[node]) return;
    const start = component.lastIndexOf(node);
    const members = component.splice(start);
    for (const member of members) onStack[member] = 0;
    if (members.length > 1 || graph[node]?.includes(node) === true) for (const member of members) onCircle[member] = 1;
  };
  for (let start = 0; start < graph.length; start += 1) {
    if (order[start] !== 0) continue;
    enter(start);
    for (let node = way.at(-1); node !== undefined; node = way.at(-1)) {
      const at = next[node] ?? 0;
      const other = graph[node]?.[at];
      if (other === undefined) leave(node);
      else {
        next[node] = at + 1;
        if (order[other] === 0) enter(other);
        else if (onStack[other] === 1) lowest[node] = Math.min(lowest[node] ?? 0, order[other] ?? 0);
      }
    }
  }
  return onCircle;
}
