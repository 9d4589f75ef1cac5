import type { SiteRequest } from '#domain/siting/site-request.ts'
import type { ProposedBank } from '#domain/siting/site-result.ts'
import { useFeeder } from '../state/feeder.tsx'
import { showWorking } from '../state/working.ts'
import { Figure } from '../ui/figure.tsx'
import { settingsWorking } from './settings-working.ts'

interface Props {
  readonly bank: ProposedBank
  readonly request: SiteRequest
}

/** What the control of a bank is given, and why. */
export function BankSettings({ bank, request }: Props) {
  const { feeder } = useFeeder()
  const { bandCentreV, bandwidthV, delayS, rV = 0, settings, xV = 0 } = bank
  const compensation = rV === 0 && xV === 0 ? 'none' : `R ${rV} V, X ${xV}`
  return (
    <>
      <p>
        Band {bandCentreV} ± {bandwidthV / 2} V, {delayS} s; line-drop compensation{' '}
        <Figure
          value={compensation}
          unit={compensation === 'none' ? '' : 'V'}
          label="Line-drop compensation"
          onWorking={() => showWorking(settingsWorking(feeder.header, bank, request))}
        />
        .
      </p>
      {settings && (
        <details className="planner-fold">
          <summary>Why these settings</summary>
          {sentencesOf(settings.why).map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
        </details>
      )}
    </>
  )
}

/** Its sentences one by one, since each says another thing: what was chosen, what for, what was refused. */
function sentencesOf(text: string): string[] {
  return text.match(/\S.*?\.(?= [A-Z]|$)/g) ?? [text]
}
