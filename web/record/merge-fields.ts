/** Whose value a field takes. */
export type Whose = 'mine' | 'theirs'

export type Fields = Readonly<Record<string, string>>

export interface ComparedField {
  readonly key: string
  readonly mine: string
  readonly theirs: string
  /** Who changed it since the form was opened; `unknown` where that state is not at hand. */
  readonly changedBy: 'nobody' | 'me' | 'them' | 'both' | 'unknown'
  /** What is chosen as long as the person chose nothing; null where only they can say. */
  readonly offered: Whose | null
}

/**
 * Holds two states of a thing against the one that both began from.
 *
 * @param base as it stood when the form was opened, or null
 */
export function compareFields(
  keys: readonly string[],
  base: Fields | null,
  mine: Fields,
  theirs: Fields,
): ComparedField[] {
  return keys.map((key) => {
    const [was, my, their] = [base?.[key] ?? '', mine[key] ?? '', theirs[key] ?? '']
    const compared = { key, mine: my, theirs: their }
    if (my === their) return { ...compared, changedBy: 'nobody', offered: 'theirs' }
    if (base === null) return { ...compared, changedBy: 'unknown', offered: null }
    if (was === their) return { ...compared, changedBy: 'me', offered: 'mine' }
    if (was === my) return { ...compared, changedBy: 'them', offered: 'theirs' }
    return { ...compared, changedBy: 'both', offered: null }
  })
}

export type Choices = Readonly<Record<string, Whose>>

/** Whose value each field takes now; null where the person has still to say. */
export function chosenOf({ key, offered }: ComparedField, choices: Choices): Whose | null {
  return choices[key] ?? offered
}

/** Keys of the fields that the person has still to choose. */
export function openChoices(compared: readonly ComparedField[], choices: Choices): string[] {
  return compared.filter((field) => chosenOf(field, choices) === null).map(({ key }) => key)
}

/** Their state with the fields of mine that were chosen. */
export function mergeFields(compared: readonly ComparedField[], choices: Choices): Fields {
  return Object.fromEntries(
    compared.map((field) => [
      field.key,
      chosenOf(field, choices) === 'mine' ? field.mine : field.theirs,
    ]),
  )
}
