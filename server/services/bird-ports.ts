import type { BirdSettingsRecord } from '#contract/bird-settings.ts'
import type { IncidentBody, IncidentRecord } from '#contract/incidents.ts'
import type { NestBody, NestRecord } from '#contract/nests.ts'
import type { PoleTopRecord } from '#contract/pole-tops.ts'
import type {
  ChangeProgrammeBody,
  KeepProgrammeBody,
  ProgrammeRecord,
} from '#contract/programmes.ts'
import type { BirdSettings } from '#domain/avian/bird-settings.ts'
import type { PoleTopChoice } from '#domain/avian/pole-top/pole-top-choice.ts'
import type { Purgeable, Stamp, Written } from './ports.ts'

export type { BirdSettings } from '#domain/avian/bird-settings.ts'
export type { PoleTopChoice } from '#domain/avian/pole-top/pole-top-choice.ts'
export type {
  BirdSettingsRecord,
  IncidentBody,
  IncidentRecord,
  NestBody,
  NestRecord,
  PoleTopRecord,
  ProgrammeRecord,
}

/** What a person fills in of a programme. */
export type ProgrammeBody = KeepProgrammeBody
export type ProgrammeName = Omit<ChangeProgrammeBody, 'version'>

/** `version` is the one that the person saw. */
interface Deletable<Kept> extends Purgeable {
  delete(feederId: string, id: string, version: number, stamp: Stamp): Promise<Written<Kept>>
  restore(feederId: string, id: string, version: number, stamp: Stamp): Promise<Written<Kept>>
}

/** A kind of record of a feeder, with what is given of it at first and at each change. */
export interface FeederRecordStore<Kept, Body, ChangeBody = Body> extends Deletable<Kept> {
  /** Those not deleted. */
  list(feederId: string): Promise<Kept[]>
  add(feederId: string, id: string, body: Body, stamp: Stamp): Promise<Kept>
  change(
    feederId: string,
    id: string,
    version: number,
    body: ChangeBody,
    stamp: Stamp,
  ): Promise<Written<Kept>>
}

/** By id. */
export type NestStore = FeederRecordStore<NestRecord, NestBody>
/** Newest find first. */
export type IncidentStore = FeederRecordStore<IncidentRecord, IncidentBody>
/** Changed last first. */
export type ProgrammeStore = FeederRecordStore<ProgrammeRecord, ProgrammeBody, ProgrammeName>

export interface PoleTopStore extends Deletable<PoleTopRecord> {
  /** Those not deleted, by pole. */
  list(feederId: string): Promise<PoleTopRecord[]>
  /** Version 0 says that the person saw none, or a deleted one. */
  choose(
    feederId: string,
    version: number,
    choice: PoleTopChoice,
    stamp: Stamp,
  ): Promise<Written<PoleTopRecord>>
}

export interface BirdSettingsStore {
  /** Version 0 where nothing was set yet. */
  get(): Promise<BirdSettingsRecord>
  change(
    version: number,
    settings: BirdSettings,
    stamp: Stamp,
  ): Promise<Written<BirdSettingsRecord>>
}

/** What is kept about birds. */
export interface BirdStores {
  readonly nests: NestStore
  readonly incidents: IncidentStore
  readonly poleTops: PoleTopStore
  readonly programmes: ProgrammeStore
  readonly birdSettings: BirdSettingsStore
}
