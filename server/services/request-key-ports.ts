/** A write that was done, and what it answered. */
export interface KeptAnswer {
  /** Of all that was asked; the same key with another is refused. */
  readonly fingerprint: string
  readonly answer: unknown
}

export interface RequestKeyStore {
  find(askerId: string, key: string): Promise<KeptAnswer | null>
  keep(askerId: string, key: string, kept: KeptAnswer, at: string): Promise<void>
  /** @param before moment; what was kept earlier goes */
  forget(before: string): Promise<void>
}
