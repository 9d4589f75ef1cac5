import type { Step } from '#domain/jobs/step-sequence.ts'

export type ListOfJob = 'settings' | 'rating' | 'measures'

/** Words by which a step speaks of a list; orders that a utility wrote have no other mark of it. */
const SPEAKS_OF: Readonly<Record<ListOfJob, RegExp>> = {
  settings: /\b(every setting|the settings|settings (of|read back))\b/i,
  rating: /\bcompare the nameplates?\b/i,
  measures: /\blists?\b|\bcovers? of\b|\bbird (covers?|guards?|work)\b/i,
}

/** Which lists of the job a step asks to go by. */
export function listsOfStep({ text, asks }: Pick<Step, 'text' | 'asks'>): ListOfJob[] {
  const said = [text, ...asks.map(({ what }) => what)].join('\n')
  return (Object.keys(SPEAKS_OF) as ListOfJob[]).filter((list) => SPEAKS_OF[list].test(said))
}
