import { prometheus } from '@hono/prometheus'
import type { MiddlewareHandler } from 'hono'
import { Counter, collectDefaultMetrics, Gauge, Registry } from 'prom-client'

/** Where the figures come from that no request tells. */
export interface MeasureSource {
  /** Transactions since the start. */
  databaseWrites(): { readonly kept: number; readonly undone: number }
  /** Items of work that the database knows, by state. */
  workByState(): Promise<Readonly<Record<string, number>>>
  /** Event streams of changes that are open on this process. */
  followers(): number
}

export interface Measures {
  /** Counts and times every request by row of the route table and status. */
  readonly register: MiddlewareHandler
  /** All figures as they stand, and the media type of the text. */
  read(): Promise<{ readonly mediaType: string; readonly content: string }>
}

/** Processor, memory and event loop belong to the process, however many servers run in it. */
let processRegistry: Registry | null = null

export function openMeasures(source: MeasureSource): Measures {
  const registry = new Registry()
  addWrites(registry, source)
  addWork(registry, source)
  addFollowers(registry, source)
  const { registerMetrics } = prometheus({ registry, prefix: 'crossarm_' })
  return {
    register: registerMetrics,
    read: async () => {
      const merged = Registry.merge([measuresOfProcess(), registry])
      return { mediaType: merged.contentType, content: await merged.metrics() }
    },
  }
}

function measuresOfProcess(): Registry {
  if (processRegistry === null) {
    processRegistry = new Registry()
    collectDefaultMetrics({ register: processRegistry })
  }
  return processRegistry
}

function addWrites(registry: Registry, source: MeasureSource): void {
  const counter = new Counter({
    name: 'crossarm_database_writes_total',
    help: 'Transactions by how they ended',
    labelNames: ['end'],
    registers: [registry],
    collect() {
      const { kept, undone } = source.databaseWrites()
      this.reset()
      this.inc({ end: 'kept' }, kept)
      this.inc({ end: 'undone' }, undone)
    },
  })
  counter.reset()
}

function addWork(registry: Registry, source: MeasureSource): void {
  const gauge = new Gauge({
    name: 'crossarm_work_items',
    help: 'Items of background work by state',
    labelNames: ['state'],
    registers: [registry],
    async collect() {
      const states = await source.workByState()
      this.reset()
      for (const [state, count] of Object.entries(states)) this.set({ state }, count)
    },
  })
  gauge.reset()
}

function addFollowers(registry: Registry, source: MeasureSource): void {
  const gauge = new Gauge({
    name: 'crossarm_live_followers',
    help: 'Open streams of changes',
    registers: [registry],
    collect() {
      this.set(source.followers())
    },
  })
  gauge.set(0)
}
