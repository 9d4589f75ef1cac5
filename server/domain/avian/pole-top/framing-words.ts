import { FRAMINGS, type Framing } from './framing.ts'

/** What the words of a record say of how a pole is framed. */
export interface FramingWords {
  readonly framing: Framing
  /** Length of the arm, feet; null where none is named. */
  readonly armFt: number | null
  readonly isArmDouble: boolean
  readonly armMaterial: 'steel' | 'fibreglass' | 'wood' | null
  /** False where the framing was chosen by the number of phases alone. */
  readonly isNamed: boolean
}

/**
 * The framing that a record's words come nearest to: a name of FRAMINGS, or words of the trade as
 * "tangent, 8 ft arm", "angle, double arm, 10 ft arm", "corner, vertical dead-ends" or
 * "single-phase dead-end, transformer".
 */
export function framingInWords(words: string, phaseCount: number): FramingWords {
  const text = words.toLowerCase().replace(/crossarm/g, 'arm')
  const named = FRAMINGS.find((name) => text === name) ?? framingNamed(text, phaseCount)
  const armFt = Number(/\b(\d{1,3}(?:\.\d{1,3})?) ?-?(?:ft|foot|feet)\b/.exec(text)?.[1])
  return {
    framing: named ?? usualFraming(phaseCount),
    armFt: armFt > 0 ? armFt : null,
    isArmDouble: /double arm|double dead-?end|double-arm/.test(text),
    armMaterial: armMaterialIn(text),
    isNamed: named !== null,
  }
}

/** What most poles with that many phases have. */
function usualFraming(phaseCount: number): Framing {
  if (phaseCount <= 1) return 'pole-top pin'
  return phaseCount === 2 ? 'two-phase arm' : 'arm and pole-top pin'
}

function framingNamed(text: string, phaseCount: number): Framing | null {
  const isDeadEnd = /dead-? ?end/.test(text)
  if (phaseCount > 1 && /corner|vertical/.test(text)) return 'vertical corner'
  if (phaseCount <= 1 && !/arm/.test(text)) return singlePhaseFraming(text, isDeadEnd)
  if (/double dead-? ?end/.test(text)) return 'double dead-end arm'
  if (isDeadEnd) return 'dead-end arm'
  if (/flat/.test(text)) return 'flat arm'
  if (/arm|tangent|angle|pole-? ?top/.test(text)) return usualFraming(phaseCount)
  return null
}

function singlePhaseFraming(text: string, isDeadEnd: boolean): Framing | null {
  if (isDeadEnd) return 'single-phase dead-end'
  return /pole-? ?top|pin|single-phase|tangent/.test(text) ? 'pole-top pin' : null
}

function armMaterialIn(text: string): FramingWords['armMaterial'] {
  if (/steel arm/.test(text)) return 'steel'
  if (/fib(re|er)-?glass arm|composite arm/.test(text)) return 'fibreglass'
  return /wood(en)? arm/.test(text) ? 'wood' : null
}
