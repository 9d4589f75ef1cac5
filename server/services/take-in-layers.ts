import type { Actor } from '#contract/actor.ts'
import type { TakeInBody, TakenIn } from '#contract/feeders.ts'
import type { Finding } from '#domain/feeder/finding.ts'
import type { Ports } from './ports.ts'
import { Refusal } from './refusal.ts'

/**
 * Reads and checks layers, and gives what keeps them as a new version of their feeder: only that
 * needs the turn of writing.
 *
 * @throws Refusal `feeder-refused` with all findings where one of them is an error.
 */
export function takeInLayers(
  { store, readLayers, clock }: Pick<Ports, 'store' | 'readLayers' | 'clock'>,
  actor: Actor,
  { layers }: TakeInBody,
): () => Promise<TakenIn> {
  const { feeder, findings } = readLayers(layers)
  if (!feeder) throw refused(findings)
  return async () => {
    const version = await store.feeders.add(feeder, 'added', { actor, at: clock() })
    return { id: feeder.header.id, version, findings: [...findings] }
  }
}

function refused(findings: readonly Finding[]): Refusal {
  return new Refusal('feeder-refused', refusedWords(findings), { findings })
}

export function refusedWords(findings: readonly Finding[]): string {
  const errors = findings.filter(({ severity }) => severity === 'error').length
  const count = errors === 1 ? 'one error' : `${errors} errors`
  return `The layers hold ${count}, so the feeder was not taken in. Each finding says what to do.`
}
