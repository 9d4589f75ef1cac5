import { ATTACHMENT_TYPES } from '#contract/attachments.ts'
import type { HistoryEntry, Subject } from '#contract/history.ts'
import { listed } from '../state/format.ts'
import { accountStepInWords } from './account-step-in-words.ts'
import { fieldEntryInWords, type StepText } from './field-entry-in-words.ts'
import { RECORD_FIELDS, shownValue } from './record-fields.ts'
import { sizeInWords } from './size-in-words.ts'
import { stepChanges } from './step-in-words.ts'

export interface FieldChange {
  readonly label: string
  /** Empty where nothing stood there. */
  readonly from: string
  readonly to: string
}

export interface ToldChange {
  /** "Kept the proposal “East bank”: a bank at pole S-245." */
  readonly headline: string
  readonly fields: readonly FieldChange[]
}

type Told = Pick<HistoryEntry, 'subject' | 'what' | 'version' | 'reason' | 'before' | 'after'>
type Members = Readonly<Record<string, unknown>>

/**
 * What one change did, in plain words. Members that say nothing to a person are left out.
 *
 * @param stepText of field work, what its steps say
 */
export function changeInWords(
  { subject, what, version, reason, before, after }: Told,
  stepText?: StepText,
): ToldChange {
  const then = membersOf(before)
  const now = membersOf(after)
  const name = nameOf(subject, { ...then, ...now })
  if (subject === 'job-entry' && what === 'added') {
    return { headline: fieldEntryInWords(after, stepText), fields: [] }
  }
  switch (what) {
    case 'added':
      return { headline: addedInWords(subject, name, now), fields: [] }
    case 'deleted':
      return { headline: `Deleted ${name}. It can be restored.`, fields: [] }
    case 'restored':
      return { headline: `Restored ${name}.`, fields: fieldChanges(subject, then, now) }
    case 'purged':
      return { headline: purgedInWords(name, reason), fields: [] }
    case 'changed':
      return changedInWords(subject, version, name, then, now)
  }
}

function changedInWords(
  subject: Subject,
  version: number,
  name: string,
  then: Members,
  now: Members,
): ToldChange {
  const fields = fieldChanges(subject, then, now)
  if (subject === 'feeder') {
    return { headline: `Took in version ${version} of ${name}.`, fields }
  }
  if (subject === 'study') return { headline: studyInWords(now), fields: [] }
  if (subject === 'token') return { headline: `Revoked ${name}.`, fields }
  if (subject === 'step-sequence') fields.push(...stepChanges(then.steps, now.steps))
  const moved = subject === 'job' && moveInWords(name, then, now)
  if (moved) return { headline: moved, fields: [] }
  const step = subject === 'person' && accountStepInWords(now.step, name)
  if (step) return { headline: step, fields }
  const headline = fields.length > 0 ? `Changed ${name}.` : `Saved ${name} without a change.`
  return { headline, fields }
}

/** A job that went to another state, with the reason where one was given; empty for any other change. */
function moveInWords(name: string, then: Members, now: Members): string {
  const [from, to, reason] = [text(then.state), text(now.state), text(now.reason)]
  if (from === '' || to === '' || from === to) return ''
  return `Moved ${name} from ${from} to ${to}${reason && `, because: ${reason}`}.`
}

/** Members with a name in the trade that differ between two states of a thing. */
export function fieldChanges(subject: Subject, before: unknown, after: unknown): FieldChange[] {
  const then = membersOf(before)
  const now = membersOf(after)
  return RECORD_FIELDS[subject].flatMap((field) => {
    const from = shownValue(field, then[field.key])
    const to = shownValue(field, now[field.key])
    return from === to ? [] : [{ label: field.label, from, to }]
  })
}

