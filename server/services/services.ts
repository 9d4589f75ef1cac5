import type { Actor } from '#contract/actor.ts'
import type { TakeInBody } from '#contract/feeders.ts'
import type { VoltageBody } from '#contract/voltage.ts'
import { attachmentService } from './attachments.ts'
import { birdFileService } from './bird-files.ts'
import { birdSettingsService } from './bird-settings.ts'
import { ChangeFeed } from './change-feed.ts'
import { feederService } from './feeders.ts'
import { historyService } from './history.ts'
import { incidentService } from './incidents.ts'
import { jobService } from './jobs.ts'
import { getLand } from './land.ts'
import { longWorkService } from './long-work.ts'
import { nestService } from './nests.ts'
import { poleTopService } from './pole-tops.ts'
import type { Ports } from './ports.ts'
import { programmeService } from './programmes.ts'
import { proposalService } from './proposals.ts'
import { protectionService } from './protections.ts'
import { repeatableWrites } from './repeatable-writes.ts'
import { reportService } from './reports.ts'
import { solveVoltage } from './solve-voltage.ts'
import { stepSequenceService } from './step-sequences.ts'
import { studyService } from './studies.ts'
import { takeInLayers } from './take-in-layers.ts'

export type Services = ReturnType<typeof createServices>

/** Every use case, bound to its ports. */
export function createServices(ports: Ports) {
  return {
    attachments: attachmentService(ports),
    changes: new ChangeFeed(ports),
    feeders: feederService(ports),
    history: historyService(ports),
    birdFiles: birdFileService(ports),
    birdSettings: birdSettingsService(ports),
    incidents: incidentService(ports),
    jobs: jobService(ports),
    stepSequences: stepSequenceService(ports),
    nests: nestService(ports),
    poleTops: poleTopService(ports),
    programmes: programmeService(ports),
    proposals: proposalService(ports),
    protections: protectionService(ports),
    repeatable: repeatableWrites(ports),
    studies: studyService(ports),
    longWork: longWorkService(ports),
    reports: reportService(ports),
    takeInLayers: (actor: Actor, body: TakeInBody) => takeInLayers(ports, actor, body),
    solveVoltage: (feederId: string, body: VoltageBody) => solveVoltage(ports, feederId, body),
    getLand: (placeId: string) => getLand(ports, placeId),
  }
}
