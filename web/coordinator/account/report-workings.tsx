import type { AccountSection } from './account-row.ts'

/** Formula, inputs and source behind the figures, where no sheet can be opened. */
export function ReportWorkings({ sections }: { readonly sections: readonly AccountSection[] }) {
  const workings = sections.flatMap(({ rows }) => rows.flatMap(({ working = [] }) => working))
  return (
    <section className="report-workings" aria-label="How the figures come about">
      <h3>How the figures come about</h3>
      {workings.map(({ title, formula, inputs, source, sureness }) => (
        <div key={title} className="report-working">
          <h4>{title}</h4>
          {formula.map((line) => (
            <p key={line}>{line}</p>
          ))}
          <p>{inputs.map(({ name, value }) => `${name}: ${value}`).join('; ')}.</p>
          <p>
            Source: {source} How sure: {sureness}.
          </p>
        </div>
      ))}
    </section>
  )
}
