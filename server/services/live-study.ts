import { hasEnded, type Study, type StudyEvent } from '#contract/studies.ts'

/** A study as it stands now, for those who follow it. Ends when its state has ended. */
export class LiveStudy {
  #study: Study
  #wake: () => void = () => {}
  #change: Promise<void>

  constructor(study: Study) {
    this.#study = study
    this.#change = this.#nextChange()
  }

  get study(): Study {
    return this.#study
  }

  update(changes: Partial<Study>): void {
    this.#study = { ...this.#study, ...changes }
    const wake = this.#wake
    this.#change = this.#nextChange()
    wake()
  }

  /** The present state first, then the newest after each change: a slow reader skips what is between. */
  async *follow(): AsyncGenerator<StudyEvent> {
    while (true) {
      const change = this.#change
      const event = studyEvent(this.#study)
      yield event
      if (event.event !== 'progress') return
      await change
    }
  }

  #nextChange(): Promise<void> {
    return new Promise((resolve) => {
      this.#wake = resolve
    })
  }
}

export function studyEvent(study: Study): StudyEvent {
  const { state, done, total, phase } = study
  return hasEnded(state)
    ? { event: state as 'done' | 'failed' | 'cancelled', data: study }
    : { event: 'progress', data: { state, done, total, phase } }
}
