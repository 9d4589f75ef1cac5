import { useMemo } from 'react'
import type { JobPlan, PoleWork } from '#domain/jobs/job-plan.ts'
import { measureInWords } from '../../birds/measure-words.ts'
import { type PoleBirds, usePoleBirds } from '../../birds/use-pole-birds.ts'
import { counted } from '../../state/format.ts'
import { useSelection } from '../../state/selection.ts'
import { capitalised } from '../job-words.ts'
import { PacketPart } from './packet-part.tsx'
import { PaperPoleTop } from './paper-pole-top.tsx'
import { PolePlace } from './pole-place.tsx'
import { StepsTable } from './steps-table.tsx'
import { unitPhases } from './unit-phases.ts'

interface Props {
  readonly plan: JobPlan
  readonly work: PoleWork
}

/** All about one pole of the job: how it is found, its top, what is done there and in which order. */
export function PoleSheet({ plan, work }: Props) {
  const { pole, sequence, sequenceVersion } = work
  const { regulator } = plan.bank ?? {}
  const proposed = useMemo(
    () => (plan.kind === 'set a bank' && regulator?.pole === pole ? [regulator] : []),
    [plan.kind, regulator, pole],
  )
  const { found, isLoading, error } = usePoleBirds(pole, proposed)
  return (
    <>
      <PacketPart title={`Pole ${pole}`} startsPage>
        <PolePlace poleId={pole} />
      </PacketPart>
      <PacketPart title={`Top of pole ${pole}`}>
        {isLoading && <p role="status">Fetching the drawing of the pole top…</p>}
        {error && <p role="alert">The drawing of the pole top did not arrive: {error.message}</p>}
        {found && <PaperPoleTop birds={found} />}
        <Measures work={work} birds={found} />
      </PacketPart>
      <PacketPart title={`Steps at pole ${pole}: ${sequence.name}`}>
        <p className="small">
          {sequenceVersion === 0
            ? 'As the order of steps comes with the program.'
            : `Version ${sequenceVersion} of the utility’s order of steps.`}{' '}
          {sequence.source}
        </p>
        <StepsTable steps={sequence.steps} phases={unitPhases(plan, pole)} />
      </PacketPart>
    </>
  )
}

function Measures({ work, birds }: { readonly work: PoleWork; readonly birds: PoleBirds | null }) {
  const { units } = useSelection()
  const { measures, openPairs, openPairsAfter } = work
  const parts = birds?.assessment.poleTop?.parts ?? []
  if (measures.length === 0) return <p>No bird work is planned here.</p>
  return (
    <>
      <p>
        Bird work of this visit; {counted(openPairs, 'pair')} open now, {openPairsAfter} after it:
      </p>
      <ul className="paper-boxes">
        {measures.map((measure) => (
          <li key={`${measure.kind} ${measure.partIds.join(' ')}`}>
            {capitalised(measureInWords(measure, parts, units))}
          </li>
        ))}
      </ul>
    </>
  )
}
