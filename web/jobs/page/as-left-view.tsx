import type { AsLeftRecord } from '#contract/jobs.ts'
import type { AsLeft, UnitAsLeft } from '#domain/jobs/as-left.ts'
import { builtAgainstPlan } from '#domain/jobs/built-against-plan.ts'
import type { JobEntry } from '#domain/jobs/job-entry.ts'
import type { JobPlan } from '#domain/jobs/job-plan.ts'
import { HistoryButton } from '../../record/history-button.tsx'
import { listed, tapWords, thousands } from '../../state/format.ts'
import { DeviationList } from './deviation-list.tsx'

interface Props {
  readonly plan: JobPlan
  readonly record: AsLeftRecord
  /** Of the field, in their order. */
  readonly entries: readonly JobEntry[]
}

/** What stands at the poles since the crew left, first where it differs from the plan. */
export function AsLeftView({ plan, record, entries }: Props) {
  const { asLeft, jobId, feederId } = record
  return (
    <section className="job-part" aria-label="What was left">
      <h3>What was left</h3>
      <DeviationList deviations={builtAgainstPlan(plan, asLeft, entries)} />
      <p className="soft">
        Work of {asLeft.on}
        {asLeft.crew.length > 0 && `, by ${listed(asLeft.crew)}`}.
      </p>
      {asLeft.units.length > 0 && <Units units={asLeft.units} />}
      <Settings asLeft={asLeft} />
      <Measures asLeft={asLeft} />
      {asLeft.remarks && <p>Remarks: {asLeft.remarks}</p>}
      <Signature asLeft={asLeft} />
      <HistoryButton
        thing={{ subject: 'as-left', subjectId: jobId, feederId }}
        name="what was left"
      />
    </section>
  )
}

function Units({ units }: { readonly units: readonly UnitAsLeft[] }) {
  return (
    <ul className="job-lines">
      {units.map((unit) => (
        <li key={unit.phase}>
          <strong>Unit {unit.phase}</strong>: {unitInWords(unit)}
        </li>
      ))}
    </ul>
  )
}

function unitInWords(unit: UnitAsLeft): string {
  const { serialNumber, nameplate, ratingKva, ratingA, tapFound, tapLeft } = unit
  const said = [
    serialNumber && `serial ${serialNumber}`,
    nameplate,
    ratingKva !== undefined && `${ratingKva} kVA`,
    ratingA !== undefined && `${ratingA} A`,
    tapFound !== undefined && `found at ${tapWords(tapFound)}`,
    tapLeft !== undefined && `left at ${tapWords(tapLeft)}`,
    unit.counterFound !== undefined && `counter found at ${thousands(unit.counterFound)}`,
    unit.counterLeft !== undefined && `counter left at ${thousands(unit.counterLeft)}`,
    voltsPair('before', unit.sourceVBefore, unit.loadVBefore),
    voltsPair('after', unit.sourceVAfter, unit.loadVAfter),
    unit.ampsAfter !== undefined && `${unit.ampsAfter} A after`,
  ].filter(Boolean)
  return said.length > 0 ? `${said.join('; ')}.` : 'nothing was entered.'
}

function voltsPair(when: string, sourceV?: number, loadV?: number): string {
  if (sourceV === undefined && loadV === undefined) return ''
  const shown = (volts?: number) =>
    volts === undefined ? 'not read' : `${volts.toLocaleString('en-US')} V`
  return `source ${shown(sourceV)} and load ${shown(loadV)} ${when}`
}

function Settings({ asLeft: { settings } }: { readonly asLeft: AsLeft }) {
  if (!settings) return null
  const { bandCentreV, bandwidthV, delayS, rV, xV, ptRatio, ctPrimaryA, maxRaise, maxLower } =
    settings
  return (
    <p>
      Settings as left: {bandCentreV} V, bandwidth {bandwidthV} V, delay {delayS} s, R {rV} V, X{' '}
      {xV} V, potential ratio {ptRatio}, current transformer {ctPrimaryA} A, at most {maxRaise}{' '}
      raise and {maxLower} lower.
    </p>
  )
}

function Measures({ asLeft: { measures } }: { readonly asLeft: AsLeft }) {
  if (measures.length === 0) return null
  return (
    <ul className="job-lines">
      {measures.map(({ pole, measure, partIds, isDone, why }) => (
        <li key={`${pole} ${measure} ${partIds.join(' ')}`}>
          Pole {pole}, {measure}: {isDone ? 'done' : 'not done'}
          {why && `, because: ${why}`}
        </li>
      ))}
    </ul>
  )
}

function Signature({ asLeft: { signedBy, signaturePath } }: { readonly asLeft: AsLeft }) {
  if (signedBy === '' && signaturePath === '') return <p>Not signed.</p>
  return (
    <figure className="job-signature">
      {signaturePath !== '' && (
        <svg viewBox="0 0 300 100" role="img" aria-label={`Signature of ${signedBy || 'the crew'}`}>
          <path d={signaturePath} />
        </svg>
      )}
      <figcaption>{signedBy === '' ? 'Signed without a name' : `Signed by ${signedBy}`}</figcaption>
    </figure>
  )
}
