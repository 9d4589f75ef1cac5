import type { BypassedCase, JobPlan } from '#domain/jobs/job-plan.ts'
import { loadToChoose } from './load-to-choose.ts'

/** Who is outside the limits while the bank is bypassed, load by load, and which to choose. */
export function BypassedTable({ plan }: { readonly plan: JobPlan }) {
  const { whileBypassed = [] } = plan
  return (
    <>
      <p>{loadToChoose(plan)}</p>
      <table className="job-table">
        <caption>Customers outside the limits, on all of the feeder</caption>
        <thead>
          <tr>
            <th scope="col">Load</th>
            <th scope="col" className="job-number">
              In service
            </th>
            <th scope="col" className="job-number">
              Bypassed
            </th>
            <th scope="col">Lowest beyond the bank</th>
          </tr>
        </thead>
        <tbody>
          {whileBypassed.map((each) => (
            <CaseRow key={each.caseId} of={each} />
          ))}
        </tbody>
      </table>
      <p className="small soft">
        Computed by the power flow with this bank at neutral, the others at work. Volts on the 120 V
        base, lowest while bypassed.
      </p>
    </>
  )
}

function CaseRow({ of }: { readonly of: BypassedCase }) {
  const { caseName, customersOutside, customersOutsideInService, lowest } = of
  return (
    <tr>
      <th scope="row">{caseName}</th>
      <td className="job-number">{customersOutsideInService}</td>
      <td className="job-number">{customersOutside}</td>
      <td>
        {lowest ? (
          <>
            {lowest.volts120.toFixed(1)} V
            <span className="soft job-line-note">
              pole {lowest.pole}, phase {lowest.phase}
            </span>
          </>
        ) : (
          'nothing is fed there'
        )}
      </td>
    </tr>
  )
}
