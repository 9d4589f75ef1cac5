import type { KitLine } from '#domain/jobs/job-plan.ts'
import { counted } from '../../state/format.ts'
import { checkKit, keyOfKit, useKitChecks } from './kit-checks.ts'

interface Props {
  readonly jobId: string
  readonly kit: readonly KitLine[]
}

/** What goes onto the truck, to be ticked off; the ticks stay on this device. */
export function KitChecklist({ jobId, kit }: Props) {
  const checks = useKitChecks(jobId)
  const there = kit.filter((line) => checks.has(keyOfKit(line))).length
  if (kit.length === 0) return <p>No kit is listed for this job.</p>
  return (
    <div className="stack">
      <p role="status">
        {there} of {counted(kit.length, 'line')} on the truck.
      </p>
      <ul className="crew-checklist" aria-label="Kit">
        {kit.map((line) => {
          const { what, count, pole, note } = line
          const key = keyOfKit(line)
          return (
            <li key={key}>
              <label className="crew-check">
                <input
                  type="checkbox"
                  checked={checks.has(key)}
                  onChange={({ target }) => checkKit(jobId, line, target.checked)}
                />
                <span>
                  <strong>{count} ×</strong> {what}
                  {pole !== undefined && `, pole ${pole}`}
                  {note && <span className="crew-check-note">{note}</span>}
                </span>
              </label>
            </li>
          )
        })}
      </ul>
    </div>
  )
}
