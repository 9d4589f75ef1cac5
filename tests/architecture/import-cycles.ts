/**
 * Cycles of a directed graph, each named once by its members in the order they import each other.
 * Tarjan's strongly connected components (R. Tarjan, SIAM J. Comput. 1(2), 1972), without recursion
 * limits to fear: the graph has a few hundred files.
 */
export function importCycles(graph: ReadonlyMap<string, readonly string[]>): string[][] {
  const order = new Map<string, number>()
  const low = new Map<string, number>()
  const stack: string[] = []
  const cycles: string[][] = []

  const visit = (file: string): void => {
    order.set(file, order.size)
    low.set(file, order.size - 1)
    stack.push(file)
    for (const next of graph.get(file) ?? []) {
      if (!order.has(next)) visit(next)
      if (stack.includes(next)) low.set(file, Math.min(low.get(file)!, low.get(next)!))
    }
    if (low.get(file) !== order.get(file)) return
    const members = stack.splice(stack.indexOf(file))
    if (members.length > 1 || graph.get(file)?.includes(file)) cycles.push(members)
  }

  for (const file of graph.keys()) if (!order.has(file)) visit(file)
  return cycles
}
