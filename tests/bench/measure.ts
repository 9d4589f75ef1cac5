/** Median milliseconds of several runs, after one that is not counted. */
export function medianMs(run: () => void, runs = 5): number {
  run()
  const times: number[] = []
  for (let i = 0; i < runs; i++) {
    const start = performance.now()
    run()
    times.push(performance.now() - start)
  }
  return times.toSorted((a, b) => a - b)[Math.floor(runs / 2)] ?? Number.NaN
}

/** Milliseconds with three significant figures, or seconds from ten on. */
export function inWords(ms: number): string {
  return ms < 10_000 ? `${Number(ms.toPrecision(3))} ms` : `${Number((ms / 1000).toPrecision(3))} s`
}

/** Prints rows under a heading, columns as wide as their longest entry. */
export function printTable(title: string, rows: readonly (readonly string[])[]): void {
  const widths = (rows[0] ?? []).map((_, column) =>
    Math.max(...rows.map((row) => (row[column] ?? '').length)),
  )
  console.log(`\n${title}`)
  for (const row of rows) {
    const cells = row.map((cell, column) =>
      column === 0 ? cell.padEnd(widths[column] ?? 0) : cell.padStart(widths[column] ?? 0),
    )
    console.log(`  ${cells.join('  ')}`)
  }
}
