import { Marker } from '@vis.gl/react-maplibre'
import type { KeyboardEvent } from 'react'
import type { ProposedBank } from '#domain/siting/site-result.ts'
import { SYMBOL_PATHS } from '../map/feeder/symbols.ts'
import { useFeeder } from '../state/feeder.tsx'
import { Drawing } from '../ui/drawing.tsx'
import { bankPlaces, nextPlace } from './bank-places.ts'
import { isBankDragged } from './hand-on-banks.ts'
import { nearestPlace } from './nearest-place.ts'
import { useTrialBanks } from './use-trial-banks.ts'

/** Banks on trial: dragged along the line, or moved with the arrow keys. */
export function BankMarkers() {
  const { banks } = useTrialBanks()
  return banks.map((bank, index) => (
    <BankMarker key={index === 0 ? 'first' : 'second'} bank={bank} index={index} />
  ))
}

function BankMarker({ bank, index }: { readonly bank: ProposedBank; readonly index: number }) {
  const model = useFeeder()
  const { move } = useTrialBanks()
  const places = bankPlaces(model, bank.phases)
  const at = model.poleById.get(bank.pole)?.at
  if (!at) return null
  const onKeyDown = (event: KeyboardEvent) => {
    const isUp = event.key === 'ArrowLeft' || event.key === 'ArrowUp'
    const isDown = event.key === 'ArrowRight' || event.key === 'ArrowDown'
    if (!isUp && !isDown) return
    event.preventDefault()
    event.stopPropagation()
    const next = nextPlace(model, places, bank.pole, isUp ? -1 : 1)
    if (next !== null) move(index, next)
  }
  return (
    <Marker
      longitude={at[0]}
      latitude={at[1]}
      draggable
      onDragStart={() => isBankDragged.set(true)}
      onDragEnd={() => isBankDragged.set(false)}
      onDrag={({ lngLat }) => {
        const pole = nearestPlace(model, places, [lngLat.lng, lngLat.lat])
        if (pole !== null && pole !== bank.pole) move(index, pole)
      }}
    >
      <button
        type="button"
        className="bank-marker"
        aria-label={`New bank at pole ${bank.pole}. Left and right arrow keys move it along the line.`}
        onKeyDown={onKeyDown}
      >
        <Drawing path={SYMBOL_PATHS.regulator} sizePx={24} />
      </button>
    </Marker>
  )
}
