import type { Finding } from '#domain/feeder/finding.ts'
import { useFindings } from '../api/feeders.ts'
import { showPlace } from '../state/camera.ts'
import { useFeeder } from '../state/feeder.tsx'
import { select } from '../state/selection.ts'
import { Button } from '../ui/button.tsx'
import { List, ListRow } from '../ui/list.tsx'
import { EmptyNote, ErrorNote, LoadingNote } from '../ui/state-note.tsx'
import { poleOfFinding } from './findings-at-pole.ts'

/** Everything that reading and checking the feeder has to say. */
export function FindingsView() {
  const model = useFeeder()
  const { data, error, isPending, refetch } = useFindings(model.feeder.header.id)
  return (
    <section className="stack">
      <div className="planner-head">
        <h2>Findings</h2>
        <Button look="plain" onClick={() => select({ view: null })}>
          Back
        </Button>
      </div>
      {isPending && <LoadingNote what="Checking the feeder…" />}
      {error && (
        <ErrorNote
          title="The feeder could not be checked."
          error={error}
          onRetry={() => void refetch()}
        />
      )}
      {data?.findings.length === 0 && (
        <EmptyNote what="Nothing is wrong with the layers of this feeder: no loops, no islands, every phase fed." />
      )}
      {data && data.findings.length > 0 && <FindingList findings={data.findings} />}
    </section>
  )
}

/** Findings with the step to the pole that each is about. */
export function FindingList({ findings }: { readonly findings: readonly Finding[] }) {
  const model = useFeeder()
  return (
    <List label={`${findings.length} findings`}>
      {findings.map((finding) => {
        const pole = poleOfFinding(model, finding)
        const open = () => {
          select({ pole })
          const at = finding.place ?? model.poleById.get(pole ?? '')?.at
          if (at) showPlace(at)
        }
        return (
          <ListRow
            key={`${finding.code} ${finding.featureId} ${finding.what}`}
            onChoose={pole === null ? undefined : open}
          >
            <FindingText finding={finding} />
          </ListRow>
        )
      })}
    </List>
  )
}

const SEVERITY_WORDS = { error: 'Error', warning: 'Warning', notice: 'Notice' } as const

export function FindingText({ finding }: { readonly finding: Finding }) {
  return (
    <>
      <span>
        <strong>{SEVERITY_WORDS[finding.severity]}</strong>{' '}
        <span className="soft">
          {finding.layer}
          {finding.featureId === null ? '' : `, ${finding.featureId}`}
        </span>
      </span>
      <span>{finding.what}</span>
      <span className="soft">{finding.remedy}</span>
    </>
  )
}
