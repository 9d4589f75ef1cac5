import type { Actor } from '#contract/actor.ts'
import type { FeederSummary, Origin } from '#contract/feeders.ts'
import type { LandCollection } from '#contract/geojson.ts'
import type { DeletedItem, HistoryEntry, Subject } from '#contract/history.ts'
import type { SavedProposal } from '#contract/proposals.ts'
import type { ProtectionBody, ProtectionRecord } from '#contract/protections.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { Finding } from '#domain/feeder/finding.ts'
import type { AttachmentStore } from './attachment-ports.ts'
import type { BirdStores } from './bird-ports.ts'
import type { JobStores } from './job-ports.ts'
import type { ReportFiles } from './report-ports.ts'
import type { RequestKeyStore } from './request-key-ports.ts'
import type { Threads, WorkQueue, WorkStore } from './work-ports.ts'

export type { Actor } from '#contract/actor.ts'
export type { FeederSummary, Origin } from '#contract/feeders.ts'
export type { LandCollection } from '#contract/geojson.ts'
export type { DeletedItem, HistoryEntry, Subject } from '#contract/history.ts'
export type { SavedProposal } from '#contract/proposals.ts'
export type { ProtectionBody, ProtectionRecord } from '#contract/protections.ts'

/** Present moment as ISO 8601 in UTC. */
export type Clock = () => string
export type NewId = () => string

/** Who did something, and when. */
export interface Stamp {
  readonly actor: Actor
  readonly at: string
  /** Time on the device, for what was entered without connection. */
  readonly deviceAt?: string
}

/** How a change of a record went; `current` is the record as it stands. */
export type Written<Kept> =
  | { readonly status: 'written'; readonly record: Kept }
  | { readonly status: 'missing' }
  | { readonly status: 'stale'; readonly current: Kept }
  | { readonly status: 'wrong-state'; readonly current: Kept }

export interface StoredFeeder {
  readonly feeder: Feeder
  readonly version: number
  readonly origin: Origin
}

export interface FeederStore {
  count(): Promise<number>
  /** Newest version of each, by name. */
  list(): Promise<FeederSummary[]>
  /** The newest version when none is named. */
  find(feederId: string, version?: number): Promise<StoredFeeder | null>
  /**
   * Keeps the feeder as a new version and returns its number. Items, nests and finds that
   * the record does not know yet are added to it; those it knows stay as they are.
   */
  add(feeder: Feeder, origin: Origin, stamp: Stamp): Promise<number>
}

export interface LandStore {
  find(placeId: string): Promise<Record<string, LandCollection> | null>
  /** Replaces all layers of the place. */
  keep(placeId: string, layers: Readonly<Record<string, LandCollection>>): Promise<void>
}

/** What can be done to any kind of record that is deleted at first only in name. */
export interface Purgeable {
  listDeleted(feederId: string): Promise<DeletedItem[]>
  /** Takes a deleted record out for good; the history keeps that, why, and what was before. */
  purge(
    feederId: string,
    id: string,
    version: number,
    reason: string,
    stamp: Stamp,
  ): Promise<Written<unknown>>
}

/** `version` is the one that the person saw. */
export interface ProposalStore extends Purgeable {
  /** Those not deleted, newest first. */
  list(feederId: string): Promise<SavedProposal[]>
  /** Deleted ones too. */
  find(proposalId: string): Promise<SavedProposal | null>
  /** As its first version. */
  add(proposal: SavedProposal, stamp: Stamp): Promise<SavedProposal>
  change(
    proposalId: string,
    version: number,
    body: Pick<SavedProposal, 'name' | 'note'>,
    stamp: Stamp,
  ): Promise<Written<SavedProposal>>
  delete(proposalId: string, version: number, stamp: Stamp): Promise<Written<SavedProposal>>
  restore(proposalId: string, version: number, stamp: Stamp): Promise<Written<SavedProposal>>
}

/** `version` is the one that the person saw. */
export interface ProtectionStore extends Purgeable {
  /** Those not deleted, by pole and id. */
  list(feederId: string): Promise<ProtectionRecord[]>
  add(feederId: string, id: string, body: ProtectionBody, stamp: Stamp): Promise<ProtectionRecord>
  change(
    feederId: string,
    id: string,
    version: number,
    body: ProtectionBody,
    stamp: Stamp,
  ): Promise<Written<ProtectionRecord>>
  delete(
    feederId: string,
    id: string,
    version: number,
    stamp: Stamp,
  ): Promise<Written<ProtectionRecord>>
  restore(
    feederId: string,
    id: string,
    version: number,
    stamp: Stamp,
  ): Promise<Written<ProtectionRecord>>
}

export interface HistoryFilter {
  readonly subject?: Subject
  readonly feederId?: string
  /** Moments as ISO 8601 in UTC: from the one on, and before the other. */
  readonly from?: string
  readonly before?: string
}

/** Entries in the order in which they were written. */
export interface HistoryStore {
  /** All changes of one thing; of things with that id on any feeder where none is named. */
  of(subject: Subject, subjectId: string, feederId?: string): Promise<HistoryEntry[]>
  /** At most so many entries after the one of that number. */
  after(seq: number, most: number): Promise<HistoryEntry[]>
  /** Hash of the newest entry about the feeder or anything on it; empty where there is none. */
  newestHashOf(feederId: string): Promise<string>
  /** Number of the newest entry, 0 where there is none. */
  newestSeq(): Promise<number>
  count(filter: HistoryFilter): Promise<number>
  /** Read page by page while it is gone through. */
  all(filter?: HistoryFilter): AsyncIterable<HistoryEntry>
}

export interface Store extends BirdStores, JobStores {
  readonly attachments: AttachmentStore
  readonly requestKeys: RequestKeyStore
  /** All that is written by the work is kept together, or nothing of it; others wait to write. */
  together<Result>(work: () => Promise<Result>): Promise<Result>
  /**
   * Calls after changes of anything by any process, not once for each: what changed stands in the
   * history. Gives how to stop.
   */
  onChange(heard: () => void): () => void
  readonly history: HistoryStore
  readonly feeders: FeederStore
  readonly land: LandStore
  readonly proposals: ProposalStore
  readonly protections: ProtectionStore
  readonly work: WorkStore
  readonly reports: ReportFiles
}

export interface LayerReading {
  readonly feeder: Feeder | null
  readonly findings: readonly Finding[]
}

/** Makes a feeder of layer files by name, each with its parsed JSON content. */
export type ReadLayers = (layers: Readonly<Record<string, unknown>>) => LayerReading

/** Feeder folders and base maps that come with the program. */
export interface ShippedData {
  readonly feeders: readonly ShippedFeeder[]
  readonly lands: readonly ShippedLand[]
}

export interface ShippedFeeder {
  readonly id: string
  readonly origin: Origin
  readonly read: () => Promise<LayerReading>
}

export interface ShippedLand {
  readonly placeId: string
  readonly read: () => Promise<Record<string, LandCollection>>
}

export interface Ports {
  readonly store: Store
  /** Takes note of a fault of the program that nobody can be told about directly. */
  readonly reportFault: (fault: unknown) => void
  readonly readLayers: ReadLayers
  readonly work: WorkQueue
  readonly threads: Threads
  readonly clock: Clock
  readonly newId: NewId
}
