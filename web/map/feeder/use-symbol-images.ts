import type { Map as MaplibreMap } from 'maplibre-gl'
import { useCallback } from 'react'
import { drawImage } from '../draw-image.ts'
import { type MapColours, useMapColours } from '../map-colours.ts'
import { useMapImages } from '../use-map-images.ts'
import { SYMBOL_PATHS } from './symbols.ts'

const GRID = 24
const PIXEL_RATIO = 3
const STROKE = 1.5
/** Paper around the ink, so that a symbol stays clear of the line under it. */
const HALO = 5

export const symbolImage = (name: string): string => `symbol-${name}`

function drawSymbol(path: string, { ink, paper }: MapColours): ImageData {
  return drawImage(GRID, PIXEL_RATIO, (context) => {
    const shape = new Path2D(path)
    context.lineCap = 'round'
    context.lineJoin = 'round'
    context.strokeStyle = paper
    context.lineWidth = HALO
    context.stroke(shape)
    context.strokeStyle = ink
    context.lineWidth = STROKE
    context.stroke(shape)
  })
}

function putImages(map: MaplibreMap, colours: MapColours): void {
  for (const [name, path] of Object.entries(SYMBOL_PATHS)) {
    const id = symbolImage(name)
    const drawn = drawSymbol(path, colours)
    if (map.hasImage(id)) map.updateImage(id, drawn)
    else map.addImage(id, drawn, { pixelRatio: PIXEL_RATIO })
  }
}

/** Draws the symbols in the inks of the theme; true once layers may name them. */
export function useSymbolImages(): boolean {
  const colours = useMapColours()
  const put = useCallback((map: MaplibreMap) => putImages(map, colours), [colours])
  return useMapImages(put) !== null
}
