import type { BankWork, ExpectedCase } from '#domain/jobs/job-plan.ts'
import type { Phase } from '#domain/units/phases.ts'
import { ExpectedTable } from '../../jobs/plan/expected-table.tsx'
import { tapWords } from '../../state/format.ts'
import { Button } from '../../ui/button.tsx'
import { Field } from '../../ui/field.tsx'
import { ErrorNote, LoadingNote } from '../../ui/state-note.tsx'
import {
  EMPTY_READ_OFF,
  phasesOf,
  type ReadOffDraft,
  readOffDrafts,
  readOffOf,
} from './read-off-draft.ts'
import type { ReadingPart } from './reading-parts.ts'
import { useExpectedFor } from './use-expected-for.ts'

interface Props {
  readonly jobId: string
  readonly part: ReadingPart
  /** The case whose loads are scaled to what is read off. */
  readonly near: ExpectedCase
}

/** Amps and taps as the crew reads them off, and the volts that belong to them. */
export function ReadOffForm({ jobId, part, near }: Props) {
  const { bank, isAtNeutral } = part
  // What is read before the work is not what is read after it.
  const key = part.id === 'planned' ? jobId : `${jobId}~${part.id}`
  const draft = readOffDrafts.use(key) ?? EMPTY_READ_OFF
  const phases = phasesOf(bank.regulator.phases)
  const state = readOffOf(draft, phases, near)
  const readOff = state.kind === 'read' ? state.readOff : null
  const { data, error, isFetching } = useExpectedFor(bank, readOff)
  const keep = (next: ReadOffDraft | null) => readOffDrafts.keep(key, next)
  const faultOf = (phase: Phase) =>
    state.kind === 'faulty' && state.phase === phase ? state.fault : null
  return (
    <section className="stack" aria-label="As you read it">
      <h4>As you read it</h4>
      <p>
        {isAtNeutral
          ? 'Type the amps of each phase as they stand now, past the units.'
          : 'Type the amps and the tap of each unit as they stand now.'}{' '}
        The load of “{near.caseName}” is scaled until the model carries them; solved on this device.
      </p>
      {phases.map((phase) => (
        <fieldset key={phase} className="read-off-phase">
          <legend>Phase {phase}</legend>
          <Field label="Amps" unit="A" fault={faultOf(phase)}>
            {(control) => (
              <input
                className="input"
                inputMode="decimal"
                autoComplete="off"
                value={draft.amps[phase] ?? ''}
                onChange={({ target }) =>
                  keep({ ...draft, amps: { ...draft.amps, [phase]: target.value } })
                }
                {...control}
              />
            )}
          </Field>
          {!isAtNeutral && (
            <TapChoice
              bank={bank}
              tap={draft.taps[phase] ?? caseTap(near, phase)}
              onChoose={(tap) => keep({ ...draft, taps: { ...draft.taps, [phase]: tap } })}
            />
          )}
        </fieldset>
      ))}
      <div role="status" aria-label="Expected for what you read" aria-busy={isFetching}>
        {readOff && !data && !error && <LoadingNote what="Solving for what you read…" />}
        {readOff && data?.status === 'solved' && (
          <ExpectedTable
            expected={[
              {
                caseId: 'read-off',
                caseName: `At what you read: ${Math.round(data.loadFactor * 100)} % of the load of “${near.caseName}”`,
                readings: [...data.readings],
              },
            ]}
          />
        )}
        {readOff && data?.status === 'not solved' && <p className="state-note">{data.what}</p>}
        {error && <ErrorNote title="Not solved" error={error} />}
      </div>
      {draft !== EMPTY_READ_OFF && <Button onClick={() => keep(null)}>Clear what I typed</Button>}
    </section>
  )
}

interface TapProps {
  readonly bank: BankWork
  readonly tap: number
  readonly onChoose: (tap: number) => void
}

function TapChoice({ bank, tap, onChoose }: TapProps) {
  return (
    <Field label="Tap">
      {(control) => (
        <select
          className="input"
          value={tap}
          onChange={({ target }) => onChoose(Number(target.value))}
          {...control}
        >
          {tapsOf(bank).map((each) => (
            <option key={each} value={each}>
              {tapWords(each)}
            </option>
          ))}
        </select>
      )}
    </Field>
  )
}

function caseTap({ readings }: ExpectedCase, phase: Phase): number {
  return readings.find((one) => one.phase === phase)?.tap ?? 0
}

/** From the highest raise to the lowest lower, as far as the bank may go. */
function tapsOf({ regulator }: BankWork): number[] {
  const { maxRaise, maxLower } = regulator
  return Array.from({ length: maxRaise + maxLower + 1 }, (_, index) => maxRaise - index)
}
