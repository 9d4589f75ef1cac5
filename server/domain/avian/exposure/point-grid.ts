import { distance } from '@turf/turf'
import type { Position } from '../../feeder/geometry.ts'

/** Metres in one degree of latitude on Turf's sphere, a little low so that no cell is too small. */
const M_PER_DEGREE = 111_190

export interface Near<Item> {
  readonly item: Item
  readonly distanceM: number
}

/**
 * Things at places, found by distance without asking each. Places lie in bands of latitude as high
 * as a cell; each band has cells about as wide as high, around the whole Earth, so that the 180°
 * meridian is no border.
 */
export class PointGrid<Item> {
  readonly items: readonly Item[]
  readonly #placeOf: (item: Item) => Position
  readonly #cellDeg: number
  readonly #cells = new Map<string, Item[]>()

  /** @param cellM Size of a cell, metres; about the distance that is asked for most. */
  constructor(items: readonly Item[], placeOf: (item: Item) => Position, cellM: number) {
    this.items = items
    this.#placeOf = placeOf
    this.#cellDeg = Math.max(cellM, 1) / M_PER_DEGREE
    for (const item of items) {
      const [lon, lat] = placeOf(item)
      const band = this.#bandOf(lat)
      const key = `${band}:${this.#columnOf(lon, band)}`
      const cell = this.#cells.get(key)
      if (cell) cell.push(item)
      else this.#cells.set(key, [item])
    }
  }

  /** All within a great-circle distance by Turf, nearest first. */
  within(at: Position, reachM: number): Near<Item>[] {
    const found: Near<Item>[] = []
    for (const item of this.#candidates(at, reachM)) {
      const distanceM = distance(at, this.#placeOf(item), { units: 'meters' })
      if (distanceM <= reachM) found.push({ item, distanceM })
    }
    return found.sort((a, b) => a.distanceM - b.distanceM)
  }

  *#candidates([lon, lat]: Position, reachM: number): Generator<Item> {
    if (this.items.length === 0) return
    const reachDeg = reachM / M_PER_DEGREE
    const lastBand = this.#bandOf(Math.min(90, lat + reachDeg))
    for (let band = this.#bandOf(Math.max(-90, lat - reachDeg)); band <= lastBand; band += 1) {
      const columns = this.#columnsIn(band)
      const reach = Math.ceil(this.#reachInColumns(band, reachDeg))
      const middle = this.#columnOf(lon, band)
      const first = 2 * reach + 1 >= columns ? 0 : middle - reach
      const count = Math.min(columns, 2 * reach + 1)
      for (let step = 0; step < count; step += 1) {
        const column = (first + step + columns) % columns
        yield* this.#cells.get(`${band}:${column}`) ?? []
      }
    }
  }

  #bandOf(lat: number): number {
    return Math.floor((lat + 90) / this.#cellDeg)
  }

  /** Cosine where the band is widest and where it is narrowest. */
  #cosinesOf(band: number): { widest: number; narrowest: number } {
    const south = Math.abs(band * this.#cellDeg - 90)
    const north = Math.abs((band + 1) * this.#cellDeg - 90)
    const cosineOf = (deg: number) => Math.max(0, Math.cos((Math.min(deg, 90) * Math.PI) / 180))
    return { widest: cosineOf(Math.min(south, north)), narrowest: cosineOf(Math.max(south, north)) }
  }

  #columnsIn(band: number): number {
    return Math.max(1, Math.floor((360 / this.#cellDeg) * this.#cosinesOf(band).widest))
  }

  #columnOf(lon: number, band: number): number {
    const columns = this.#columnsIn(band)
    return Math.min(columns - 1, Math.floor(((lon + 180) / 360) * columns))
  }

  #reachInColumns(band: number, reachDeg: number): number {
    const { narrowest } = this.#cosinesOf(band)
    const lonDeg = narrowest > 0.001 ? reachDeg / narrowest : 360
    return (Math.min(360, lonDeg) / 360) * this.#columnsIn(band)
  }
}
