import type { birdRoutes } from '#contract/bird-routes.ts'
import type { Services } from '../services/services.ts'
import type { Handlers } from './handlers.ts'
import { textStream } from './text-stream.ts'

export function birdHandlers(services: Services): Pick<Handlers, keyof typeof birdRoutes> {
  return {
    ...nestHandlers(services),
    ...incidentHandlers(services),
    ...poleTopHandlers(services),
    ...programmeHandlers(services),
    ...fileHandlers(services),
    getBirdSettings: () => services.birdSettings.get(),
    changeBirdSettings: ({ body }, asker) => services.birdSettings.change(asker, body),
  }
}

const MEDIA_TYPES = {
  csv: 'text/csv; charset=utf-8; header=present',
  geojson: 'application/geo+json',
} as const

type FileRoutes = 'takeOutBirdPoles' | 'takeOutIncidents'

function fileHandlers({ birdFiles }: Services): Pick<Handlers, FileRoutes> {
  return {
    takeOutBirdPoles: async ({ params: { feederId }, query: { as } }, asker) => ({
      mediaType: MEDIA_TYPES[as],
      fileName: `${feederId}-bird-poles.${as}`,
      content: textStream(await birdFiles.poles(asker, feederId, as)),
    }),
    takeOutIncidents: async ({ params: { feederId }, query: { as } }, asker) => ({
      mediaType: MEDIA_TYPES[as],
      fileName: `${feederId}-bird-finds.${as}`,
      content: textStream(await birdFiles.incidents(asker, feederId, as)),
    }),
  }
}

type NestRoutes = 'listNests' | 'addNest' | 'changeNest' | 'deleteNest' | 'restoreNest'

function nestHandlers({ nests }: Services): Pick<Handlers, NestRoutes> {
  return {
    listNests: ({ params }) => nests.list(params.feederId),
    addNest: ({ params, body }, asker) => nests.add(asker, params.feederId, body),
    changeNest: ({ params, body: { version, ...body } }, asker) =>
      nests.change(asker, params.feederId, params.nestId, version, body),
    deleteNest: ({ params, query }, asker) =>
      nests.delete(asker, params.feederId, params.nestId, query.version),
    restoreNest: ({ params, query }, asker) =>
      nests.restore(asker, params.feederId, params.nestId, query.version),
  }
}

type IncidentRoutes =
  | 'listIncidents'
  | 'addIncident'
  | 'changeIncident'
  | 'deleteIncident'
  | 'restoreIncident'

function incidentHandlers({ incidents }: Services): Pick<Handlers, IncidentRoutes> {
  return {
    listIncidents: ({ params }) => incidents.list(params.feederId),
    addIncident: ({ params, body }, asker) => incidents.add(asker, params.feederId, body),
    changeIncident: ({ params, body: { version, ...body } }, asker) =>
      incidents.change(asker, params.feederId, params.incidentId, version, body),
    deleteIncident: ({ params, query }, asker) =>
      incidents.delete(asker, params.feederId, params.incidentId, query.version),
    restoreIncident: ({ params, query }, asker) =>
      incidents.restore(asker, params.feederId, params.incidentId, query.version),
  }
}

type PoleTopRoutes = 'listPoleTops' | 'choosePoleTop' | 'deletePoleTop' | 'restorePoleTop'

function poleTopHandlers({ poleTops }: Services): Pick<Handlers, PoleTopRoutes> {
  return {
    listPoleTops: ({ params }) => poleTops.list(params.feederId),
    choosePoleTop: ({ params, body }, asker) =>
      poleTops.choose(asker, params.feederId, params.poleId, body),
    deletePoleTop: ({ params, query }, asker) =>
      poleTops.delete(asker, params.feederId, params.poleId, query.version),
    restorePoleTop: ({ params, query }, asker) =>
      poleTops.restore(asker, params.feederId, params.poleId, query.version),
  }
}

type ProgrammeRoutes =
  | 'listProgrammes'
  | 'keepProgramme'
  | 'changeProgramme'
  | 'deleteProgramme'
  | 'restoreProgramme'

function programmeHandlers({ programmes }: Services): Pick<Handlers, ProgrammeRoutes> {
  return {
    listProgrammes: ({ params }) => programmes.list(params.feederId),
    keepProgramme: ({ params, body }, asker) => programmes.add(asker, params.feederId, body),
    changeProgramme: ({ params, body: { version, ...body } }, asker) =>
      programmes.change(asker, params.feederId, params.programmeId, version, body),
    deleteProgramme: ({ params, query }, asker) =>
      programmes.delete(asker, params.feederId, params.programmeId, query.version),
    restoreProgramme: ({ params, query }, asker) =>
      programmes.restore(asker, params.feederId, params.programmeId, query.version),
  }
}
