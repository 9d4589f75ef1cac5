import { useState } from 'react'
import { IsoDate } from '#domain/feeder/identifiers.ts'
import { Field } from '../ui/field.tsx'
import { chooseSeasonDay, useSeasonDay } from './season-day.ts'

/** Day for which nests are called in or out of season, here and on the map. */
export function DayChoice() {
  const day = useSeasonDay()
  const [typed, setTyped] = useState(day)
  const isDay = IsoDate.safeParse(typed).success
  return (
    <Field
      label="Day for nest buffers"
      fault={isDay ? null : 'Give a day, as 2027-02-15; until then the last one stands.'}
    >
      {(control) => (
        <input
          className="input"
          type="date"
          value={typed}
          onChange={({ target }) => {
            setTyped(target.value)
            if (IsoDate.safeParse(target.value).success) chooseSeasonDay(target.value)
          }}
          {...control}
        />
      )}
    </Field>
  )
}
