import { type FormEvent, useState } from 'react'
import type { HistoryReportRequest } from '#contract/reports.ts'
import { REPORT_DAYS } from '#contract/reports.ts'
import { useFeederList } from '../api/feeders.ts'
import { useWorkChanges } from '../api/long-work.ts'
import { Button } from '../ui/button.tsx'
import { Field } from '../ui/field.tsx'
import { ErrorNote } from '../ui/state-note.tsx'

interface Asked {
  readonly feederId: string
  readonly from: string
  readonly to: string
  readonly as: HistoryReportRequest['as']
}

const NOTHING: Asked = { feederId: '', from: '', to: '', as: 'csv' }

/** A report of the history of a feeder or of everything, over a period. */
export function ReportForm() {
  const [asked, setAsked] = useState(NOTHING)
  const { report } = useWorkChanges()
  const isWrong = asked.from !== '' && asked.to !== '' && asked.from > asked.to
  const submit = (event: FormEvent) => {
    event.preventDefault()
    if (!isWrong) report.mutate(requestOf(asked))
  }
  return (
    <details className="record-fold">
      <summary>Make a report of the history</summary>
      <form className="stack" onSubmit={submit} noValidate>
        <p className="small soft">
          It is made in the background and kept as a file for {REPORT_DAYS} days. Days are those of
          UTC; left empty, the report goes from the first entry to the last.
        </p>
        <div className="work-fields">
          <FeederChoice asked={asked} onChange={setAsked} />
          <DayField label="First day" name="from" asked={asked} onChange={setAsked} />
          <DayField
            label="Last day"
            name="to"
            asked={asked}
            onChange={setAsked}
            fault={isWrong ? 'The last day is before the first. Put one of them right.' : null}
          />
          <FormChoice asked={asked} onChange={setAsked} />
        </div>
        <div className="row">
          <Button type="submit" look="main" disabled={report.isPending}>
            Make the report
          </Button>
        </div>
        {report.isSuccess && <p role="status">The report is under way; it stands in the list.</p>}
        {report.error && <ErrorNote title="No report was begun." error={report.error} />}
      </form>
    </details>
  )
}

interface PartProps {
  readonly asked: Asked
  readonly onChange: (next: Asked) => void
}

function FeederChoice({ asked, onChange }: PartProps) {
  const feeders = useFeederList().data ?? []
  return (
    <Field label="History of">
      {(control) => (
        <select
          {...control}
          className="input"
          value={asked.feederId}
          onChange={({ target }) => onChange({ ...asked, feederId: target.value })}
        >
          <option value="">Everything</option>
          {feeders.map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </select>
      )}
    </Field>
  )
}

interface DayProps extends PartProps {
  readonly label: string
  readonly name: 'from' | 'to'
  readonly fault?: string | null
}

function DayField({ label, name, asked, onChange, fault }: DayProps) {
  return (
    <Field label={label} fault={fault}>
      {(control) => (
        <input
          {...control}
          className="input"
          type="date"
          value={asked[name]}
          onChange={({ target }) => onChange({ ...asked, [name]: target.value })}
        />
      )}
    </Field>
  )
}

function FormChoice({ asked, onChange }: PartProps) {
  return (
    <Field label="Form">
      {(control) => (
        <select
          {...control}
          className="input"
          value={asked.as}
          onChange={({ target }) =>
            onChange({ ...asked, as: target.value === 'csv' ? 'csv' : 'json-lines' })
          }
        >
          <option value="csv">Table (CSV)</option>
          <option value="json-lines">Lines of JSON</option>
        </select>
      )}
    </Field>
  )
}

function requestOf({ feederId, from, to, as }: Asked): HistoryReportRequest {
  return { as, ...(feederId && { feederId }), ...(from && { from }), ...(to && { to }) }
}
