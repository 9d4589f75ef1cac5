import { lineLength, simplified } from './curve.ts'
import { type LandFeature, lineFeature } from './land-feature.ts'
import type { Point } from './plane.ts'
import { heightM } from './relief.ts'
import { EXTENT } from './valley.ts'

const GRID_M = 125
const INTERVAL_M = 20
/** Every fifth line is an index contour. */
const INDEX_M = 100
const SHORTEST_M = 900
const TOLERANCE_M = 5

type Grid = readonly (readonly number[])[]

/** Lines of equal height, 20 m apart, traced cell by cell through a grid (marching squares). */
export function contourFeatures(): LandFeature[] {
  const grid = heightGrid()
  const heights = grid.flat()
  const first = Math.ceil(Math.min(...heights) / INTERVAL_M) * INTERVAL_M
  const features: LandFeature[] = []
  for (let level = first; level <= Math.max(...heights); level += INTERVAL_M) {
    for (const line of linesAt(grid, level)) {
      if (lineLength(line) < SHORTEST_M) continue
      const properties = { height_m: level, is_index: level % INDEX_M === 0 }
      features.push(lineFeature(simplified(line, TOLERANCE_M), properties))
    }
  }
  return features
}

function heightGrid(): Grid {
  const columns = Math.round((EXTENT.eastM - EXTENT.westM) / GRID_M)
  const rows = Math.round((EXTENT.northM - EXTENT.southM) / GRID_M)
  return Array.from({ length: rows + 1 }, (_, row) =>
    Array.from({ length: columns + 1 }, (_unused, column) => heightM(gridPoint(column, row))),
  )
}

function gridPoint(column: number, row: number): Point {
  return [EXTENT.westM + column * GRID_M, EXTENT.southM + row * GRID_M]
}

/** A place where the level crosses an edge of the grid; the key is the same from both cells. */
interface EdgePoint {
  readonly key: string
  readonly at: Point
}

function linesAt(grid: Grid, level: number): Point[][] {
  const links = new Map<string, EdgePoint[]>()
  const places = new Map<string, EdgePoint>()
  const link = (a: EdgePoint, b: EdgePoint): void => {
    for (const [from, to] of [
      [a, b],
      [b, a],
    ] as const) {
      places.set(from.key, from)
      links.set(from.key, [...(links.get(from.key) ?? []), to])
    }
  }
  for (let row = 0; row + 1 < grid.length; row++) {
    for (let column = 0; column + 1 < (grid[0]?.length ?? 0); column++) {
      const [a, b, c, d] = cellCrossings(grid, column, row, level)
      if (a && b) link(a, b)
      if (c && d) link(c, d)
    }
  }
  return joined(places, links)
}

function cellCrossings(grid: Grid, column: number, row: number, level: number): EdgePoint[] {
  return [
    crossing(grid, column, row, 1, 0, level),
    crossing(grid, column + 1, row, 0, 1, level),
    crossing(grid, column, row + 1, 1, 0, level),
    crossing(grid, column, row, 0, 1, level),
  ].filter((found) => found !== null)
}

function crossing(
  grid: Grid,
  column: number,
  row: number,
  stepX: 0 | 1,
  stepY: 0 | 1,
  level: number,
): EdgePoint | null {
  const near = grid[row]?.[column] ?? 0
  const far = grid[row + stepY]?.[column + stepX] ?? 0
  if (near > level === far > level) return null
  const share = (level - near) / (far - near)
  const [x, y] = gridPoint(column, row)
  return {
    key: `${column},${row},${stepX}`,
    at: [x + share * stepX * GRID_M, y + share * stepY * GRID_M],
  }
}

/** Walks the links from end to end, open lines first, then the closed ones. */
function joined(
  places: ReadonlyMap<string, EdgePoint>,
  links: ReadonlyMap<string, EdgePoint[]>,
): Point[][] {
  const done = new Set<string>()
  const walk = (start: EdgePoint): Point[] => {
    const line: Point[] = [start.at]
    done.add(start.key)
    let next = (links.get(start.key) ?? []).find(({ key }) => !done.has(key))
    let last = start
    while (next) {
      done.add(next.key)
      line.push(next.at)
      last = next
      next = (links.get(last.key) ?? []).find(({ key }) => !done.has(key))
    }
    const isClosed =
      line.length > 3 && (links.get(last.key) ?? []).some(({ key }) => key === start.key)
    return isClosed ? [...line, start.at] : line
  }
  const ends = [...places.values()].filter(({ key }) => links.get(key)?.length === 1)
  return [...ends, ...places.values()].flatMap((start) =>
    done.has(start.key) ? [] : [walk(start)],
  )
}
