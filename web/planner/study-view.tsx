import type { Study } from '#contract/studies.ts'
import { hasEnded } from '#contract/work.ts'
import { useCancelStudy, useStudy } from '../api/studies.ts'
import { HistoryButton } from '../record/history-button.tsx'
import { select, useSelection } from '../state/selection.ts'
import { Button } from '../ui/button.tsx'
import { EmptyNote, ErrorNote, LoadingNote } from '../ui/state-note.tsx'
import { ExcludedList } from './excluded-list.tsx'
import { ProposalList } from './proposal-list.tsx'
import { SuggestForm } from './suggest-form.tsx'

const leave = () => select({ study: null, choice: null, moved: null })

/** A siting study: under way, ended, or gone wrong. */
export function StudyView() {
  const { study: studyId } = useSelection()
  const { data: study, error, refetch } = useStudy(studyId)
  return (
    <section className="stack" aria-label="Suggested poles">
      <div className="planner-head">
        <h2>Suggested poles</h2>
        <Button look="plain" onClick={leave}>
          Back to the feeder
        </Button>
      </div>
      {error && (
        <ErrorNote
          title="The study could not be read."
          error={error}
          onRetry={() => void refetch()}
        />
      )}
      {!study && !error && <LoadingNote what="Opening the study…" />}
      {study && <StudyState study={study} />}
      {study && (
        <HistoryButton
          thing={{ subject: 'study', subjectId: study.id, feederId: study.feederId }}
          name="the siting study"
        />
      )}
    </section>
  )
}

function StudyState({ study }: { readonly study: Study }) {
  if (!hasEnded(study.state)) return <StudyProgressView study={study} />
  if (study.state === 'cancelled') {
    return (
      <>
        <EmptyNote what="The study was cancelled; nothing was kept of it." />
        <SuggestForm />
      </>
    )
  }
  if (study.state === 'failed' || !study.result) {
    return (
      <>
        <ErrorNote
          title="The study came to no result."
          error={study.problem?.detail ?? 'It ended without saying why.'}
        />
        <SuggestForm />
      </>
    )
  }
  return (
    <>
      <ProposalList result={study.result} request={study.request} />
      <ExcludedList result={study.result} />
    </>
  )
}

function StudyProgressView({ study }: { readonly study: Study }) {
  const cancel = useCancelStudy()
  const { done, total, phase } = study
  return (
    <div className="planner-card stack">
      <p>
        <strong>{phase}</strong>
        {total > 0 && `: ${done} of ${total}`}
      </p>
      <progress
        className="planner-progress"
        aria-label={phase}
        max={total > 0 ? total : undefined}
        value={total > 0 ? done : undefined}
      />
      <div className="row">
        <Button disabled={cancel.isPending} onClick={() => cancel.mutate(study.id)}>
          Cancel the study
        </Button>
      </div>
      {cancel.error && <ErrorNote title="The study goes on." error={cancel.error} />}
    </div>
  )
}
