import type { Line, Point } from './plane.ts'

const CELL_M = 250

/** Finds the straight pieces of many lines that pass near a place. */
export type PieceFinder = (at: Point, reachM: number) => Line[]

/** Sorts the pieces into square cells; pieces are expected to be short against a few cells. */
export function findPieces(lines: readonly Line[]): PieceFinder {
  const cells = new Map<string, Line[]>()
  for (const line of lines) {
    line.slice(1).forEach((to, i) => {
      const from = line[i] ?? to
      for (const key of cellsOf(boxOf(from, to))) {
        const found = cells.get(key)
        if (found) found.push([from, to])
        else cells.set(key, [[from, to]])
      }
    })
  }
  return ([x, y], reachM) => {
    const box = { west: x - reachM, south: y - reachM, east: x + reachM, north: y + reachM }
    return cellsOf(box).flatMap((key) => cells.get(key) ?? [])
  }
}

interface Box {
  readonly west: number
  readonly south: number
  readonly east: number
  readonly north: number
}

function boxOf(a: Point, b: Point): Box {
  return {
    west: Math.min(a[0], b[0]),
    south: Math.min(a[1], b[1]),
    east: Math.max(a[0], b[0]),
    north: Math.max(a[1], b[1]),
  }
}

function cellsOf({ west, south, east, north }: Box): string[] {
  const keys: string[] = []
  for (let column = Math.floor(west / CELL_M); column <= Math.floor(east / CELL_M); column++) {
    for (let row = Math.floor(south / CELL_M); row <= Math.floor(north / CELL_M); row++) {
      keys.push(`${column},${row}`)
    }
  }
  return keys
}
