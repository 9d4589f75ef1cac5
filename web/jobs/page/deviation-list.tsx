import type { Deviation } from '#domain/jobs/built-against-plan.ts'

/** What was built otherwise than planned; says so too where nothing was. */
export function DeviationList({ deviations }: { readonly deviations: readonly Deviation[] }) {
  if (deviations.length === 0) return <p>Built as it was planned.</p>
  return (
    <table className="job-table">
      <caption>Built otherwise than planned</caption>
      <thead>
        <tr>
          <th scope="col">What</th>
          <th scope="col">Planned</th>
          <th scope="col">As built</th>
        </tr>
      </thead>
      <tbody>
        {deviations.map(({ what, planned, built }) => (
          <tr key={what}>
            <th scope="row">{what}</th>
            <td>{planned}</td>
            <td>
              <strong>{built}</strong>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
