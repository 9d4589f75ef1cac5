import { bankInWords } from '../feeder/bank-in-words.ts'
import { bankKit } from './bank-kit.ts'
import { birdKit } from './bird-kit.ts'
import { cutTo } from './cut-to.ts'
import { type DraftScene, isBankPole } from './draft-scene.ts'
import { setsUnits } from './is-bank-kind.ts'
import type { KitLine } from './job-plan.ts'
import { toolKit } from './tool-kit.ts'

/** As `KitLine` holds. */
const MOST_WHAT_LETTERS = 200
const MOST_NOTE_LETTERS = 400

/** What the truck has to carry: for the bank, for switching, for the birds, labels and tools. */
export function kitList(scene: DraftScene): KitLine[] {
  const lines = [
    ...bankKit(scene),
    ...scene.works.flatMap((work) => birdKit(scene, work)),
    ...labelKit(scene),
    ...toolKit(scene),
  ]
  return lines.map(({ note, what, ...line }) => ({
    ...line,
    what: cutTo(MOST_WHAT_LETTERS, what),
    ...(note !== undefined && { note: cutTo(MOST_NOTE_LETTERS, note) }),
  }))
}

function labelKit(scene: DraftScene): KitLine[] {
  const { bank, kind, works } = scene
  return works.flatMap(({ pole }): KitLine[] => [
    { for: 'labels', what: `Label of pole ${pole} with its QR code`, count: 1, pole },
    ...(bank && setsUnits(kind) && isBankPole(scene, pole)
      ? [
          {
            for: 'labels' as const,
            what: `Label of the bank: ${bankInWords(bank.regulator)}`,
            count: 1,
            pole,
          },
          {
            for: 'labels' as const,
            what: 'Phase, S, L and SL markings for a unit and its switches',
            count: bank.regulator.phases.length,
            pole,
          },
        ]
      : []),
  ])
}
