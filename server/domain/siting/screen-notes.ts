import type { Feeder } from '#domain/feeder/feeder.ts'

/** What was not recorded and so ruled nothing out. */
export function screenNotes(feeder: Feeder, isPlaced: boolean): string[] {
  if (!isPlaced) {
    return ['Positions are a scheme, so roads, land, nests and line angles ruled nothing out.']
  }
  const notes: string[] = []
  const real = feeder.poles.filter((pole) => !pole.isAnonymousNode)
  const lacking = (what: string, count: number) => {
    if (count > 0)
      notes.push(
        `${count} of ${feeder.poles.length} poles have no ${what} recorded; that ruled none of them out.`,
      )
  }
  if (!feeder.access.some((way) => way.kind !== 'gate')) {
    notes.push('No roads or tracks are recorded, so distance to access ruled nothing out.')
  }
  notes.push(
    feeder.nests.length === 0
      ? 'No nests are recorded, so nest seasons ruled nothing out.'
      : 'Nest buffers and seasons are advisory: the wildlife agency and the permit decide.',
  )
  lacking('length', real.filter((pole) => pole.heightM === undefined).length)
  lacking('class', real.filter((pole) => pole.poleClass === undefined).length)
  if (real.length < feeder.poles.length) {
    notes.push(`${feeder.poles.length - real.length} points stand for no known pole.`)
  }
  return notes
}
