import type { ExpectedCase, ExpectedReading, JobPlan } from '#domain/jobs/job-plan.ts'
import { roundedVolts } from '#domain/units/rounded-volts.ts'
import { tapWords, thousands } from '../../state/format.ts'
import { expectedParts } from './expected-parts.ts'

/** What meters at the pole should show, case by case; narrow enough for a phone. */
export function ExpectedTable({ expected }: { readonly expected: readonly ExpectedCase[] }) {
  return (
    <>
      {expected.map((each) => (
        <CaseTable key={each.caseId} of={each} />
      ))}
      <ExpectedNote />
    </>
  )
}

/** The same before the work and after it, side by side where there is room. */
export function ExpectedBeside({ plan }: { readonly plan: JobPlan }) {
  return (
    <>
      <div className="job-beside">
        {expectedParts(plan).map(({ when, cases }) => (
          <div key={when} className="job-part">
            {when && <h4>{when}</h4>}
            {cases.map((each) => (
              <CaseTable key={each.caseId} of={each} />
            ))}
          </div>
        ))}
      </div>
      <ExpectedNote />
    </>
  )
}

function CaseTable({ of: { caseName, readings } }: { readonly of: ExpectedCase }) {
  return (
    <table className="job-table">
      <caption>{caseName}</caption>
      <thead>
        <tr>
          <th scope="col">Phase and tap</th>
          <th scope="col" className="job-number">
            Source, V
          </th>
          <th scope="col" className="job-number">
            Load, V
          </th>
          <th scope="col" className="job-number">
            Control, V
          </th>
          <th scope="col" className="job-number">
            Amperes
          </th>
        </tr>
      </thead>
      <tbody>
        {readings.map((reading) => (
          <ReadingRow key={reading.phase} reading={reading} />
        ))}
      </tbody>
    </table>
  )
}

function ExpectedNote() {
  return (
    <p className="small soft">
      Volts to neutral; beneath them the same on the 120 V base. “Control” is what the control reads
      after its ratio and compensation. Computed by the power flow for the loading named.
    </p>
  )
}

function ReadingRow({ reading }: { readonly reading: ExpectedReading }) {
  const { phase, tap, sourceV, loadV, sourceVolts120, loadVolts120, relayVolts, amps } = reading
  return (
    <tr>
      <th scope="row">
        {phase}
        <span className="soft job-line-note">{tapWords(tap)}</span>
      </th>
      <VoltsCell volts={sourceV} volts120={sourceVolts120} />
      <VoltsCell volts={loadV} volts120={loadVolts120} />
      <td className="job-number">{relayVolts.toFixed(1)}</td>
      <td className="job-number">{amps.toFixed(0)}</td>
    </tr>
  )
}

function VoltsCell({ volts, volts120 }: { readonly volts: number; readonly volts120: number }) {
  return (
    <td className="job-number">
      {thousands(roundedVolts(volts))}
      <span className="soft job-line-note">{volts120.toFixed(1)}</span>
    </td>
  )
}
