import { mkdir, mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach } from 'vitest'
import type { Place } from '../../server/store/place.ts'
import {
  type FreshDatabase,
  freshDatabase,
  TESTED_KIND,
  type TestedKind,
} from '../support/fresh-database.ts'

/** Empty places for a record, as many as a test needs, and a folder around them. */
export function temporaryPlaces() {
  let folder = ''
  let opened: FreshDatabase[] = []
  beforeEach(async () => {
    folder = await mkdtemp(join(tmpdir(), 'crossarm-places-'))
    opened = []
  })
  afterEach(async () => {
    for (const fresh of opened) await fresh.drop()
    await rm(folder, { recursive: true, force: true })
  })
  return {
    folder: () => folder,
    freshPlace: async (name: string, kind: TestedKind = TESTED_KIND): Promise<Place> => {
      const fresh = await freshDatabase(kind)
      opened.push(fresh)
      const dataFolder = join(folder, name)
      await mkdir(dataFolder)
      return { dataFolder, ...(fresh.databaseUrl && { databaseUrl: fresh.databaseUrl }) }
    },
  }
}
