import { type ReactNode, useState } from 'react'
import { dayInWords } from '#domain/avian/nests/calendar-days.ts'
import type { ChosenPole, Programme, Round } from '#domain/avian/programme/programme.ts'
import { handOver } from '../../api/hand-over.ts'
import { showPlace } from '../../state/camera.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { counted, distance, inWords, usd } from '../../state/format.ts'
import { hoverPole } from '../../state/hover.ts'
import { select, useSelection } from '../../state/selection.ts'
import { Button } from '../../ui/button.tsx'
import { List, ListRow } from '../../ui/list.tsx'
import { EmptyNote } from '../../ui/state-note.tsx'
import { percent, shareOf } from './curve-point.ts'
import { measuresInWords } from './measure-words.ts'
import { programmeCsv } from './programme-csv.ts'
import { RoundJob } from './round-job.tsx'

interface Props {
  readonly programme: Programme
  /** For the name of a file. */
  readonly name: string
  /** Of a kept programme, whose rounds can be handed over; null for one that is being looked at. */
  readonly programmeId: string | null
}

/** Chosen poles, their rounds, and what was left out and why. */
export function ProgrammeView({ programme, name, programmeId }: Props) {
  const { feeder } = useFeeder()
  if (programme.poles.length === 0) {
    return (
      <>
        <EmptyNote what="No pole is chosen: give more budget, more days, or look below at why poles were left out." />
        <LeftOut programme={programme} />
      </>
    )
  }
  const save = () =>
    handOver(
      new Blob([programmeCsv(programme, feeder.poles)], { type: 'text/csv' }),
      `${feeder.header.id} ${name}.csv`,
    )
  return (
    <>
      <Rounds programme={programme} name={name} programmeId={programmeId} />
      <Chosen programme={programme} />
      <LeftOut programme={programme} />
      <div>
        <Button onClick={save}>Save the list as a table (CSV)</Button>
      </div>
    </>
  )
}

function Rounds({ programme: { rounds }, name, programmeId }: Props) {
  return (
    <section className="stack" aria-label="Rounds">
      <h3>{counted(rounds.length, 'round')}</h3>
      <ol className="year-rounds">
        {rounds.map((round, index) => (
          <RoundRow key={round.poles.join(' ')} round={round} index={index}>
            {programmeId !== null && (
              <RoundJob programmeId={programmeId} name={name} round={round} index={index} />
            )}
          </RoundRow>
        ))}
      </ol>
    </section>
  )
}

interface RoundProps {
  readonly round: Round
  readonly index: number
  /** Its job. */
  readonly children: ReactNode
}

function RoundRow({ round, index, children }: RoundProps) {
  const { units } = useSelection()
  const { poles, driveM, crewDays, earliest, latest } = round
  const days = crewDays === 1 ? '1 crew-day' : `${Number(crewDays.toFixed(2))} crew-days`
  return (
    <li>
      <strong>Round {index + 1}</strong>: {counted(poles.length, 'pole')}, {days},{' '}
      {inWords(distance(driveM, units))} between them, {dayInWords(earliest)} to{' '}
      {dayInWords(latest)}.
      <br />
      <span className="soft">
        In order:{' '}
        {poles.map((pole, stop) => (
          <span key={pole}>
            {stop > 0 && ', '}
            <PoleLink pole={pole} />
          </span>
        ))}
      </span>
      {children}
    </li>
  )
}

/** Opens a pole, on desk and map. */
function PoleLink({ pole }: { readonly pole: string }) {
  const { feeder } = useFeeder()
  const open = () => {
    const at = feeder.poles.find(({ id }) => id === pole)?.at
    select({ pole, view: null })
    if (at) showPlace(at)
  }
  return (
    <button type="button" className="pole-link" onClick={open}>
      {pole}
    </button>
  )
}

function Chosen({ programme: { poles, reduction } }: Pick<Props, 'programme'>) {
  return (
    <section className="stack" aria-label="Chosen poles">
      <h3>{counted(poles.length, 'pole')} chosen, the weightiest first</h3>
      <List label="Chosen poles">
        {poles.map((pole) => (
          <ChosenRow key={pole.pole} chosen={pole} whole={reduction} />
        ))}
      </List>
    </section>
  )
}

function ChosenRow({ chosen, whole }: { readonly chosen: ChosenPole; readonly whole: number }) {
  const { units } = useSelection()
  const { pole, measures, costUsd, reduction, round, notes } = chosen
  return (
    <ListRow onPreview={(isOn) => hoverPole(isOn ? pole : null)}>
      <span className="bird-row-head">
        <span>
          Pole <PoleLink pole={pole} />
        </span>
        <span className="figure">{usd(costUsd)}</span>
      </span>
      <span className="first-capital">{measuresInWords(measures, units)}.</span>
      <span className="soft">
        Round {round + 1}; {percent(shareOf(reduction, whole))} of what this programme takes away.
      </span>
      {notes.map((note) => (
        <span key={note} className="soft">
          {note}
        </span>
      ))}
    </ListRow>
  )
}

const LEFT_OUT_PAGE = 20

/** Poles that could have been chosen, and the reason in words. */
function LeftOut({ programme: { leftOut } }: Pick<Props, 'programme'>) {
  const [shown, setShown] = useState(LEFT_OUT_PAGE)
  if (leftOut.length === 0) return null
  return (
    <details className="record-fold">
      <summary>{counted(leftOut.length, 'pole')} left out, and why</summary>
      <ul className="bird-facts">
        {leftOut.slice(0, shown).map(({ pole, why }) => (
          <li key={pole}>
            <PoleLink pole={pole} />: {why}
          </li>
        ))}
      </ul>
      {leftOut.length > shown && (
        <Button onClick={() => setShown(shown + LEFT_OUT_PAGE)}>
          Show more of {leftOut.length - shown}
        </Button>
      )}
    </details>
  )
}
