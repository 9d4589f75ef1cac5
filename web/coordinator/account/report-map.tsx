import { useMemo } from 'react'
import { isElectrocution } from '#domain/avian/account/follow-up.ts'
import { POLE_STATES } from '#domain/avian/assessment/pole-assessment.ts'
import { POLE_STATE_WORDS } from '../../birds/pole-state-mark.tsx'
import { POLE_STATE_SHAPES } from '../../birds/pole-state-shapes.ts'
import { counted } from '../../state/format.ts'
import type { BirdRecord } from '../use-bird-record.ts'
import type { Accounted } from './account-workings.ts'
import { feederPicture } from './feeder-picture.ts'

const WIDTH_PX = 680
const MOST_HEIGHT_PX = 420
/** Shapes are drawn on a grid of 24; this brings them down to the size of a pole. */
const SHAPE_SCALE = 0.3
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
  return (
    <figure className="report-map">
      <svg
        viewBox={`0 0 ${picture.widthPx} ${picture.heightPx}`}
        role="img"
        aria-label={`The feeder with ${counted(picture.poles.length, 'pole')} by state`}
      >
        <path className="report-line" d={picture.line} />
        {picture.poles.map(({ id, x, y }) => {
          const state = assessments.get(id)?.state ?? 'unknown'
          const place = `translate(${x} ${y}) scale(${SHAPE_SCALE}) translate(-12 -12)`
          return (
            <g key={id} transform={place} className={`report-pole-${state.replace(' ', '-')}`}>
              <StateShape state={state} />
              {found.has(id) && <path className="report-find" d={FIND_SHAPE} />}
            </g>
          )
        })}
      </svg>
      <figcaption>
        <ul className="report-key">
          {POLE_STATES.map((state) => {
            const poles = picture.poles.filter(
              ({ id }) => (assessments.get(id)?.state ?? 'unknown') === state,
            ).length
            return (
              <li key={state}>
                <svg viewBox="-2 -2 28 28" width="14" height="14" aria-hidden="true">
                  <g className={`report-pole-${state.replace(' ', '-')}`}>
                    <StateShape state={state} />
                  </g>
                </svg>
                {POLE_STATE_WORDS[state]}: {poles}
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

function StateShape({ state }: { readonly state: (typeof POLE_STATES)[number] }) {
  const { outline, fill } = POLE_STATE_SHAPES[state]
  return (
    <>
      {fill && <path className="report-fill" d={fill} />}
      <path className="report-outline" d={outline} />
    </>
  )
}
