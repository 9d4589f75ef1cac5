import type { PoleWork } from '#domain/jobs/job-plan.ts'
import { measureInWords } from '../../birds/measure-words.ts'
import { showPlace } from '../../state/camera.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { counted } from '../../state/format.ts'
import { hoverPole } from '../../state/hover.ts'
import { select, useSelection } from '../../state/selection.ts'
import { capitalised } from '../job-words.ts'
import { StepLines } from './step-lines.tsx'

/** What is done at each pole, in the order of driving. */
export function PoleWorks({ poles }: { readonly poles: readonly PoleWork[] }) {
  return (
    <ol className="job-poles">
      {poles.map((work) => (
        <PoleRow key={work.pole} work={work} />
      ))}
    </ol>
  )
}

function PoleRow({ work }: { readonly work: PoleWork }) {
  const { units } = useSelection()
  const { pole, measures, openPairs, openPairsAfter, sequence, sequenceVersion } = work
  const holds = sequence.steps.filter(({ isHoldPoint }) => isHoldPoint).length
  return (
    <li className="job-pole">
      <PoleName pole={pole} />
      {measures.length > 0 && (
        <ul className="job-lines">
          {measures.map((measure) => (
            <li key={`${measure.kind} ${measure.partIds.join(' ')}`}>
              {capitalised(measureInWords(measure, [], units))}
            </li>
          ))}
        </ul>
      )}
      <p className="soft">{pairsInWords(openPairs, openPairsAfter)}</p>
      <details className="record-fold">
        <summary>
          {sequence.name}: {counted(sequence.steps.length, 'step')}, {counted(holds, 'hold point')}
        </summary>
        <StepLines steps={sequence.steps} />
        <p className="small soft">
          {sequenceVersion === 0
            ? 'As it comes with the program.'
            : `Version ${sequenceVersion}, as the utility has set it.`}{' '}
          {sequence.source}
        </p>
      </details>
    </li>
  )
}

function PoleName({ pole }: { readonly pole: string }) {
  const at = useFeeder().poleById.get(pole)?.at
  const open = () => {
    select({ pole })
    if (at) showPlace(at, 16)
  }
  if (!at) return <h4>Pole {pole}, which the feeder no longer has</h4>
  return (
    <h4>
      <button
        type="button"
        className="job-pole-link"
        onClick={open}
        onPointerEnter={() => hoverPole(pole)}
        onPointerLeave={() => hoverPole(null)}
      >
        Pole {pole}
      </button>
    </h4>
  )
}

function pairsInWords(openPairs: number, openPairsAfter: number): string {
  if (openPairs === 0) return 'No pair stands open for the design bird.'
  const now = counted(openPairs, 'open pair')
  if (openPairsAfter === openPairs) return `${now} now; this job closes none.`
  return `${now} now, ${openPairsAfter === 0 ? 'none' : openPairsAfter} after the work.`
}
