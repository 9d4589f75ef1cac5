import { useMay } from '../../api/account.ts'
import { handOver } from '../../api/hand-over.ts'
import { RecordFoot } from '../../record/record-foot.tsx'
import { Button } from '../../ui/button.tsx'
import { Field } from '../../ui/field.tsx'
import { EmptyNote, ErrorNote, LoadingNote } from '../../ui/state-note.tsx'
import { accountCsv } from './account-csv.ts'
import { AccountFigures } from './account-figures.tsx'
import './account.css'
import { AccountReport } from './account-report.tsx'
import { DetectionInputs } from './detection-inputs.tsx'
import { FirstLine } from './first-line.tsx'
import { showAccount, useAccountView } from './show-account.ts'
import { TakeOutBirds } from './take-out-birds.tsx'
import { type ShownAccount, useAccount } from './use-account.ts'

/** What was done for birds in a year, what was found, and what the figures allow to say. */
export function AccountDesk() {
  const maySee = useMay('see nests and incidents')
  if (!maySee) {
    return (
      <EmptyNote what="The account tells of dead and injured birds, which are not shown to readers." />
    )
  }
  return <Account />
}

function Account() {
  const shown = useAccount()
  const { isReport } = useAccountView()
  const { record, sections, accounted } = shown
  return (
    <div className="stack">
      {record.isLoading && <LoadingNote what="Fetching the record and assessing its poles…" />}
      {record.error && (
        <ErrorNote
          title="Part of the record did not arrive; the account is of the rest"
          error={record.error}
          onRetry={record.retry}
        />
      )}
      <FirstLine account={accounted.account} />
      <YearChoice shown={shown} />
      <AccountFigures sections={sections} />
      <DetectionInputs shown={shown} />
      <TakeOutBirds feederId={record.feeder.header.id} />
      <RecordFoot />
      {isReport && <AccountReport shown={shown} />}
    </div>
  )
}

function YearChoice({
  shown: { accounted, years, sections, record },
}: {
  readonly shown: ShownAccount
}) {
  const { year } = accounted.account
  const take = () =>
    handOver(
      new Blob([accountCsv(sections)], { type: 'text/csv;charset=utf-8' }),
      `birds-${record.feeder.header.id}-${year}.csv`,
    )
  return (
    <>
      <Field label="Year">
        {(control) => (
          <select
            {...control}
            className="input"
            value={year}
            onChange={({ target }) => showAccount({ year: Number(target.value), isReport: false })}
          >
            {[...new Set([year, ...years])]
              .sort((a, b) => b - a)
              .map((one) => (
                <option key={one} value={one}>
                  {one}
                </option>
              ))}
          </select>
        )}
      </Field>
      <div className="row">
        <Button look="main" onClick={() => showAccount({ year, isReport: true })}>
          Report to print
        </Button>
        <Button onClick={take}>Save as a table (CSV)</Button>
      </div>
    </>
  )
}
