import type { Job } from '#contract/jobs.ts'
import type { JobPlan } from '#domain/jobs/job-plan.ts'
import '../../birds/birds.css'
import { usePoleBirds } from '../../birds/use-pole-birds.ts'
import '../jobs.css'
import { useFeeder } from '../../state/feeder.tsx'
import { localToday } from '../../state/today.ts'
import { ArrivingTitle } from '../../ui/arriving-title.tsx'
import { BankDrawings } from '../bank-drawings.tsx'
import { KIND_WORDS, polesInWords, STATE_WORDS } from '../job-words.ts'
import { BankFacts } from '../plan/bank-facts.tsx'
import { BypassedTable } from '../plan/bypassed-table.tsx'
import { expectedParts } from '../plan/expected-parts.ts'
import { ExpectedBeside } from '../plan/expected-table.tsx'
import { HazardList } from '../plan/hazard-list.tsx'
import { KitList } from '../plan/kit-list.tsx'
import { MistakeList } from '../plan/mistake-list.tsx'
import { SettingsSheet } from '../plan/settings-sheet.tsx'
import { AsLeftBlank } from './as-left-blank.tsx'
import { PacketPart } from './packet-part.tsx'
import { PaperSheet } from './paper-sheet.tsx'
import { PoleSheet } from './pole-sheet.tsx'
import { unitPhases } from './unit-phases.ts'

interface Props {
  readonly job: Job
  readonly onBack: () => void
}

/** All of one job on paper: for a truck without a screen, and to be signed. */
export function JobPacket({ job, onBack }: Props) {
  const { plan } = job
  // The bird record comes for the whole feeder at once, so any pole tells whether it is there.
  const { isLoading } = usePoleBirds(null)
  return (
    <PaperSheet
      label={`Packet of the job ${job.title}`}
      backWords="Back to the job"
      onBack={onBack}
      waitsFor={isLoading ? 'The drawings of the pole tops are still being fetched.' : null}
    >
      <PacketHead job={job} />
      <Notes plan={plan} />
      <PacketPart title="What can hurt">
        <HazardList hazards={plan.hazards} />
      </PacketPart>
      <PacketPart title="Kit">
        <KitList kit={plan.kit} />
      </PacketPart>
      <BankPart plan={plan} />
      {plan.poles.map((work) => (
        <PoleSheet key={work.pole} plan={plan} work={work} />
      ))}
      <AsLeftBlank phases={unitPhases(plan)} />
    </PaperSheet>
  )
}

function PacketHead({ job }: Pick<Props, 'job'>) {
  const { feeder, version } = useFeeder()
  const { plan, title, note, dueOn, crew, state, feederVersion } = job
  const poles = plan.poles.map(({ pole }) => pole)
  return (
    <header className="paper-head">
      <ArrivingTitle of={job.id}>{title}</ArrivingTitle>
      <p>
        <strong>{KIND_WORDS[plan.kind]}</strong>, {polesInWords(poles)}, feeder {feeder.header.name}
        , {feeder.header.nominalKv} kV.
      </p>
      <p>
        {dueOn ? `Due ${dueOn}. ` : ''}
        {crew ? `Crew: ${crew}. ` : ''}
        {STATE_WORDS[state]} when this was printed, {localToday()}.
      </p>
      {note && <p>{note}</p>}
      {feederVersion !== version && (
        <p>
          The plan was made on version {feederVersion} of the feeder; its record now stands at
          version {version}.
        </p>
      )}
      <p className="paper-caution">
        The utility’s own safety rules, its switching procedure and qualified workers govern; local
        codes, permits and the wildlife agencies decide. This packet is an aid and a record, not an
        authority. Treat every conductor as energized until it is tested dead and grounded. Covers
        protect birds; they do not insulate people.
      </p>
    </header>
  )
}

/** What the plan warns of, and what could not be found out, comes before everything else. */
function Notes({ plan: { notes } }: { readonly plan: JobPlan }) {
  if (notes.length === 0) return null
  return (
    <PacketPart title="Notes on the plan">
      <ul className="job-lines">
        {notes.map((note) => (
          <li key={note}>{note}</li>
        ))}
      </ul>
    </PacketPart>
  )
}

function BankPart({ plan }: { readonly plan: JobPlan }) {
  const { bank, settings, mistakes } = plan
  return (
    <>
      {bank && (
        <PacketPart title="The bank">
          <BankFacts kind={plan.kind} bank={bank} />
          <BankDrawings kind={plan.kind} bank={bank} />
        </PacketPart>
      )}
      {plan.whileBypassed && (
        <PacketPart title="While the bank is bypassed">
          <BypassedTable plan={plan} />
        </PacketPart>
      )}
      {settings.length > 0 && (
        <PacketPart title="Settings">
          <SettingsSheet settings={settings} />
        </PacketPart>
      )}
      {expectedParts(plan).length > 0 && (
        <PacketPart title="What meters should show">
          <ExpectedBeside plan={plan} />
        </PacketPart>
      )}
      {mistakes.length > 0 && (
        <PacketPart title="What would show a mistake">
          <MistakeList mistakes={mistakes} />
        </PacketPart>
      )}
    </>
  )
}
