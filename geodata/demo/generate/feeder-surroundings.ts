import type { FeederDraft } from './feeder-draft.ts'

/** What lies about a feeder and matters to those who work on it. */
export type FeederSurroundings = Pick<
  FeederDraft,
  'nests' | 'habitat' | 'incidents' | 'protections' | 'access' | 'keepOuts'
>
