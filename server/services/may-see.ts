import { type Asker, mayDo, type Right } from '#contract/rights.ts'
import type { Attachment } from './attachment-ports.ts'
import type { HistoryEntry, Subject } from './ports.ts'

const ALL = 'see feeders and solve voltages'
const BIRDS = 'see nests and incidents'
const JOBS = 'see jobs'
const PEOPLE = 'manage people and tokens'

/** With which right a kind of thing is seen: lists, live changes, history and what was deleted all ask here. */
const SEEN_WITH: Readonly<Record<Subject, Right>> = {
  feeder: ALL,
  study: ALL,
  proposal: ALL,
  protection: ALL,
  nest: BIRDS,
  incident: BIRDS,
  'pole-top': ALL,
  // It says which poles wait for which nest.
  programme: BIRDS,
  'bird-settings': ALL,
  // Its hazards may say where birds nest.
  job: JOBS,
  'job-entry': JOBS,
  'as-left': JOBS,
  'step-sequence': JOBS,
  attachment: ALL,
  person: PEOPLE,
  token: PEOPLE,
}

/** Files on a nest or a find tell where it is, as it does itself. */
const HOLDERS_SEEN_WITH: Readonly<Record<Attachment['attachedTo'], Right>> = {
  pole: ALL,
  proposal: ALL,
  protection: ALL,
  nest: BIRDS,
  incident: BIRDS,
  job: JOBS,
}

export function maySeeSubject(asker: Asker, subject: Subject): boolean {
  return mayDo(asker, SEEN_WITH[subject])
}

export function maySeeAttachedTo(asker: Asker, holder: Attachment['attachedTo']): boolean {
  return mayDo(asker, HOLDERS_SEEN_WITH[holder])
}

/** With which right a change is seen. */
export function rightToSee({
  subject,
  before,
  after,
}: Pick<HistoryEntry, 'subject' | 'before' | 'after'>): Right {
  if (subject !== 'attachment') return SEEN_WITH[subject]
  const { attachedTo } = (after ?? before ?? {}) as Partial<Attachment>
  return attachedTo === undefined ? ALL : HOLDERS_SEEN_WITH[attachedTo]
}
