import { Id } from '#domain/feeder/identifiers.ts'
import { crewViewOf } from '../crew-view.ts'

/** What the text of a label means to the crew. */
export type LabelMeaning =
  | { readonly kind: 'job'; readonly jobId: string; readonly feederId: string | null }
  | { readonly kind: 'pole'; readonly poleId: string; readonly feederId: string | null }
  | { readonly kind: 'other'; readonly words: string }

/**
 * Reads a scanned text: a link of this program, of whatever address it was printed with, or a bare
 * pole id. Only what the link names is taken from it; nothing is ever opened at its address.
 */
export function readLabel(text: string): LabelMeaning {
  const tidy = text.trim()
  if (Id.safeParse(tidy).success) return { kind: 'pole', poleId: tidy, feederId: null }
  const link = linkOf(tidy)
  if (!link) return { kind: 'other', words: `The label says “${shortened(tidy)}”.` }
  const feederId = idOf(link.searchParams.get('feeder'))
  const poleId = idOf(link.searchParams.get('pole'))
  const view = crewViewOf(link.searchParams.get('view'))
  if ('jobId' in view && idOf(view.jobId) !== null) {
    return { kind: 'job', jobId: view.jobId, feederId }
  }
  if (poleId !== null) return { kind: 'pole', poleId, feederId }
  return { kind: 'other', words: `The label leads to ${link.host}, and names no pole and no job.` }
}

function linkOf(text: string): URL | null {
  if (!/^https?:\/\//i.test(text)) return null
  try {
    return new URL(text)
  } catch {
    return null
  }
}

function idOf(text: string | null): string | null {
  return Id.safeParse(text).data ?? null
}

const MOST_SHOWN = 80
function shortened(text: string): string {
  return text.length > MOST_SHOWN ? `${text.slice(0, MOST_SHOWN)}…` : text
}
