import { useMap } from '@vis.gl/react-maplibre'
import { useEffect, useEffectEvent } from 'react'
import { useFeeder } from '../state/feeder.tsx'
import { currentSelection, select } from '../state/selection.ts'
import { type Step, walkLine } from '../state/walk-line.ts'

const STEPS: Readonly<Record<string, Step>> = {
  ArrowLeft: 'source',
  ArrowRight: 'onward',
  ArrowDown: 'next-branch',
  ArrowUp: 'last-branch',
}
const PANS: Readonly<Record<string, [number, number]>> = {
  ArrowLeft: [-120, 0],
  ArrowRight: [120, 0],
  ArrowDown: [0, 120],
  ArrowUp: [0, -120],
}
const ZOOMS: Readonly<Record<string, number>> = { '+': 1, '=': 1, '-': -1 }

/** Keys of the map: arrows walk along the line, with Shift they move the map, plus and minus zoom. */
export function MapKeys() {
  const { current: map } = useMap()
  const model = useFeeder()

  const walk = useEffectEvent((step: Step) => {
    const { pole } = currentSelection()
    const next = pole === null ? model.feeder.header.source.pole : walkLine(model, pole, step)
    const at = model.poleById.get(next ?? '')?.at
    if (!next || !at) return
    select({ pole: next })
    if (!map?.getBounds().contains(at)) map?.easeTo({ center: at, essential: false })
  })

  const onKey = useEffectEvent((event: KeyboardEvent) => {
    if (event.ctrlKey || event.altKey || event.metaKey) return
    const { key, shiftKey } = event
    const pan = PANS[key]
    const step = STEPS[key]
    const zoom = ZOOMS[key]
    if (pan && shiftKey) map?.panBy(pan)
    else if (step) walk(step)
    else if (zoom) map?.easeTo({ zoom: map.getZoom() + zoom, essential: false })
    else if (key === 'Escape') select({ pole: null })
    else return
    event.preventDefault()
  })

  useEffect(() => {
    const canvas = map?.getMap().getCanvas()
    const listen = (event: KeyboardEvent) => onKey(event)
    canvas?.addEventListener('keydown', listen)
    return () => canvas?.removeEventListener('keydown', listen)
  }, [map])

  return (
    <p className="map-keys">
      Arrow keys walk along the line, left toward the source; up and down change branch. Shift and
      arrows move the map, + and − zoom.
    </p>
  )
}
