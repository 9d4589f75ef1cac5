/** Which bank of a kept proposal is being handed over: "hand-over~0"; null where none is. */
export function handedBankOf(view: string | null): number | null {
  const [part, index] = view?.split('~') ?? []
  if (part !== 'hand-over') return null
  return index === '1' ? 1 : 0
}

export const viewOfHandOver = (bank: number): string => `hand-over~${bank}`
