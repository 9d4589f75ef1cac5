import pg from 'pg'

/** Named in the migration that tells of changes. */
const CHANNEL = 'crossarm_work'

const AGAIN_AFTER_MS = 1000

/**
 * Listens to changes that other processes make in the table of work. Nothing depends on it: what is
 * missed while the connection is down is found by looking.
 */
export function hearChanges(
  url: string,
  heard: (workId: string, state: string) => void,
): { close(): Promise<void> } {
  let isClosed = false
  let client: pg.Client | null = null
  let timer: NodeJS.Timeout | undefined
  const connect = () => {
    const next = new pg.Client({ connectionString: url, application_name: 'crossarm work' })
    client = next
    let isLost = false
    const lost = () => {
      if (isLost || isClosed) return
      isLost = true
      timer = setTimeout(connect, AGAIN_AFTER_MS)
    }
    next.on('error', lost)
    next.on('end', lost)
    next.on('notification', ({ payload = '' }) => {
      const [workId = '', state = ''] = payload.split(' ')
      heard(workId, state)
    })
    next
      .connect()
      .then(() => next.query(`listen ${CHANNEL}`))
      .catch(lost)
  }
  connect()
  return {
    close: async () => {
      isClosed = true
      clearTimeout(timer)
      await client?.end().catch(() => undefined)
    },
  }
}
