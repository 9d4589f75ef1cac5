import type { Map as MaplibreMap } from 'maplibre-gl'
import { useCallback } from 'react'
import { JOB_STATES, type JobState } from '#domain/jobs/job-state.ts'
import { JOB_STATE_SHAPES } from '../../jobs/job-state-shapes.ts'
import { drawImage } from '../../map/draw-image.ts'
import type { MapColours } from '../../map/map-colours.ts'
import { useMapImages } from '../../map/use-map-images.ts'
import type { Theme } from '../../state/theme.ts'

const SIZE_PX = 24
const PIXEL_RATIO = 2
const HALO_PX = 6

export const jobImageId = (state: JobState, theme: Theme): string => `job-${state}@${theme}`

/** Draws the marks of the states into the map's images; true once it has them all for this theme. */
export function useJobImages(theme: Theme, colours: MapColours): boolean {
  const put = useCallback((map: MaplibreMap) => putImages(map, theme, colours), [theme, colours])
  return useMapImages(put) === put
}

function putImages(map: MaplibreMap, theme: Theme, colours: MapColours): void {
  for (const state of JOB_STATES) {
    const id = jobImageId(state, theme)
    if (!map.hasImage(id)) map.addImage(id, drawState(state, colours), { pixelRatio: PIXEL_RATIO })
  }
}

function drawState(state: JobState, colours: MapColours): ImageData {
  const { outline, fill, inside } = JOB_STATE_SHAPES[state]
  return drawImage(SIZE_PX, PIXEL_RATIO, (context) => {
    const shape = new Path2D(outline)
    context.lineJoin = 'round'
    context.lineCap = 'round'
    context.strokeStyle = colours.paper
    context.lineWidth = HALO_PX
    context.stroke(shape)
    if (outline.endsWith('Z')) {
      context.fillStyle = colours.paper
      context.fill(shape)
    }
    const colour = jobColour(state, colours)
    context.fillStyle = colour
    if (fill) context.fill(new Path2D(fill))
    context.strokeStyle = colour
    context.lineWidth = 2.5
    context.stroke(shape)
    if (inside) context.stroke(new Path2D(inside))
  })
}

function jobColour(state: JobState, colours: MapColours): string {
  switch (JOB_STATE_SHAPES[state].asks) {
    case 'supervisor':
      return colours.accent
    case 'trouble':
      return colours.danger
    default:
      return colours.ink
  }
}
