import type { Map as MaplibreMap } from 'maplibre-gl'
import { useCallback } from 'react'
import { drawImage } from '../../map/draw-image.ts'
import type { MapColours } from '../../map/map-colours.ts'
import { useMapImages } from '../../map/use-map-images.ts'
import type { Theme } from '../../state/theme.ts'
import { MAP_SYMBOLS, type SymbolName } from './map-symbols.ts'

const SIZE_PX = 24
const PIXEL_RATIO = 2
const HALO_PX = 5

export const symbolId = (name: SymbolName, theme: Theme): string => `${name}@${theme}`

/** Draws the symbols into the map's images; true once the map has them all for this theme. */
export function useSymbolImages(theme: Theme, colours: MapColours): boolean {
  const put = useCallback((map: MaplibreMap) => putSymbols(map, theme, colours), [theme, colours])
  return useMapImages(put) === put
}

function putSymbols(map: MaplibreMap, theme: Theme, colours: MapColours): void {
  for (const name of Object.keys(MAP_SYMBOLS) as SymbolName[]) {
    const id = symbolId(name, theme)
    if (!map.hasImage(id)) map.addImage(id, drawSymbol(name, colours), { pixelRatio: PIXEL_RATIO })
  }
}

function drawSymbol(name: SymbolName, colours: MapColours): ImageData {
  const { outline, fill } = MAP_SYMBOLS[name]
  const colour = colourOf(name, colours)
  return drawImage(SIZE_PX, PIXEL_RATIO, (context) => {
    const shape = new Path2D(outline)
    context.lineJoin = 'round'
    context.strokeStyle = colours.paper
    context.lineWidth = HALO_PX
    context.stroke(shape)
    if (outline.endsWith('Z')) {
      context.fillStyle = colours.paper
      context.fill(shape)
    }
    if (fill) {
      context.fillStyle = colour
      context.fill(new Path2D(fill))
    }
    context.strokeStyle = colour
    context.lineWidth = 2
    context.stroke(shape)
  })
}

const ACCENT: readonly SymbolName[] = ['pole-open', 'pole-partly-done']
const DANGER: readonly SymbolName[] = ['pole-failed', 'item-failed', 'incident-electrocution']

function colourOf(name: SymbolName, colours: MapColours): string {
  if (ACCENT.includes(name)) return colours.accent
  return DANGER.includes(name) ? colours.danger : colours.ink
}
