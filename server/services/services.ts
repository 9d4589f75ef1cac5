import type { Actor } from '#contract/actor.ts'
import type { TakeInBody } from '#contract/feeders.ts'
import type { VoltageBody } from '#contract/voltage.ts'
import { feederService } from './feeders.ts'
import { historyService } from './history.ts'
import { getLand } from './land.ts'
import type { Ports } from './ports.ts'
import { proposalService } from './proposals.ts'
import { protectionService } from './protections.ts'
import { solveVoltage } from './solve-voltage.ts'
import { StudyService } from './studies.ts'
import { takeInLayers } from './take-in-layers.ts'

export type Services = ReturnType<typeof createServices>

/** Every use case, bound to its ports. */
export function createServices(ports: Ports) {
  return {
    feeders: feederService(ports),
    history: historyService(ports),
    proposals: proposalService(ports),
    protections: protectionService(ports),
    studies: new StudyService(ports),
    countFeeders: () => ports.store.feeders.count(),
    takeInLayers: (actor: Actor, body: TakeInBody) => takeInLayers(ports, actor, body),
    solveVoltage: (actor: Actor, feederId: string, body: VoltageBody) =>
      solveVoltage(ports, actor, feederId, body),
    getLand: (actor: Actor, placeId: string) => getLand(ports, actor, placeId),
  }
}
