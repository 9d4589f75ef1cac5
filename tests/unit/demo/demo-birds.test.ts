import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { assessFeeder } from '../../../server/domain/avian/assessment/assess-feeder.ts'
import { isInspectionOverdue } from '../../../server/domain/avian/assessment/inspection-due.ts'
import { readFeederFolder } from '../../../server/layer-files/feeder-folder.ts'

async function demoFeeder(name: string): Promise<Feeder> {
  const folder = fileURLToPath(new URL(`../../../geodata/demo/${name}`, import.meta.url))
  const { feeder } = await readFeederFolder(folder)
  if (!feeder) throw new Error(`Expected ${name} to be read.`)
  return feeder
}

const skillet = await demoFeeder('skillet')
const { protections } = skillet

describe('the bird record of the demo', () => {
  const withItems = new Set(protections.map(({ pole }) => pole))
  const poles = skillet.poles.filter(({ id }) => withItems.has(id))
  const assessed = assessFeeder({ ...skillet, poles }, { choices: [], protections })
  const count = (state: string) => assessed.filter((pole) => pole.state === state).length

  it('has poles that are covered, partly done and failed, by what the drawing says', () => {
    expect(count('covered')).toBeGreaterThan(5)
    expect(count('partly done')).toBeGreaterThan(20)
    expect(count('failed')).toBeGreaterThan(3)
    expect(count('unknown')).toBe(0)
  })

  it('names no cover that the drawing cannot place', () => {
    expect(assessed.flatMap(({ notes }) => notes).filter((note) => note.includes('names'))).toEqual(
      [],
    )
  })

  it('has inspections that are late on the day that its record ends, and most that are not', () => {
    const up = protections.filter(({ state }) => state === 'on')
    const late = up.filter((item) => isInspectionOverdue(item, '2026-10-31'))
    expect(late.length).toBeGreaterThan(10)
    expect(late.length).toBeLessThan(up.length / 2)
  })

  it('has one find whose repair is late', () => {
    const late = skillet.incidents.filter(
      ({ fixDueOn, fixedOn }) => fixDueOn !== undefined && fixDueOn < '2026-10-31' && !fixedOn,
    )
    expect(late.map(({ species }) => species)).toEqual(['golden eagle'])
  })

  it('has records of few poles that are tighter to ground than their drawing', () => {
    const bare = skillet.poles.filter(({ framing }) =>
      /^tangent, flat 8 ft arm$/.test(framing ?? ''),
    )
    const notes = assessFeeder({ ...skillet, poles: bare }, { choices: [], protections: [] })
      .flatMap(({ notes: own }) => own)
      .filter((note) => note.startsWith('The record has'))
    expect(notes.length).toBeGreaterThan(0)
    expect(notes.length).toBeLessThan(bare.length / 10)
  })
})
