import type { Actor } from '#contract/actor.ts'
import { hasEnded, type Study, type StudyEvent } from '#contract/studies.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { SiteRequest } from '#domain/siting/site-request.ts'
import { findFeeder } from './find-feeder.ts'
import { LiveStudy, studyEvent } from './live-study.ts'
import type { Ports, SitingRun } from './ports.ts'
import { Refusal } from './refusal.ts'
import { refuseUnfitRequest } from './refuse-unfit-request.ts'
import { authorize } from './role-rules.ts'
import { endingOf, endingOfFault, INTERRUPTED } from './study-end.ts'

interface RunningStudy {
  readonly live: LiveStudy
  readonly run: SitingRun
  /** Settles once the end is kept. */
  readonly ended: Promise<void>
}

type StudyPorts = Pick<Ports, 'store' | 'siting' | 'clock' | 'newId' | 'reportFault'>

/** Siting studies: those that run, and the record of those that ended. */
export class StudyService {
  readonly #ports: StudyPorts
  readonly #running = new Map<string, RunningStudy>()
  #isStopping = false

  constructor(ports: StudyPorts) {
    this.#ports = ports
  }

  async start(actor: Actor, feederId: string, request: SiteRequest): Promise<Study> {
    authorize(actor, 'start a siting study')
    if (this.#isStopping) throw new Refusal('interrupted', 'The server is stopping. Ask again.')
    const { feeder, version } = await findFeeder(this.#ports.store, feederId)
    refuseUnfitRequest(feeder, request)
    const study: Study = {
      id: this.#ports.newId(),
      feederId,
      feederVersion: version,
      request,
      state: 'queued',
      done: 0,
      total: 0,
      phase: 'Waiting',
      startedBy: actor,
      startedAt: this.#ports.clock(),
      endedAt: null,
    }
    await this.#ports.store.studies.add(study)
    this.#launch(study, feeder)
    return study
  }

  async get(actor: Actor, studyId: string): Promise<Study> {
    authorize(actor, 'read')
    return this.#running.get(studyId)?.live.study ?? this.#findEnded(studyId)
  }

  /** Its present state first, then each change, and last how it ended. */
  async follow(actor: Actor, studyId: string): Promise<AsyncIterable<StudyEvent>> {
    authorize(actor, 'read')
    const running = this.#running.get(studyId)
    if (running) return running.live.follow()
    return once(studyEvent(await this.#findEnded(studyId)))
  }

  /** Answers once the worker has let go. */
  async cancel(actor: Actor, studyId: string): Promise<Study> {
    authorize(actor, 'cancel a siting study')
    const running = this.#running.get(studyId)
    if (running) {
      running.run.cancel()
      await running.ended
    }
    const study = running?.live.study ?? (await this.#findEnded(studyId))
    if (running && study.state === 'cancelled') return study
    const why = hasEnded(study.state)
      ? `The study has ended (${study.state}); it cannot be cancelled.`
      : 'The study runs on another server with the same data folder; cancel it there.'
    throw new Refusal('wrong-state', why, { current: study })
  }

  /** Ends what still runs, as failed, so that the store can be closed. */
  async stop(): Promise<void> {
    this.#isStopping = true
    const running = [...this.#running.values()]
    for (const { run } of running) run.cancel()
    await Promise.all(running.map(({ ended }) => ended))
  }

  /** Marks the named studies as failed: the server that ran them is gone. */
  async closeInterrupted(studyIds: readonly string[]): Promise<void> {
    for (const id of studyIds) {
      const study = await this.#findEnded(id)
      await this.#ports.store.studies.end(id, {
        ...study,
        ...INTERRUPTED,
        endedAt: this.#ports.clock(),
      })
    }
  }

  async #findEnded(studyId: string): Promise<Study> {
    const study = await this.#ports.store.studies.find(studyId)
    if (!study) throw new Refusal('not-found', `There is no study "${studyId}".`)
    return study
  }

  #launch(study: Study, feeder: Feeder): void {
    const live = new LiveStudy(study)
    let marked: Promise<void> = Promise.resolve()
    const run = this.#ports.siting.run(feeder, study.request, (done, total, phase) => {
      if (hasEnded(live.study.state)) return
      if (live.study.state === 'queued') marked = this.#markRunning(study.id)
      live.update({ state: 'running', done, total, phase })
    })
    const ended = this.#seeThrough(live, run, () => marked)
    this.#running.set(study.id, { live, run, ended })
  }

  /** The study goes on even where this cannot be kept: its end is kept by itself. */
  #markRunning(studyId: string): Promise<void> {
    return this.#ports.store.studies.setRunning(studyId).catch(this.#ports.reportFault)
  }

  async #seeThrough(live: LiveStudy, run: SitingRun, marked: () => Promise<void>): Promise<void> {
    const ending = await run.outcome.then(endingOf, (fault: unknown) => {
      this.#ports.reportFault(fault)
      return endingOfFault(fault)
    })
    const isInterrupted = this.#isStopping && ending.state === 'cancelled'
    const end = { ...(isInterrupted ? INTERRUPTED : ending), endedAt: this.#ports.clock() }
    try {
      await marked()
      await this.#ports.store.studies.end(live.study.id, { ...live.study, ...end })
    } catch (fault) {
      this.#ports.reportFault(fault)
    }
    live.update(end)
    this.#running.delete(live.study.id)
  }
}

async function* once(event: StudyEvent): AsyncGenerator<StudyEvent> {
  yield event
}
