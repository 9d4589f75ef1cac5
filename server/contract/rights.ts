import type { Actor, Role } from './actor.ts'

const ALL: readonly Role[] = [
  'planner',
  'coordinator',
  'crew',
  'supervisor',
  'reader',
  'administrator',
]
const ALL_BUT_READER: readonly Role[] = ALL.filter((role) => role !== 'reader')

/**
 * The one table of who may read or change what. The key completes "may …". Every route names the
 * right that it takes, and the server asks this table before each; screens ask it only to leave out
 * what would be refused.
 */
export const RIGHTS = {
  'see feeders and solve voltages': ALL,
  'see nests and incidents': ALL_BUT_READER,
  'see who changed what': ALL_BUT_READER,
  'take the history out': ['supervisor', 'administrator'],
  'make a report of the history': ['supervisor', 'administrator'],
  'take in a feeder': ['planner', 'coordinator'],
  'run a siting study': ['planner', 'supervisor'],
  'keep or change a proposal': ['planner', 'supervisor'],
  'delete or restore a proposal': ['planner', 'supervisor'],
  'record or change a guard, cover or perch': ['coordinator', 'crew', 'supervisor'],
  'delete or restore a guard, cover or perch': ['coordinator', 'supervisor'],
  'choose or measure a pole top': ['coordinator', 'crew', 'supervisor'],
  'record or change a nest': ['coordinator', 'supervisor'],
  'record or change a find': ['coordinator', 'crew', 'supervisor'],
  'delete or restore a nest or a find': ['coordinator', 'supervisor'],
  'keep or change a programme': ['coordinator', 'supervisor'],
  'delete or restore a programme': ['coordinator', 'supervisor'],
  'set what bird work goes by': ['coordinator', 'supervisor'],
  'take the bird record out': ['coordinator', 'supervisor'],
  'see jobs': ALL_BUT_READER,
  'draft or change a job': ['planner', 'coordinator', 'supervisor'],
  // Which move each role may make stands in job-moves.ts.
  'move a job': ['planner', 'coordinator', 'crew', 'supervisor'],
  'work a job in the field': ['crew', 'supervisor'],
  'delete or restore a job': ['planner', 'coordinator', 'supervisor'],
  'set the order of steps': ['supervisor'],
  'attach a file': ['planner', 'coordinator', 'crew', 'supervisor'],
  'delete or restore a file': ['planner', 'coordinator', 'supervisor'],
  'purge what was deleted': ['administrator'],
  'manage people and tokens': ['administrator'],
  'read the measures of the server': ['administrator'],
  'use an account of one’s own': ALL,
} as const satisfies Record<string, readonly Role[]>

export type Right = keyof typeof RIGHTS
export const RIGHT_NAMES = Object.keys(RIGHTS) as [Right, ...Right[]]

/** Who asks: an actor, and for a machine the rights that its token is limited to. */
export interface Asker extends Actor {
  readonly only?: readonly Right[]
}

export function mayDo({ role, only }: Pick<Asker, 'role' | 'only'>, right: Right): boolean {
  const roles: readonly Role[] = RIGHTS[right]
  return roles.includes(role) && (only === undefined || only.includes(right))
}

export function rightsOf(asker: Pick<Asker, 'role' | 'only'>): Right[] {
  return RIGHT_NAMES.filter((right) => mayDo(asker, right))
}
