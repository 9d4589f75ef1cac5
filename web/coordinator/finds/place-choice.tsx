import { useEffect, useState } from 'react'
import type { Position } from '#domain/feeder/geometry.ts'
import type { Fields } from '../../record/merge-fields.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { askForPlace, useIsPlaceAsked, useMiddleOfMap } from '../../state/place-wish.ts'
import { useSelection } from '../../state/selection.ts'
import { Button } from '../../ui/button.tsx'
import { FieldControlOf } from './field-control.tsx'
import type { Faults } from './find-body.ts'
import { PLACE_FIELDS } from './find-fields.ts'
import { textOfPlace } from './place-text.ts'

interface Props {
  readonly typed: Fields
  readonly faults: Faults
  readonly onType: (change: Fields) => void
}

/** Where it is: at a pole, at a place on the map, or where the device is. */
export function PlaceChoice({ typed, faults, onType }: Props) {
  const { poleById } = useFeeder()
  const { pole } = useSelection()
  const isAsked = useIsPlaceAsked()
  const middle = useMiddleOfMap()
  const take = (at: Position) => onType({ at: textOfPlace(at) })
  const choosePole = (id: string) => {
    const at = poleById.get(id)?.at
    onType({ pole: id, ...(at && { at: textOfPlace(at) }) })
  }
  // The map must not wait for a form that is gone.
  useEffect(() => () => askForPlace(null), [])
  return (
    <fieldset className="form-part">
      <legend>Where</legend>
      {PLACE_FIELDS.map((field) => (
        <FieldControlOf
          key={field.key}
          field={field}
          value={typed[field.key] ?? ''}
          fault={faults[field.key]}
          onType={(value) => (field.key === 'pole' ? choosePole(value) : onType({ at: value }))}
        />
      ))}
      <div className="row">
        {pole !== null && pole !== typed.pole && (
          <Button onClick={() => choosePole(pole)}>Pole {pole}, which is selected</Button>
        )}
        <Button disabled={middle === null} onClick={() => middle && take(middle)}>
          Middle of the map
        </Button>
        <Button isPressed={isAsked} onClick={() => askForPlace(isAsked ? null : take)}>
          {isAsked ? 'Click the place on the map…' : 'Choose on the map'}
        </Button>
        <DevicePlace onTake={take} />
      </div>
    </fieldset>
  )
}

const WITHIN_MS = 30_000

/** Asks the device once where it is. */
function DevicePlace({ onTake }: { readonly onTake: (at: Position) => void }) {
  const [state, setState] = useState<'idle' | 'asking' | 'failed'>('idle')
  if (!('geolocation' in navigator)) return null
  const ask = () => {
    setState('asking')
    navigator.geolocation.getCurrentPosition(
      ({ coords }) => {
        setState('idle')
        onTake([coords.longitude, coords.latitude])
      },
      () => setState('failed'),
      { enableHighAccuracy: true, timeout: WITHIN_MS },
    )
  }
  return (
    <>
      <Button disabled={state === 'asking'} onClick={ask}>
        {state === 'asking' ? 'Asking the device…' : 'Where this device is'}
      </Button>
      {state === 'failed' && (
        <span className="field-fault" role="alert">
          The device did not tell its position. Allow it in the browser, or choose the place on the
          map.
        </span>
      )}
    </>
  )
}
