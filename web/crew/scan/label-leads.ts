import type { SearchedFeeder } from '../crew-search.ts'
import type { LabelMeaning } from './label-text.ts'

type FeederName = SearchedFeeder['header']

/** What comes of a label on this device. */
export type LabelLeads =
  | { readonly to: 'job'; readonly jobId: string; readonly feederId: string | null }
  | { readonly to: 'pole'; readonly poleId: string; readonly feederId: string }
  /** More than one feeder has a pole of that id, and the label names none. */
  | { readonly to: 'choice'; readonly poleId: string; readonly among: readonly FeederName[] }
  | { readonly to: 'nothing'; readonly words: string }

/**
 * @param feeders whose poles are known on this device
 * @param listed feeders that can be opened
 */
export function labelLeads(
  meant: LabelMeaning,
  feeders: readonly SearchedFeeder[],
  listed: readonly { readonly id: string }[],
): LabelLeads {
  if (meant.kind === 'other') return { to: 'nothing', words: meant.words }
  const { feederId } = meant
  const names = feeders.map(({ header }) => header)
  if (feederId !== null && ![...listed, ...names].some(({ id }) => id === feederId)) {
    return { to: 'nothing', words: `The label is of feeder ${feederId}, which is not here.` }
  }
  if (meant.kind === 'job') return { to: 'job', jobId: meant.jobId, feederId }
  const { poleId } = meant
  if (feederId !== null) return { to: 'pole', poleId, feederId }
  const having = feeders
    .filter(({ poles }) => poles.some(({ id }) => id === poleId))
    .map(({ header }) => header)
  const [only] = having
  if (!only) {
    const words = `The label says ${poleId}. No feeder that this device knows has such a pole.`
    return { to: 'nothing', words }
  }
  return having.length > 1
    ? { to: 'choice', poleId, among: having }
    : { to: 'pole', poleId, feederId: only.id }
}
