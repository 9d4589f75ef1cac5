import { useMay } from '../../api/account.ts'
import { useBirdSettings } from '../../api/bird-settings.ts'
import { useIncidents } from '../../api/incidents.ts'
import { useNests } from '../../api/nests.ts'
import { RecordFoot } from '../../record/record-foot.tsx'
import { useFeeder } from '../../state/feeder.tsx'
import { localToday } from '../../state/today.ts'
import { Button } from '../../ui/button.tsx'
import { EmptyNote, ErrorNote, LoadingNote } from '../../ui/state-note.tsx'
import { DueLine } from './due-line.tsx'
import { FindForm } from './find-form.tsx'
import { FindList } from './find-list.tsx'
import { FindsCautions } from './finds-cautions.tsx'
import './finds.css'
import { NestForm } from './nest-form.tsx'
import { NestList } from './nest-list.tsx'
import { showFinds, useFindsView } from './show-finds.ts'

/** Nests, and dead or hurt birds: what is due next, the lists, and the forms to record them. */
export function FindsDesk() {
  const maySee = useMay('see nests and incidents')
  if (!maySee) {
    return (
      <EmptyNote what="Nests and dead or injured birds are not shown to readers: where they are is protected." />
    )
  }
  return (
    <div className="stack">
      <FindsPart />
      <NestsPart />
      <FindsCautions />
      <RecordFoot />
    </div>
  )
}

function FindsPart() {
  const feederId = useFeeder().feeder.header.id
  const { data, isPending, error, refetch } = useIncidents(feederId)
  const { data: settings } = useBirdSettings()
  const mayRecord = useMay('record or change a find')
  const view = useFindsView()
  const today = localToday()
  return (
    <section className="stack" aria-label="Finds">
      <h3>Dead and hurt birds</h3>
      {isPending && <LoadingNote what="Fetching finds…" />}
      {error && (
        <ErrorNote title="Finds did not arrive" error={error} onRetry={() => void refetch()} />
      )}
      {data && <DueLine finds={data} settings={settings?.settings} today={today} />}
      {mayRecord && view?.open === 'new find' && (
        <FindForm
          find={null}
          onDone={() => showFinds(null)}
          onSaved={({ id }) => showFinds({ open: 'find', id })}
        />
      )}
      {mayRecord && view?.open !== 'new find' && (
        <div>
          <Button
            look={view === null ? 'main' : undefined}
            onClick={() => showFinds({ open: 'new find' })}
          >
            Record a find
          </Button>
        </div>
      )}
      {data && <FindList finds={data} settings={settings?.settings} today={today} />}
    </section>
  )
}

function NestsPart() {
  const feederId = useFeeder().feeder.header.id
  const { data, isPending, error, refetch } = useNests(feederId)
  const { data: settings } = useBirdSettings()
  const mayRecord = useMay('record or change a nest')
  const view = useFindsView()
  return (
    <section className="stack" aria-label="Nests">
      <h3>Nests</h3>
      {isPending && <LoadingNote what="Fetching nests…" />}
      {error && (
        <ErrorNote title="Nests did not arrive" error={error} onRetry={() => void refetch()} />
      )}
      {mayRecord && view?.open === 'new nest' && (
        <NestForm
          nest={null}
          onDone={() => showFinds(null)}
          onSaved={({ id }) => showFinds({ open: 'nest', id })}
        />
      )}
      {mayRecord && view?.open !== 'new nest' && (
        <div>
          <Button onClick={() => showFinds({ open: 'new nest' })}>Record a nest</Button>
        </div>
      )}
      {data && <NestList nests={data} settings={settings?.settings} today={localToday()} />}
    </section>
  )
}
