import type { AskDraft, StepDraft } from './order-draft.ts'

/** The step in another place; unchanged where there is none that way. */
export function moveStep(steps: readonly StepDraft[], id: string, by: 1 | -1): StepDraft[] {
  const from = steps.findIndex((step) => step.id === id)
  const to = from + by
  const moved = steps[from]
  if (!moved || to < 0 || to >= steps.length) return [...steps]
  const others = steps.filter((step) => step !== moved)
  return [...others.slice(0, to), moved, ...others.slice(to)]
}

/** A new, empty step behind another, or at the end. */
export function addStep(
  steps: readonly StepDraft[],
  behindId: string | null,
): { readonly steps: StepDraft[]; readonly added: string } {
  const id = freeId('step', steps)
  const at = steps.findIndex((step) => step.id === behindId)
  const place = at < 0 ? steps.length : at + 1
  return { steps: [...steps.slice(0, place), emptyStep(id), ...steps.slice(place)], added: id }
}

export function changeStep(
  steps: readonly StepDraft[],
  id: string,
  part: Partial<StepDraft>,
): StepDraft[] {
  return steps.map((step) => (step.id === id ? { ...step, ...part } : step))
}

export function addAsk(asks: readonly AskDraft[]): AskDraft[] {
  const id = freeId('ask', asks)
  return [
    ...asks,
    {
      ...{ id, what: '', kind: 'yes or no', isNeeded: true, judge: null },
      ...{ unit: '', options: '', least: '', most: '', ifNo: '' },
    },
  ]
}

function emptyStep(id: string): StepDraft {
  return {
    id,
    text: '',
    hazard: '',
    isHoldPoint: false,
    each: 'once',
    action: null,
    asks: [],
    onlyWith: null,
    readsAsFound: null,
    signedBy: 'one of the crew',
    mayBeLeftOut: false,
  }
}

/** The first of "step-1", "step-2" … that none has; a run refers to ids, so none is given twice. */
function freeId(word: string, taken: readonly { readonly id: string }[]): string {
  for (let number = taken.length + 1; ; number++) {
    const id = `${word}-${number}`
    if (taken.every((other) => other.id !== id)) return id
  }
}
