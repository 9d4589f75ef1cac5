import type { ReactNode } from 'react'
import type { JobPlan } from '#domain/jobs/job-plan.ts'
import '../birds/birds.css'
import '../record/record.css'
import { counted } from '../state/format.ts'
import { BankOneLine } from './bank-one-line.tsx'
import './jobs.css'
import { BankFacts } from './plan/bank-facts.tsx'
import { BypassedTable } from './plan/bypassed-table.tsx'
import { expectedParts } from './plan/expected-parts.ts'
import { ExpectedBeside } from './plan/expected-table.tsx'
import { HazardList } from './plan/hazard-list.tsx'
import { KitList } from './plan/kit-list.tsx'
import { MistakeList } from './plan/mistake-list.tsx'
import { PoleWorks } from './plan/pole-works.tsx'
import { SettingsSheet } from './plan/settings-sheet.tsx'

/** All that a crew is handed: what can hurt first, then poles, kit, settings and readings. */
export function JobPlanView({ plan }: { readonly plan: JobPlan }) {
  const { poles, bank, kit, hazards, settings, mistakes, notes } = plan
  return (
    <section className="stack job-plan" aria-label="Plan of the job">
      <Notes notes={notes} />
      <Part title={`What can hurt: ${counted(hazards.length, 'hazard')}`}>
        <HazardList hazards={hazards} />
      </Part>
      {bank && (
        <Part title="The bank">
          <BankFacts kind={plan.kind} bank={bank} />
          <BankOneLine kind={plan.kind} bank={bank} />
        </Part>
      )}
      {plan.whileBypassed && (
        <Part title="While the bank is bypassed">
          <BypassedTable plan={plan} />
        </Part>
      )}
      <Part title={counted(poles.length, 'pole')}>
        <PoleWorks poles={poles} />
      </Part>
      <Part title="Kit">
        <KitList kit={kit} />
      </Part>
      {settings.length > 0 && (
        <Part title="Settings">
          <SettingsSheet settings={settings} />
        </Part>
      )}
      {expectedParts(plan).length > 0 && (
        <Part title="What meters should show">
          <ExpectedBeside plan={plan} />
        </Part>
      )}
      {mistakes.length > 0 && (
        <Part title="What would show a mistake">
          <MistakeList mistakes={mistakes} />
        </Part>
      )}
    </section>
  )
}

function Part({ title, children }: { readonly title: string; readonly children: ReactNode }) {
  return (
    <section className="job-part" aria-label={title}>
      <h3>{title}</h3>
      {children}
    </section>
  )
}

/** What could not be found out stands before everything else. */
function Notes({ notes }: Pick<JobPlan, 'notes'>) {
  if (notes.length === 0) return null
  return (
    <ul className="state-note" aria-label="What could not be found out">
      {notes.map((note) => (
        <li key={note}>{note}</li>
      ))}
    </ul>
  )
}
