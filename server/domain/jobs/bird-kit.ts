import { inchesOfMetres } from '#domain/units/length.ts'
import { inspectionDue } from '../avian/assessment/inspection-due.ts'
import { dayInWords } from '../avian/nests/calendar-days.ts'
import type { Protection } from '../feeder/birds.ts'
import type { DraftScene } from './draft-scene.ts'
import type { KitLine, PoleWork } from './job-plan.ts'

type Measure = PoleWork['measures'][number]

/** Covers and perches of the chosen measures; on an inspection, what hangs there and is to be looked at. */
export function birdKit(scene: DraftScene, { pole, measures }: PoleWork): KitLine[] {
  return [
    ...measures.map((measure) => measureLine(scene, pole, measure)),
    ...(scene.kind === 'inspection' ? itemsToLookAt(scene, pole) : []),
  ]
}

function measureLine(
  { tops }: DraftScene,
  pole: string,
  { dimensionM, kind, partIds }: Measure,
): KitLine {
  const labels = new Map(tops.get(pole)?.parts.map(({ id, label }) => [id, label]))
  const isOne = dimensionM !== undefined || partIds.length === 0
  const note = isOne
    ? dimensionM === undefined
      ? ''
      : `new dimension ${inchesOfMetres(dimensionM).toFixed(0)} in (${dimensionM.toFixed(2)} m)`
    : `on ${fitting(partIds.map((id) => labels.get(id) ?? id))}`
  return {
    for: 'birds',
    what: kind,
    count: isOne ? 1 : partIds.length,
    pole,
    ...(note !== '' && { note }),
  }
}

/** So that a note with "and 12 more" behind it stays within what a line of the kit holds. */
const MOST_NOTE_LETTERS = 360

/** As many as there is room for, and how many more there are. */
function fitting(labels: readonly string[]): string {
  let words = ''
  for (const [index, label] of labels.entries()) {
    const next = words === '' ? label : `${words}, ${label}`
    if (next.length > MOST_NOTE_LETTERS) return `${words} and ${labels.length - index} more`
    words = next
  }
  return words
}

/** Those whose look is due longest come first, those without an interval last. */
function itemsToLookAt(scene: DraftScene, pole: string): KitLine[] {
  const dueOf = (item: Protection) => inspectionDue(item, scene.birdSettings)?.dueOn
  return scene.feeder.protections
    .filter((item) => item.pole === pole && item.state === 'on')
    .toSorted((a, b) => (dueOf(a) ?? LATEST).localeCompare(dueOf(b) ?? LATEST))
    .map((item) => ({
      for: 'birds',
      what: `Look at: ${item.what}`,
      count: 1,
      pole,
      note: lookNote(dueOf(item), scene.on),
    }))
}

const LATEST = '9999-12-31'

function lookNote(dueOn: string | undefined, on: string): string {
  if (dueOn === undefined) return 'No interval is set for it.'
  return dueOn < on ? `Due since ${dayInWords(dueOn)}.` : `Due by ${dayInWords(dueOn)}.`
}
