import { useMay } from '../../api/account.ts'
import { useBirdSettings } from '../../api/bird-settings.ts'
import { HistoryButton } from '../../record/history-button.tsx'
import { Moment } from '../../record/moment.tsx'
import { Who } from '../../record/who.tsx'
import { ErrorNote, LoadingNote } from '../../ui/state-note.tsx'
import { SETTINGS_KEY } from './settings-draft.ts'
import { SettingsForm } from './settings-form.tsx'
import './settings.css'

/** What bird work goes by: every figure with how sure it is and where it is from. */
export function SettingsDesk() {
  const { data, error, isPending, refetch } = useBirdSettings()
  const mayChange = useMay('set what bird work goes by')
  if (isPending) return <LoadingNote what="Fetching the settings…" />
  if (error) {
    return (
      <ErrorNote title="The settings did not arrive" error={error} onRetry={() => void refetch()} />
    )
  }
  return (
    <section className="stack" aria-label="Settings">
      <h3>What bird work goes by</h3>
      <p className="soft small">
        For all feeders of the utility.{' '}
        {data.changedBy && data.changedAt ? (
          <>
            Last set by <Who {...data.changedBy} />, <Moment at={data.changedAt} />.
          </>
        ) : (
          'Nothing is set yet: all is as shipped.'
        )}
        {!mayChange && ' Setting it is the coordinator’s and the supervisor’s.'}
      </p>
      <fieldset className="setting-all" disabled={!mayChange}>
        <SettingsForm record={data} />
      </fieldset>
      <HistoryButton
        thing={{ subject: 'bird-settings', subjectId: SETTINGS_KEY, feederId: null }}
        name="the settings of bird work"
      />
    </section>
  )
}
