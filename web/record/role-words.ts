import type { Role } from '#contract/actor.ts'
import type { Subject } from '#contract/history.ts'

/** A role as people say it. */
export const ROLE_WORDS: Readonly<Record<Role, string>> = {
  planner: 'planner',
  coordinator: 'bird coordinator',
  crew: 'crew',
  supervisor: 'supervisor',
  reader: 'reader',
  administrator: 'administrator',
}

/** A thing of the record as people say it. */
export const SUBJECT_WORDS: Readonly<Record<Subject, string>> = {
  feeder: 'feeder',
  study: 'siting study',
  proposal: 'proposal',
  protection: 'guard, cover or perch',
  nest: 'nest',
  incident: 'find',
  'pole-top': 'pole top',
  programme: 'programme',
  'bird-settings': 'settings of the bird work',
  job: 'job',
  'job-entry': 'entry of the field',
  'as-left': 'what a crew left',
  'step-sequence': 'order of steps',
  attachment: 'photo or report',
  person: 'person',
  token: 'token',
}
