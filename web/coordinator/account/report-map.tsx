import { useMemo } from 'react'
import { isElectrocution } from '#domain/avian/account/follow-up.ts'
import { POLE_STATES, type PoleState } from '#domain/avian/assessment/pole-assessment.ts'
import { POLE_STATE_WORDS } from '../../birds/pole-state-mark.tsx'
import { POLE_STATE_SHAPES } from '../../birds/pole-state-shapes.ts'
import { counted } from '../../state/format.ts'
import type { BirdRecord } from '../use-bird-record.ts'
import type { Accounted } from './account-workings.ts'
import { feederPicture } from './feeder-picture.ts'

const WIDTH_PX = 680
const MOST_HEIGHT_PX = 420
/** Shapes are drawn on a grid of 24; so they come down to the size of a pole, smaller among many. */
const shapeScale = (poles: number) => Math.min(0.3, 6 / Math.sqrt(poles))
/** Drawn last, and so on top of the others. */
const ON_TOP: readonly PoleState[] = ['partly done', 'covered', 'failed']
const FIND_SCALE = 0.5
/** A cross around the pole, on the same grid. */
const FIND_SHAPE = 'M12 -6V30M-6 12H30'

interface Props {
  readonly record: BirdRecord
  readonly accounted: Accounted
}

/** The feeder with its poles by state as they stand today, and the poles where birds were found. */
export function ReportMap({ record, accounted }: Props) {
  const { feeder, assessments } = record
  const { year } = accounted.account
  const picture = useMemo(() => feederPicture(feeder, WIDTH_PX, MOST_HEIGHT_PX), [feeder])
  const found = new Set(
    feeder.incidents
      .filter((find) => find.foundOn.startsWith(String(year)) && isElectrocution(find))
      .map(({ pole }) => pole),
  )
  const scale = shapeScale(picture.poles.length)
  const poles = picture.poles
    .map((pole) => ({ ...pole, state: assessments.get(pole.id)?.state ?? ('unknown' as const) }))
    .sort((a, b) => ON_TOP.indexOf(a.state) - ON_TOP.indexOf(b.state))
  return (
    <figure className="report-map">
      <svg
        viewBox={`0 0 ${picture.widthPx} ${picture.heightPx}`}
        role="img"
        aria-label={`The feeder with ${counted(picture.poles.length, 'pole')} by state`}
      >
        <path className="report-line" d={picture.line} />
        {poles.map(({ id, x, y, state }) => (
          <g
            key={id}
            transform={`translate(${x} ${y}) scale(${scale}) translate(-12 -12)`}
            className={`report-pole-${state.replace(' ', '-')}`}
          >
            <StateShape state={state} />
          </g>
        ))}
        {poles
          .filter(({ id }) => found.has(id))
          .map(({ id, x, y }) => (
            <path
              key={id}
              className="report-find"
              transform={`translate(${x} ${y}) scale(${FIND_SCALE}) translate(-12 -12)`}
              d={FIND_SHAPE}
            />
          ))}
      </svg>
      <figcaption>
        <ul className="report-key">
          {POLE_STATES.map((state) => {
            const count = poles.filter((pole) => pole.state === state).length
            return (
              <li key={state}>
                <svg viewBox="-2 -2 28 28" width="14" height="14" aria-hidden="true">
                  <g className={`report-pole-${state.replace(' ', '-')}`}>
                    <StateShape state={state} />
                  </g>
                </svg>
                {POLE_STATE_WORDS[state]}: {count}
              </li>
            )
          })}
          <li>
            <svg viewBox="-8 -8 40 40" width="14" height="14" aria-hidden="true">
              <path className="report-find" d={FIND_SHAPE} />
            </svg>
            electrocution found in {year}: {counted(found.size, 'pole')}
          </li>
        </ul>
        States as they stand today. North is up. Nests are left out: where they are is protected.
      </figcaption>
    </figure>
  )
}

function StateShape({ state }: { readonly state: PoleState }) {
  const { outline, fill } = POLE_STATE_SHAPES[state]
  return (
    <>
      {fill && <path className="report-fill" d={fill} />}
      <path className="report-outline" d={outline} />
    </>
  )
}
