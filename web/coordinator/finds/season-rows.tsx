import { Button } from '../../ui/button.tsx'
import { Field } from '../../ui/field.tsx'
import {
  type NestSeason,
  nextSeason,
  seasonsOfText,
  textOfSeasons,
  withSeason,
} from './nest-seasons.ts'

interface Props {
  readonly text: string
  readonly thisYear: number
  readonly onType: (text: string) => void
}

const STATUSES = ['in use', 'not in use', 'unknown'] as const

/** How the nest fared, a row a season. */
export function SeasonRows({ text, thisYear, onType }: Props) {
  const seasons = seasonsOfText(text)
  const put = (next: readonly NestSeason[]) => onType(textOfSeasons(next))
  const change = (year: number, changed: Partial<NestSeason>) =>
    put(seasons.map((season) => (season.year === year ? { ...season, ...changed } : season)))
  const next = nextSeason(seasons, thisYear)
  return (
    <fieldset className="form-part">
      <legend>Seasons ({seasons.length})</legend>
      {seasons.map((season) => (
        <div key={season.year} className="season-row">
          <strong>{season.year}</strong>
          <Field label={`Status in ${season.year}`}>
            {(control) => (
              <select
                {...control}
                className="input"
                value={season.status}
                onChange={({ target }) => {
                  const status = STATUSES.find((one) => one === target.value)
                  if (status) change(season.year, { status })
                }}
              >
                {STATUSES.map((status) => (
                  <option key={status}>{status}</option>
                ))}
              </select>
            )}
          </Field>
          <Field label={`Young in ${season.year}`}>
            {(control) => (
              <input
                {...control}
                className="input"
                type="number"
                min={0}
                max={20}
                value={season.young ?? ''}
                onChange={({ target }) => change(season.year, { young: youngOf(target.value) })}
              />
            )}
          </Field>
          <Button
            look="plain"
            aria-label={`Take the season ${season.year} out`}
            onClick={() => put(seasons.filter(({ year }) => year !== season.year))}
          >
            Take out
          </Button>
        </div>
      ))}
      <div>
        <Button onClick={() => put(withSeason(seasons, next))}>Add the season {next}</Button>
      </div>
    </fieldset>
  )
}

function youngOf(text: string): number | undefined {
  const young = Number(text)
  return text === '' || !Number.isInteger(young) ? undefined : young
}
