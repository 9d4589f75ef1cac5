import type { JobSummary } from '#contract/jobs.ts'
import type { SavedProposal } from '#contract/proposals.ts'
import type { ProposedBank } from '#domain/siting/site-result.ts'
import { useMay } from '../api/account.ts'
import { useJobs } from '../api/jobs.ts'
import { HandOverForm } from '../jobs/hand-over-form.tsx'
import { JobCard } from '../jobs/job-card.tsx'
import { viewOfJob } from '../jobs/job-view.ts'
import { WAITS_FOR } from '../jobs/job-words.ts'
import { AsBuilt } from '../jobs/page/as-built.tsx'
import { counted, listed } from '../state/format.ts'
import { select, useSelection } from '../state/selection.ts'
import { Button } from '../ui/button.tsx'
import { List } from '../ui/list.tsx'
import { ErrorNote, LoadingNote } from '../ui/state-note.tsx'
import { handedBankOf, viewOfHandOver } from './hand-over-view.ts'
import { useTrialBanks } from './use-trial-banks.ts'

/** What became of a kept proposal in the field, and the step that hands it to the crew. */
export function ProposalJobs({ saved }: { readonly saved: SavedProposal }) {
  const maySee = useMay('see jobs')
  const { data, error, refetch } = useJobs(saved.feederId, maySee)
  if (!maySee) return null
  if (error) {
    return (
      <ErrorNote
        title="Whether it is a job already is not known."
        error={error}
        onRetry={() => void refetch()}
      />
    )
  }
  if (!data) return <LoadingNote what="Looking whether it is a job already…" />
  const jobs = data.filter(
    ({ origin }) => origin.kind === 'proposal' && origin.proposalId === saved.id,
  )
  return (
    <section className="stack" aria-label="Crew work">
      {jobs.length > 0 && <JobsOfProposal jobs={jobs} />}
      {saved.proposal.banks.map((bank, index) => (
        <HandOver
          key={`${bank.pole} ${bank.phases}`}
          saved={saved}
          bank={bank}
          index={index}
          job={jobs.find(({ poles }) => poles.includes(bank.pole)) ?? null}
        />
      ))}
    </section>
  )
}

function JobsOfProposal({ jobs }: { readonly jobs: readonly JobSummary[] }) {
  return (
    <>
      <h3>{jobs.length === 1 ? 'It is a job' : `It is ${counted(jobs.length, 'job')}`}</h3>
      <List label={`${counted(jobs.length, 'job')} of this proposal`}>
        {jobs.map((job) => (
          <JobCard
            key={job.id}
            job={job}
            showsState
            onOpen={() => select({ view: viewOfJob(job.id) })}
          />
        ))}
      </List>
      {jobs.map(({ id, state }) =>
        state === 'closed' ? (
          <AsBuilt key={id} jobId={id} />
        ) : (
          <p key={id} className="soft">
            {WAITS_FOR[state]}
          </p>
        ),
      )}
    </>
  )
}

interface HandOverProps {
  readonly saved: SavedProposal
  readonly bank: ProposedBank
  readonly index: number
  readonly job: JobSummary | null
}

function HandOver({ saved, bank, index, job }: HandOverProps) {
  const { view } = useSelection()
  const { isMoved } = useTrialBanks()
  const mayDraft = useMay('draft or change a job')
  const isOneOf = saved.proposal.banks.length > 1
  if (job || !mayDraft || saved.deletedAt !== null) return null
  if (isMoved) {
    return (
      <p className="soft">
        What is handed over is what was kept: the bank at pole{' '}
        {listed(saved.proposal.banks.map(({ pole }) => pole))}. Keep the bank where it stands now as
        a proposal of its own to hand that over.
      </p>
    )
  }
  if (handedBankOf(view) !== index) {
    return (
      <div>
        <Button look="main" onClick={() => select({ view: viewOfHandOver(index) })}>
          {isOneOf ? `Hand the bank at pole ${bank.pole} to the crew` : 'Hand to crew'}
        </Button>
      </div>
    )
  }
  return (
    <HandOverForm
      draftKey={`proposal~${saved.id}~${index}`}
      what={`the proposal ${saved.name}`}
      origin={{ kind: 'proposal', proposalId: saved.id }}
      bank={index}
      suggestedTitle={isOneOf ? `${saved.name}, pole ${bank.pole}`.slice(0, 120) : saved.name}
      onGiveUp={() => select({ view: null })}
      onDrafted={({ id }) => select({ view: viewOfJob(id) })}
    />
  )
}
