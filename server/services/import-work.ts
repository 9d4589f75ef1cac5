import type { Clock, Store } from './ports.ts'
import { refusedWords } from './take-in-layers.ts'
import type { RunWork, Threads } from './work-ports.ts'

interface ImportPorts {
  readonly store: Pick<Store, 'feeders'>
  readonly threads: Pick<Threads, 'readLayers'>
  readonly clock: Clock
}

/** Layers become a new version of their feeder in the transaction that ends the work. */
export function runImport({ store, threads, clock }: ImportPorts): RunWork {
  return async ({ material, startedBy }, follow) => {
    const { feeder, findings } = await threads.readLayers(material ?? '{}', follow)
    if (!feeder) {
      const detail = refusedWords(findings)
      return {
        state: 'failed',
        problem: { code: 'feeder-refused', detail, findings: [...findings] },
      }
    }
    follow.tell(0, 0, 'Keeping the feeder')
    const keep = async () => {
      const stamp = { actor: startedBy, at: clock() }
      const version = await store.feeders.add(feeder, 'added', stamp)
      return { id: feeder.header.id, version, findings }
    }
    return { state: 'done', keep }
  }
}
