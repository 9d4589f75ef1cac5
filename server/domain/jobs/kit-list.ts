import { bankKit } from './bank-kit.ts'
import { birdKit } from './bird-kit.ts'
import { type DraftScene, isBankPole } from './draft-scene.ts'
import type { KitLine } from './job-plan.ts'
import { toolKit } from './tool-kit.ts'

/** What the truck has to carry: for the bank, for switching, for the birds, labels and tools. */
export function kitList(scene: DraftScene): KitLine[] {
  return [
    ...bankKit(scene),
    ...scene.works.flatMap((work) => birdKit(scene, work)),
    ...labelKit(scene),
    ...toolKit(scene),
  ]
}

function labelKit(scene: DraftScene): KitLine[] {
  const { bank, kind, works } = scene
  const isSet = kind === 'set a bank' || kind === 'change out a bank'
  return works.flatMap(({ pole }): KitLine[] => [
    { for: 'labels', what: `Label of pole ${pole} with its QR code`, count: 1, pole },
    ...(bank && isSet && isBankPole(scene, pole)
      ? [
          {
            for: 'labels' as const,
            what: `Label of bank ${bank.regulator.id}`,
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
