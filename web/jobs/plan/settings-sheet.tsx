import type { SettingLine } from '#domain/jobs/job-plan.ts'

/** What is set at the control, or found again there. */
export function SettingsSheet({ settings }: { readonly settings: readonly SettingLine[] }) {
  return (
    <dl className="job-settings">
      {settings.map(({ name, value, note }) => (
        <div key={name} className="job-setting">
          <dt>
            {name}
            {note && <span className="soft job-line-note">{note}</span>}
          </dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  )
}
