import { z } from 'zod'
import { FeederParams } from './feeders.ts'
import { jsonAnswer } from './json-answer.ts'
import type { Route } from './route.ts'
import { StudySummary } from './studies.ts'
import {
  StartImportBody,
  StartStudiesBody,
  StudiesStarted,
  Work,
  WorkEvent,
  WorkParams,
  WorkStarted,
} from './work.ts'

/** The layers of a very large feeder, about 100,000 poles. */
const FEEDER_BYTES = 128 * 1024 * 1024

/** Long work beside the single study: several studies at once, and large feeders. */
export const workRoutes = {
  listStudies: {
    method: 'GET',
    path: '/api/feeders/{feederId}/studies',
    tag: 'studies',
    summary: 'List the latest siting studies of a feeder.',
    right: 'see feeders and solve voltages',
    params: FeederParams,
    answer: jsonAnswer(200, z.array(StudySummary), 'At most 50, newest first, without results.'),
    problems: ['not-found'],
  },
  startStudies: {
    method: 'POST',
    path: '/api/studies/many',
    tag: 'studies',
    summary: 'Start one siting study for each of several feeders.',
    right: 'run a siting study',
    body: StartStudiesBody,
    answer: jsonAnswer(202, StudiesStarted, 'The studies, queued, and the work that they are.'),
    problems: ['not-found', 'too-large'],
  },
  cancelStudies: {
    method: 'DELETE',
    path: '/api/studies/many/{workId}',
    tag: 'studies',
    summary: 'Cancel those of several studies that have not ended.',
    right: 'run a siting study',
    params: WorkParams,
    isKeyless: true,
    answer: jsonAnswer(200, Work, 'The work, cancelled.'),
    problems: ['not-found', 'wrong-state'],
  },
  startImport: {
    method: 'POST',
    path: '/api/imports',
    tag: 'feeders',
    summary: 'Take in the layers of a large feeder in the background.',
    right: 'take in a feeder',
    body: StartImportBody,
    mostBodyBytes: FEEDER_BYTES,
    answer: jsonAnswer(202, WorkStarted, 'Queued or running.'),
    problems: ['too-large'],
  },
  cancelImport: {
    method: 'DELETE',
    path: '/api/imports/{workId}',
    tag: 'feeders',
    summary: 'Leave off taking in a feeder.',
    right: 'take in a feeder',
    params: WorkParams,
    isKeyless: true,
    answer: jsonAnswer(200, Work, 'The work, cancelled; nothing of the feeder was taken in.'),
    problems: ['not-found', 'wrong-state'],
  },
  getWork: {
    method: 'GET',
    path: '/api/long-work/{workId}',
    tag: 'work',
    summary: 'Give the state of long work, with its result once done.',
    right: 'see who changed what',
    params: WorkParams,
    answer: jsonAnswer(200, Work, 'The work.'),
    problems: ['not-found'],
  },
  followWork: {
    method: 'GET',
    path: '/api/long-work/{workId}/events',
    tag: 'work',
    summary: 'Follow long work: its present state first, then progress, then how it ended.',
    right: 'see who changed what',
    params: WorkParams,
    answer: {
      status: 200,
      schema: WorkEvent,
      what: 'Server-sent events; `data` of each is JSON.',
      mediaType: 'text/event-stream',
    },
    problems: ['not-found'],
  },
} as const satisfies Record<string, Route>
