import { useMap } from '@vis.gl/react-maplibre'
import type { Map as MaplibreMap } from 'maplibre-gl'
import { useEffect, useState } from 'react'
import { drawImage } from '../map/draw-image.ts'
import type { MapColours } from '../map/map-colours.ts'
import type { Theme } from '../state/theme.ts'
import { SYMBOL_PATHS, type SymbolName } from './map-symbols.ts'

const SIZE_PX = 24
const PIXEL_RATIO = 2
const HALO_PX = 5

export const symbolId = (name: SymbolName, theme: Theme): string => `${name}@${theme}`

/** Draws the symbols into the map's images; true once the map has them all for this theme. */
export function useSymbolImages(theme: Theme, colours: MapColours): boolean {
  const { current: map } = useMap()
  const [readyTheme, setReadyTheme] = useState<Theme | null>(null)
  useEffect(() => {
    const target = map?.getMap()
    if (!target) return
    const put = () => {
      putSymbols(target, theme, colours)
      setReadyTheme(theme)
    }
    if (target.isStyleLoaded()) put()
    else target.once('styledata', put)
    return () => {
      target.off('styledata', put)
    }
  }, [map, theme, colours])
  return readyTheme === theme
}

function putSymbols(map: MaplibreMap, theme: Theme, colours: MapColours): void {
  for (const name of Object.keys(SYMBOL_PATHS) as SymbolName[]) {
    const id = symbolId(name, theme)
    if (!map.hasImage(id)) map.addImage(id, drawSymbol(name, colours), { pixelRatio: PIXEL_RATIO })
  }
}

function drawSymbol(name: SymbolName, colours: MapColours): ImageData {
  const { path, isFilled } = SYMBOL_PATHS[name]
  const colour = colourOf(name, colours)
  return drawImage(SIZE_PX, PIXEL_RATIO, (context) => {
    const shape = new Path2D(path)
    context.lineJoin = 'round'
    context.strokeStyle = colours.paper
    context.lineWidth = HALO_PX
    context.stroke(shape)
    context.fillStyle = isFilled ? colour : colours.paper
    if (isFilled || path.endsWith('Z')) context.fill(shape)
    context.strokeStyle = colour
    context.lineWidth = 2
    context.stroke(shape)
  })
}

function colourOf(name: SymbolName, colours: MapColours): string {
  if (name === 'bird-bridgeable') return colours.accent
  if (name === 'item-failed' || name === 'incident-electrocution') return colours.danger
  return colours.ink
}
