import { bankInWords } from '#domain/feeder/bank-in-words.ts'
import type { Regulator } from '#domain/feeder/equipment.ts'
import { isBypassed } from '#domain/feeder/is-bypassed.ts'
import { isBankKind, leavesInService } from '#domain/jobs/is-bank-kind.ts'
import { banksFor, whyNotOffered } from '../jobs/banks-for.ts'
import {
  BY_HAND_KINDS,
  type ByHandDraft,
  bankOfDraft,
  byHandDrafts,
  originByHand,
} from '../jobs/by-hand-draft.ts'
import { HandOverForm } from '../jobs/hand-over-form.tsx'
import { viewOfJob } from '../jobs/job-view.ts'
import { KIND_WORDS, polesInWords } from '../jobs/job-words.ts'
import { useFeeder } from '../state/feeder.tsx'
import { select, useSelection } from '../state/selection.ts'
import { Button } from '../ui/button.tsx'
import { Field } from '../ui/field.tsx'
import { WantedSettingsFields } from './wanted-settings-fields.tsx'

/** A job that comes from no proposal and no programme: kind, bank or poles, then what the crew should know. */
export function DraftByHand() {
  const { feeder, poleById } = useFeeder()
  const feederId = feeder.header.id
  const { pole } = useSelection()
  const regulators = feeder.equipment.filter((item): item is Regulator => item.kind === 'regulator')
  const draft = byHandDrafts.use(feederId) ?? {
    kind: 'inspection',
    poles: pole ?? '',
    regulatorId: '',
    settings: {},
  }
  const bank = bankOfDraft(draft, regulators)
  const keep = (part: Partial<ByHandDraft>) => byHandDrafts.keep(feederId, { ...draft, ...part })
  const leave = () => select({ view: null })
  const chosen = originByHand(draft, poleById, regulators)
  const title = chosen.ok ? `${KIND_WORDS[draft.kind]} at ${polesInWords(chosen.poles)}` : ''
  return (
    <section className="stack" aria-label="Draft a job by hand">
      <div>
        <Button onClick={leave}>Back to the jobs</Button>
      </div>
      <h2>Draft a job by hand</h2>
      <p className="soft">A new bank comes from a kept proposal, at the planner’s desk.</p>
      <KindField draft={draft} onType={keep} />
      {isBankKind(draft.kind) ? (
        bank && <BankField draft={draft} bank={bank} regulators={regulators} onType={keep} />
      ) : (
        <PolesField
          draft={draft}
          fault={chosen.ok || draft.poles.trim() === '' ? null : chosen.why}
          onType={keep}
        />
      )}
      {bank && leavesInService(draft.kind) && (
        <WantedSettingsFields
          standing={bank}
          typed={draft.settings}
          onType={(settings) => keep({ settings })}
        />
      )}
      {isBankKind(draft.kind) && !chosen.ok && <p role="status">{chosen.why}</p>}
      {chosen.ok && (
        <HandOverForm
          key={`${draft.kind} ${chosen.poles.join(' ')}`}
          draftKey={`by-hand~${feederId}~${draft.kind}~${chosen.poles.join(' ')}`}
          what={`${draft.kind} at ${polesInWords(chosen.poles)}`}
          origin={chosen.origin}
          suggestedTitle={title.slice(0, 120)}
          onGiveUp={leave}
          onDrafted={({ id }) => {
            byHandDrafts.keep(feederId, null)
            select({ view: viewOfJob(id) })
          }}
        />
      )}
    </section>
  )
}

interface FieldProps {
  readonly draft: ByHandDraft
  readonly onType: (part: Partial<ByHandDraft>) => void
}

function KindField({ draft, onType }: FieldProps) {
  return (
    <Field label="What the crew is sent out for">
      {(control) => (
        <select
          {...control}
          className="input"
          value={draft.kind}
          onChange={({ target }) =>
            onType({ kind: BY_HAND_KINDS.find((kind) => kind === target.value) ?? draft.kind })
          }
        >
          {BY_HAND_KINDS.map((kind) => (
            <option key={kind} value={kind}>
              {KIND_WORDS[kind]}
            </option>
          ))}
        </select>
      )}
    </Field>
  )
}

interface BankFieldProps extends FieldProps {
  readonly bank: Regulator
  readonly regulators: readonly Regulator[]
}

function BankField({ draft: { kind }, bank, regulators, onType }: BankFieldProps) {
  return (
    <Field label="Bank" hint={whyNotOffered(kind, regulators) ?? ''}>
      {(control) => (
        <select
          {...control}
          className="input"
          value={bank.id}
          onChange={({ target }) => onType({ regulatorId: target.value, settings: {} })}
        >
          {banksFor(kind, regulators).map((each) => (
            <option key={each.id} value={each.id}>
              {bankInWords(each)}, phases {each.phases}
              {isBypassed(each) && ', out of service'}
            </option>
          ))}
        </select>
      )}
    </Field>
  )
}

function PolesField({ draft, fault, onType }: FieldProps & { readonly fault: string | null }) {
  return (
    <Field
      label="Poles"
      hint="In the order of driving, with commas between; any part of a number that tells the pole apart."
      fault={fault}
    >
      {(control) => (
        <textarea
          {...control}
          className="input"
          rows={2}
          value={draft.poles}
          onChange={({ target }) => onType({ poles: target.value })}
        />
      )}
    </Field>
  )
}