function nameOf(subject: Subject, members: Members): string {
  const name = text(members.name)
  switch (subject) {
    case 'feeder':
      return name ? `the feeder ${name}` : 'the feeder'
    case 'study':
      return 'a siting study'
    case 'proposal':
      return `the proposal “${name}”`
    case 'protection':
      return `the ${text(members.kind) || 'item'} “${text(members.what)}” on pole ${text(members.pole)}`
    case 'nest':
      return `the nest of ${text(members.species)}${onPole(members)}`
    case 'incident':
      return `the find of ${text(members.foundOn)}${onPole(members)}`
    case 'pole-top':
      return `what was chosen for the top of pole ${text(members.pole)}`
    case 'programme':
      return `the programme “${name}”`
    case 'bird-settings':
      return 'what the bird work goes by'
    case 'job':
      return `the job “${text(members.title)}”`
    case 'job-entry':
      return 'an entry of the field'
    case 'as-left':
      return 'what the crew left'
    case 'step-sequence':
      return `the order of steps “${name}”`
    case 'attachment':
      return `the ${kindOfFile(members)} “${text(members.fileName)}”`
    case 'person':
      return name || 'a person'
    case 'token':
      return `the token “${name}”`
  }
}

function addedInWords(subject: Subject, name: string, now: Members): string {
  switch (subject) {
    case 'feeder':
      return `Took in ${name}.`
    case 'study':
      return `Started ${name}.`
    case 'proposal':
      return `Kept ${name}${banksInWords(now)}.`
    case 'protection':
      return `Recorded ${name}: ${itemStateInWords(now)}.`
    case 'nest':
      return `Recorded ${name}.`
    case 'incident':
      return `Recorded ${name}: ${text(now.species)}, ${text(now.cause)}.`
    case 'pole-top':
      return `Recorded ${name}.`
    case 'programme':
      return `Kept ${name}.`
    case 'bird-settings':
      return 'Set what the bird work goes by.'
    case 'job':
      return `Drafted ${name}.`
    case 'job-entry':
    case 'as-left':
      return `Wrote down ${name}.`
    case 'step-sequence':
      return `Set ${name}.`
    case 'attachment':
      return `Attached ${name}${sizeOf(now)}.`
    case 'person':
      return `Added ${name}${rolesOf(now)}.`
    case 'token':
      return `Made ${name}.`
  }
}

function studyInWords(now: Members): string {
  switch (now.state) {
    case 'done': {
      const found = membersOf(now.result).proposals
      return Array.isArray(found)
        ? `The siting study is done, with ${found.length} proposals.`
        : 'The siting study is done.'
    }
    case 'cancelled':
      return 'Cancelled the siting study.'
    case 'failed':
      return 'The siting study came to no result.'
    default:
      return 'The siting study is under way.'
  }
}

function banksInWords(now: Members): string {
  const banks = membersOf(now.proposal).banks
  if (!Array.isArray(banks) || banks.length === 0) return ''
  const poles = banks.map((bank: unknown) => text(membersOf(bank).pole)).filter(Boolean)
  return `: ${poles.length === 1 ? 'a bank at pole' : 'banks at poles'} ${listed(poles)}`
}

function itemStateInWords(now: Members): string {
  const state = fieldChanges('protection', {}, { state: now.state })[0]?.to ?? ''
  const note = text(now.note)
  return `${state} since ${text(now.on)}${note && `, with the note “${note}”`}`
}

function rolesOf(now: Members): string {
  const roles = fieldChanges('person', {}, { roles: now.roles })[0]?.to
  return roles ? ` as ${roles}` : ''
}

function sizeOf(now: Members): string {
  return typeof now.sizeBytes === 'number' ? ` (${sizeInWords(now.sizeBytes)})` : ''
}

function onPole({ pole }: Members): string {
  return text(pole) && ` on pole ${text(pole)}`
}

function purgedInWords(name: string, reason: string | null): string {
  return `Removed ${name} for good${reason === null ? '' : `, because: ${reason}`}.`
}

function kindOfFile(members: Members): string {
  const type = ATTACHMENT_TYPES.find((known) => known === members.mediaType)
  if (!type) return 'file'
  return type === 'application/pdf' ? 'report' : 'photo'
}

/** Members of a thing, with those of the one member that holds most of what it says. */
function membersOf(value: unknown): Members {
  const members = objectOf(value)
  return { ...members, ...objectOf(members.asLeft), ...objectOf(members.sequence) }
}

const objectOf = (value: unknown): Members =>
  typeof value === 'object' && value !== null ? (value as Members) : {}

const text = (value: unknown): string => (typeof value === 'string' ? value : '')
