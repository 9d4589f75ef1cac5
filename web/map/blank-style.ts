import fontExtUrl from '@fontsource-variable/source-sans-3/files/source-sans-3-latin-ext-wght-normal.woff2?url'
import fontUrl from '@fontsource-variable/source-sans-3/files/source-sans-3-latin-wght-normal.woff2?url'
import type { LayerSpecification, StyleSpecification } from 'maplibre-gl'
import { SLOTS } from './slots.ts'

/** Font of every text that we set on the map; drawn from our own file, so no glyph server is asked. */
export const MAP_FONT = ['Body']

const slotLayers: LayerSpecification[] = Object.values(SLOTS).map((id) => ({
  id,
  type: 'background',
  layout: { visibility: 'none' },
}))

const fontFaces = {
  Body: [
    { url: fontUrl, 'unicode-range': ['U+0000-00FF', 'U+2000-206F', 'U+20AC', 'U+2122', 'U+2212'] },
    { url: fontExtUrl },
  ],
}

/** Adds our slots and font to a style, whoever wrote it. */
export function withSlots(style: StyleSpecification): StyleSpecification {
  return { ...style, layers: [...style.layers, ...slotLayers], 'font-faces': fontFaces }
}

/** Style of the built-in map: empty, since land and feeder are added as layers of their own. */
export const BLANK_STYLE = withSlots({ version: 8, sources: {}, layers: [] })
